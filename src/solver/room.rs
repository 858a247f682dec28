//! The best corner of what a card with room allows: linear programming inside the scheme of the one density.
//!
//! At a density every rule is a linear row, so the best answer is a corner: the crossing of as many rules as there are masses
//! to find. The corner is put back through the exact engine ([`MassBalance`]), with the ends and bounds that it is the
//! crossing of as exact targets and amounts, and the rows are laid again at what that makes. A move along an edge changes
//! the density too: the rows are corrected by how they move with it, so that a corner that comes back is the best one of
//! the true, bent rules and not of a liquid that does not shrink.
//!
//! Where the rules cannot be met together the same search gives what misses them least, counted in what a kitchen can tell.

mod moved;

use crate::card::TargetRange;
use crate::mixture::Mixture;
use crate::properties::{per_gram_of_liquid, value_of};

use super::balance::{BalanceError, BalanceLine, MassBalance, MassRule, Yield, below_nothing};
use super::simplex::{LinearRow, NoVertex, Sense, best};
use super::target::{TargetValue, tolerance};

pub use moved::MovedRule;

/// A bound of a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineBound {
    /// The part (index).
    pub line: usize,
    /// Whether there may be no more of it; else no less.
    pub upper: bool,
    /// The bound.
    pub rule: MassRule,
}

/// A stage with room, as the engine sees it.
#[derive(Clone, Debug)]
pub struct Room {
    /// The parts.
    pub lines: Vec<BalanceLine>,
    /// Targets that are numbers.
    pub targets: Vec<TargetValue>,
    /// Targets with room.
    pub ranges: Vec<TargetRange>,
    /// Bounds of parts.
    pub bounds: Vec<LineBound>,
    /// How much of it.
    pub yields: Option<Yield>,
    /// Share of the strained batch that is left behind.
    pub left_behind: f64,
}

/// A rule that can be given up, by its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// A target that is a number.
    Exact(usize),
    /// The end of a range: its upper one, or its lower.
    End(usize, bool),
    /// A bound of a part.
    Bound(usize),
}

/// What decides a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pin {
    /// There is none of this part.
    Zero(usize),
    /// This rule is met to the last digit.
    Rule(Rule),
}

/// An answer.
#[derive(Clone, Debug, PartialEq)]
pub struct BestCorner {
    /// Grams of each part.
    pub masses: Vec<f64>,
    /// What decides it.
    pub pins: Vec<Pin>,
}

impl BestCorner {
    /// Whether this rule decides it.
    pub fn is_pinned(&self, rule: Rule) -> bool {
        self.pins.contains(&Pin::Rule(rule))
    }
}

/// A rule that cannot be met with the others, and what comes nearest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Missed {
    /// Which.
    pub rule: Rule,
    /// What can be had: in the unit of the target, or grams of the part.
    pub reaches: f64,
    /// By how much it is missed, in the same unit.
    pub by: f64,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum NoRoom {
    /// These rules cannot be met with the others: what misses them least, in what a kitchen can tell.
    Missed(Vec<Missed>),
    /// What is written and the size leave no room at all.
    Crowded,
    /// What was asked for has no end.
    Unbounded,
    /// The engine has no answer there.
    Engine(BalanceError),
}

/// A density to begin with, g/ml; any does.
const BEGIN_G_PER_ML: f64 = 1.1;
/// A corner comes back after two or three rounds; what has not settled after so many circles.
const ROUNDS: usize = 30;
/// So far, as a share, a rule may be off in the exact answer (rounding of f64).
const KEPT: f64 = 1e-9;

impl Room {
    fn balance(&self) -> MassBalance<'_> {
        MassBalance { lines: &self.lines, targets: &[], yields: self.yields, left_behind: self.left_behind }
    }

    /// So many amounts are left open once all that is written has been used.
    pub fn freedoms(&self) -> usize {
        let rules = self.targets.len() + usize::from(self.yields.is_some());
        self.balance().unknowns().saturating_sub(rules)
    }

    /// Whether the mass of a part is to be found.
    pub(crate) fn is_open(&self, line: usize) -> bool {
        self.lines.get(line).is_some_and(|line| line.rule == MassRule::Open)
    }

    /// Liquid that these masses make.
    pub fn liquid_of(&self, masses: &[f64]) -> Mixture {
        self.balance().liquid_of(masses)
    }

    fn rules(&self) -> Vec<Rule> {
        let ends = self.ranges.iter().enumerate().flat_map(|(i, range)| {
            let least = range.least.map(|_| Rule::End(i, false));
            least.into_iter().chain(range.most.map(|_| Rule::End(i, true)))
        });
        let exact = (0..self.targets.len()).map(Rule::Exact);
        exact.chain(ends).chain((0..self.bounds.len()).map(Rule::Bound)).collect()
    }

    /// The target that a rule on the liquid asks for.
    pub fn target_of(&self, rule: Rule) -> Option<TargetValue> {
        match rule {
            Rule::Exact(i) => self.targets.get(i).copied(),
            Rule::End(i, upper) => {
                let range = self.ranges.get(i)?;
                Some((range.kind, if upper { range.most? } else { range.least? }))
            }
            Rule::Bound(_) => None,
        }
    }

    /// The corner that is the least in each of the `aims` (per gram of each part), one after the other; among equal ones
    /// that with the most of what stands first on the card.
    ///
    /// # Errors
    /// Where the rules cannot be met together, or the engine has no answer.
    pub fn land(&self, aims: &[Vec<f64>]) -> Result<BestCorner, NoRoom> {
        let mut rho = BEGIN_G_PER_ML;
        let mut near: Option<Vec<f64>> = None;
        let mut last: Option<BestCorner> = None;
        let mut seen: Vec<BestCorner> = Vec::new();
        for _ in 0..ROUNDS {
            let (pins, rough) = self.corner_at(rho, near.as_deref(), aims)?;
            let exact = self.exact(&pins);
            match exact {
                Ok(masses) => {
                    let corner = BestCorner { masses, pins };
                    if last.as_ref().is_some_and(|last| last.pins == corner.pins) {
                        return self.kept(corner);
                    }
                    near = Some(corner.masses.clone());
                    seen.push(corner.clone());
                    last = Some(corner);
                }
                // Away from the answer a corner may have no liquid: the rows are laid again where the search is.
                Err(_) => (near, last) = (Some(rough), None),
            }
            rho = self.balance().density_on_the_way(near.as_deref().unwrap_or_default());
        }
        // Two corners that call each other the better one are as good to what a density can tell.
        let worth = |corner: &BestCorner| aims.first().map_or(0.0, |aim| dot(aim, &corner.masses));
        let kept = seen.into_iter().filter(|corner| self.missed(corner).is_empty());
        kept.reduce(|a, b| if worth(&b) < worth(&a) { b } else { a }).ok_or(NoRoom::Engine(BalanceError::NoDensityFits))
    }

    fn kept(&self, corner: BestCorner) -> Result<BestCorner, NoRoom> {
        let missed = self.missed(&corner);
        if missed.is_empty() { Ok(corner) } else { Err(NoRoom::Missed(missed)) }
    }

    /// The best corner of the rows at a density, corrected for how they move with it at the masses `near`: what decides it,
    /// and about what it weighs.
    fn corner_at(&self, rho: f64, near: Option<&[f64]>, aims: &[Vec<f64>]) -> Result<(Vec<Pin>, Vec<f64>), NoRoom> {
        let balance = self.balance();
        let (n, rules) = (self.lines.len(), self.rules());
        // Masses are counted in shares of about the batch, so that all columns are of one size.
        let size = match self.yields {
            Some(Yield::Grams(g)) => g,
            Some(Yield::Millilitres(ml)) => rho * ml,
            None => near.map_or_else(|| self.written_g(), |masses| masses.iter().sum()),
        };
        let slope = near.map(|masses| self.slope(masses));
        let bent = |at: &dyn Fn(f64) -> (Vec<f64>, f64)| {
            let (mut row, right) = at(rho);
            if let (Some(masses), Some(slope)) = (near, &slope) {
                let off = |rho: f64| {
                    let (row, right) = at(rho);
                    dot(&row, masses) - right
                };
                let step = 1e-5;
                let moves = (off(rho + step) - off(rho - step)) / (2.0 * step);
                row.iter_mut().zip(slope).for_each(|(x, g)| *x += moves * g);
            }
            (row, right / size)
        };
        let wide = n + 2 * rules.len();
        let as_row = |(mut of, right): (Vec<f64>, f64), sense| {
            of.resize(wide, 0.0);
            LinearRow { of, sense, right }
        };
        let mut rows = Vec::new();
        for at in 0..balance.rows_of_lines(rho).len() {
            rows.push(as_row(bent(&|rho| balance.rows_of_lines(rho).swap_remove(at)), Sense::Equal));
        }
        if self.yields.is_some() {
            rows.push(as_row(bent(&|rho| balance.row_of_yield(rho).unwrap_or_default()), Sense::Equal));
        }
        let fixed = rows.len();
        let liquid = near.map_or(1.0, |masses| self.liquid_of(masses).total_grams() / size);
        // What is not there cannot be had, a target can be missed: bounds are given up last.
        let (mut misses, mut lacks) = (vec![0.0; wide], vec![0.0; wide]);
        for (at, &rule) in rules.iter().enumerate() {
            let (sense, unit, weight) = self.elastic(rule, rho, liquid, size);
            let mut row = as_row(bent(&|rho| self.row_of(rule, rho)), sense);
            let (short, over) = (n + 2 * at, n + 2 * at + 1);
            let given_up = if matches!(rule, Rule::Bound(_)) { &mut lacks } else { &mut misses };
            if sense != Sense::AtMost {
                row.of[short] = unit;
                given_up[short] = weight;
            }
            if sense != Sense::AtLeast {
                row.of[over] = -unit;
                given_up[over] = weight;
            }
            rows.push(row);
        }
        let widened = |aim: &Vec<f64>| {
            let mut aim = aim.clone();
            aim.resize(wide, 0.0);
            aim
        };
        let first = |unknown: &super::balance::Unknown| {
            let mut aim = vec![0.0; wide];
            unknown.iter().for_each(|&(i, _)| aim[i] = -1.0);
            aim
        };
        let ties = balance.found_together();
        let all: Vec<Vec<f64>> =
            [lacks, misses].into_iter().chain(aims.iter().map(widened)).chain(ties.iter().map(first)).collect();
        let vertex = best(&rows, &all).map_err(|why| match why {
            NoVertex::Infeasible => NoRoom::Crowded,
            NoVertex::Unbounded => NoRoom::Unbounded,
        })?;
        let open = |i: &usize| matches!(self.lines[*i].rule, MassRule::Open | MassRule::Ratio(_));
        let zeros = (0..n).filter(|&i| vertex.at_zero[i]).filter(open).map(Pin::Zero);
        let is_met = |at: usize| {
            let elastic = [n + 2 * at, n + 2 * at + 1];
            vertex.tight[fixed + at] && elastic.iter().all(|&column| vertex.at_zero[column])
        };
        let met = rules.iter().enumerate().filter(|(at, _)| is_met(*at)).map(|(_, rule)| Pin::Rule(*rule));
        Ok((zeros.chain(met).collect(), vertex.x[..n].iter().map(|share| share * size).collect()))
    }

    /// The row of a rule that can be given up.
    fn row_of(&self, rule: Rule, rho: f64) -> (Vec<f64>, f64) {
        let balance = self.balance();
        match (self.target_of(rule), rule) {
            (Some(target), _) => (balance.row_of_target(target, rho), 0.0),
            (None, Rule::Bound(i)) => {
                let bound = self.bounds[i];
                balance.row_of_rule(bound.line, bound.rule, rho).unwrap_or_default()
            }
            (None, _) => (vec![0.0; self.lines.len()], 0.0),
        }
    }

    /// How a rule stands to its row, how much of the row one unit is that it is missed by, and what that unit weighs.
    fn elastic(&self, rule: Rule, rho: f64, liquid: f64, size: f64) -> (Sense, f64, f64) {
        let sense = match rule {
            Rule::Exact(_) => Sense::Equal,
            Rule::End(_, true) => Sense::AtMost,
            Rule::End(_, false) => Sense::AtLeast,
            Rule::Bound(i) if self.bounds[i].upper => Sense::AtMost,
            Rule::Bound(_) => Sense::AtLeast,
        };
        match (self.target_of(rule), rule) {
            (Some((kind, value)), _) => (sense, per_gram_of_liquid(kind, rho) * liquid, 1.0 / tolerance(kind, value)),
            (None, Rule::Bound(i)) => {
                let unit = match self.bounds[i].rule {
                    MassRule::Fixed(g) => g / size,
                    MassRule::Dose(d) => d / rho * liquid,
                    MassRule::Share(p) => p * liquid,
                    MassRule::Open | MassRule::Ratio(_) => 0.0,
                };
                (sense, if unit > 0.0 { unit } else { 1.0 }, 1.0)
            }
            (None, _) => (sense, 1.0, 1.0),
        }
    }

    fn written_g(&self) -> f64 {
        let fixed = |line: &BalanceLine| match line.rule {
            MassRule::Fixed(g) => g,
            _ => 0.0,
        };
        let sum: f64 = self.lines.iter().map(fixed).sum();
        if sum > 0.0 { sum } else { 1000.0 }
    }

    /// How the density moves with each mass, g/ml for a gram.
    fn slope(&self, masses: &[f64]) -> Vec<f64> {
        let balance = self.balance();
        let step = 1e-6 * masses.iter().sum::<f64>().max(f64::MIN_POSITIVE);
        let here = balance.density_on_the_way(masses);
        let mut moved = masses.to_vec();
        let mut of = |i: usize| {
            let before = moved[i];
            moved[i] += step;
            let there = balance.density_on_the_way(&moved);
            moved[i] = before;
            (there - here) / step
        };
        (0..masses.len()).map(&mut of).collect()
    }

    /// The exact answer with these ends and bounds as targets and amounts, whether or not it keeps the others.
    fn exact(&self, pins: &[Pin]) -> Result<Vec<f64>, BalanceError> {
        let mut lines = self.lines.clone();
        let mut targets = Vec::new();
        for pin in pins {
            match *pin {
                Pin::Zero(i) => lines[i].rule = MassRule::Fixed(0.0),
                Pin::Rule(Rule::Bound(i)) => lines[self.bounds[i].line].rule = self.bounds[i].rule,
                Pin::Rule(rule) => targets.extend(self.target_of(rule)),
            }
        }
        let balance = MassBalance { lines: &lines, targets: &targets, ..self.balance() };
        let mut masses = balance.solve_signed()?;
        let short = below_nothing(&masses);
        if !short.is_empty() {
            return Err(BalanceError::Negative(short));
        }
        masses.iter_mut().for_each(|mass| *mass = mass.max(0.0));
        Ok(masses)
    }

    /// The rules that an answer does not keep.
    fn missed(&self, corner: &BestCorner) -> Vec<Missed> {
        let liquid = self.liquid_of(&corner.masses);
        let rho = self.balance().density_on_the_way(&corner.masses);
        let miss = |rule: Rule| {
            let (reaches, asked) = match (self.target_of(rule), rule) {
                (Some((kind, value)), _) => (value_of(kind, &liquid)?, value),
                (None, Rule::Bound(i)) => {
                    let bound = self.bounds[i];
                    let asked = match bound.rule {
                        MassRule::Dose(d) => d * liquid.total_grams() / rho,
                        MassRule::Share(p) => p * liquid.total_grams(),
                        MassRule::Fixed(g) => g,
                        MassRule::Open | MassRule::Ratio(_) => return None,
                    };
                    (corner.masses[bound.line], asked)
                }
                (None, _) => return None,
            };
            let by = match self.elastic(rule, rho, 1.0, 1.0).0 {
                Sense::Equal => (reaches - asked).abs(),
                Sense::AtLeast => asked - reaches,
                Sense::AtMost => reaches - asked,
            };
            (by > KEPT * asked.abs().max(1.0)).then_some(Missed { rule, reaches, by })
        };
        self.rules().into_iter().filter_map(miss).collect()
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
