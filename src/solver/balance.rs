//! The engine: masses of the parts of one stage from its rules, its targets and its yield.
//!
//! Given the density of the finished liquid every rule is a linear row in the masses; the density
//! itself is the one scalar left, closed by a bracketed root on 750 to 1650 kg/m³. `solve`,
//! `square`, `adjust` and `swap` all come here.

use std::fmt;

use crate::mixture::alcohol::ETHANOL_G_PER_ML;
use crate::mixture::root::{self, NoRoot};
use crate::mixture::{Component, Mixture, OutOfRange};
use crate::properties::{TargetKind, amount_for, per_gram_of_liquid};
use crate::units::{celsius, in_kg_per_m3};

use super::target::TargetValue;

/// Densities between which every liquid of the trade lies, g/ml.
const DENSITY_RANGE_G_PER_ML: (f64, f64) = (0.75, 1.65);

/// What a gram of solids takes up in a liquid, about that of sugar: steers the search for a density and is
/// in no answer.
const SOLIDS_ML_PER_G: f64 = 0.62;

/// How the mass of a part is fixed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MassRule {
    /// This many grams.
    Fixed(f64),
    /// This share of a ratio (by mass) with all parts so ruled.
    Ratio(f64),
    /// Grams for each millilitre of the stage's liquid.
    Dose(f64),
    /// A fraction of the mass of the stage's liquid.
    Share(f64),
    /// To be found.
    Open,
}

/// What one gram of a part brings, and how its mass is fixed.
#[derive(Clone, Copy, Debug)]
pub struct BalanceLine {
    /// What joins the liquid, for one gram of the part, evaporation and straining taken off.
    pub joins: Mixture,
    /// Liquid that its strained solids keep, grams for each gram of the part.
    pub keeps: f64,
    /// How its mass is fixed.
    pub rule: MassRule,
}

impl BalanceLine {
    /// Water that is boiled off until the rules are met: one more unknown, in grams that go up.
    pub(crate) fn boiled_off() -> Self {
        Self { joins: Mixture::of(&[(Component::Water, -1.0)]), keeps: 0.0, rule: MassRule::Open }
    }

    fn liquid(&self) -> f64 {
        self.joins.total_grams()
    }
}

/// How much shall end in the bottle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Yield {
    /// Millilitres at 20 °C.
    Millilitres(f64),
    /// Grams.
    Grams(f64),
}

/// Parts that are found together, each with its share: an open part alone, or all parts in ratio.
pub(super) type Unknown = Vec<(usize, f64)>;

/// The lines with these parts held at `x` times their shares.
pub(super) fn held(lines: &[BalanceLine], unknown: &Unknown, x: f64) -> Vec<BalanceLine> {
    let mut lines = lines.to_vec();
    for &(i, share) in unknown {
        if let Some(line) = lines.get_mut(i) {
            line.rule = MassRule::Fixed(share * x);
        }
    }
    lines
}

/// One stage as the engine sees it.
#[derive(Clone, Debug)]
pub struct MassBalance<'a> {
    /// The parts.
    pub lines: &'a [BalanceLine],
    /// What the liquid shall be. Never pH: that is an outer search on acid.
    pub targets: &'a [TargetValue],
    /// How much of it, if that is asked for.
    pub yields: Option<Yield>,
    /// Share of the strained batch that is left behind.
    pub left_behind: f64,
}

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum BalanceError {
    /// More unknowns than rules, or fewer.
    Count {
        /// Unknowns: open parts, and one scale for the parts in ratio.
        unknowns: usize,
        /// Rules: targets and the yield.
        rules: usize,
    },
    /// The rules do not tell the parts apart.
    Singular,
    /// An answer needs less than nothing of these parts (indices).
    Negative(Vec<usize>),
    /// The density of the liquid cannot be computed.
    NoDensity(OutOfRange),
    /// No density that a liquid of the trade can have fits the rules.
    NoDensityFits,
}

impl fmt::Display for BalanceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count { unknowns, rules } => {
                write!(f, "{unknowns} amounts to find, and {rules} rules to find them by")
            }
            Self::Singular => f.write_str("its parts cannot be told apart by what they bring"),
            Self::Negative(_) => f.write_str("something would have to be taken out again"),
            Self::NoDensity(why) => f.write_str(&why.why),
            Self::NoDensityFits => f.write_str("no density between 750 and 1650 kg/m³ fits"),
        }
    }
}

impl MassBalance<'_> {
    pub(super) fn open(&self) -> Vec<usize> {
        (0..self.lines.len()).filter(|&i| self.lines[i].rule == MassRule::Open).collect()
    }

    /// What is found: each open part, and behind them the parts in ratio together.
    pub(super) fn found_together(&self) -> Vec<Unknown> {
        let ratio = |(i, line): (usize, &BalanceLine)| match line.rule {
            MassRule::Ratio(share) => Some((i, share)),
            _ => None,
        };
        let ratio: Unknown = self.lines.iter().enumerate().filter_map(ratio).collect();
        let open = self.open().into_iter().map(|i| vec![(i, 1.0)]);
        open.chain((!ratio.is_empty()).then_some(ratio)).collect()
    }

    /// Unknowns: the open parts, and one common scale for the parts in ratio.
    pub(super) fn unknowns(&self) -> usize {
        self.found_together().len()
    }

    /// Rules that can fix them: targets and the yield.
    pub(crate) fn rules(&self) -> usize {
        self.targets.len() + usize::from(self.yields.is_some())
    }

    /// The masses in grams, none negative.
    ///
    /// # Errors
    /// When the count of rules is wrong, they do not tell the parts apart, a mass would be
    /// negative, or a density that is needed cannot be computed.
    pub fn solve(&self) -> Result<Vec<f64>, BalanceError> {
        let mut masses = self.solve_signed()?;
        let short = below_nothing(&masses);
        if !short.is_empty() {
            return Err(BalanceError::Negative(short));
        }
        for mass in &mut masses {
            *mass = mass.max(0.0);
        }
        Ok(masses)
    }

    /// The masses in grams, whatever their sign.
    pub(super) fn solve_signed(&self) -> Result<Vec<f64>, BalanceError> {
        if self.unknowns() != self.rules() {
            return Err(BalanceError::Count { unknowns: self.unknowns(), rules: self.rules() });
        }
        if !self.needs_density() {
            return self.at_density(1.0).ok_or(BalanceError::Singular);
        }
        let (low, high) = DENSITY_RANGE_G_PER_ML;
        let off = |rho| {
            let masses = self.at_density(rho).ok_or(BalanceError::Singular)?;
            Ok(self.density_on_the_way(&masses) - rho)
        };
        let rho = root::try_bracketed(off, low, high, 1e-13).map_err(|why| match why {
            NoRoot::Stopped(why) => why,
            NoRoot::NotBracketed(_) => BalanceError::NoDensityFits,
        })?;
        let masses = self.at_density(rho).ok_or(BalanceError::Singular)?;
        // Where a mass is negative there is no such liquid, and that is what will be said of it.
        if below_nothing(&masses).is_empty() {
            self.density_of(&masses)?;
        }
        Ok(masses)
    }

    fn needs_density(&self) -> bool {
        matches!(self.yields, Some(Yield::Millilitres(_)))
            || self.targets.iter().any(|(kind, _)| *kind != TargetKind::Brix)
            || self.lines.iter().any(|l| matches!(l.rule, MassRule::Dose(_)))
    }

    /// Density in g/ml at 20 °C of the liquid that these masses make; a negative mass is taken as none.
    fn density_of(&self, masses: &[f64]) -> Result<f64, BalanceError> {
        let density = self.liquid_of(masses).density(celsius(20.0)).map_err(BalanceError::NoDensity)?;
        Ok(in_kg_per_m3(density.value) / 1000.0)
    }

    /// The same during the search. Away from the answer the masses may make what is no liquid (all sugar and no
    /// water): there the volumes are simply added, which only steers the search and is never an answer.
    pub(super) fn density_on_the_way(&self, masses: &[f64]) -> f64 {
        self.density_of(masses).unwrap_or_else(|_| {
            let liquid = self.liquid_of(masses);
            let (water, ethanol) = (liquid.grams_of(Component::Water), liquid.grams_of(Component::Ethanol));
            let solids = liquid.total_grams() - water - ethanol;
            liquid.total_grams() / (water + ethanol / *ETHANOL_G_PER_ML + SOLIDS_ML_PER_G * solids)
        })
    }

    /// The liquid that these masses make; a negative mass is taken as none.
    pub(super) fn liquid_of(&self, masses: &[f64]) -> Mixture {
        self.lines.iter().zip(masses).map(|(l, m)| l.joins * m.max(0.0)).sum()
    }

    /// The masses for a given density of the finished liquid, g/ml.
    fn at_density(&self, rho: f64) -> Option<Vec<f64>> {
        let mut all = self.rows_of_lines(rho);
        all.extend(self.targets.iter().map(|&target| (self.row_of_target(target, rho), 0.0)));
        all.extend(self.row_of_yield(rho));
        let (rows, right): (Vec<_>, Vec<_>) = all.into_iter().unzip();
        solve_linear(&rows, &right)
    }

    /// A row and its right side for each mass that is ruled.
    pub(super) fn rows_of_lines(&self, rho: f64) -> Vec<(Vec<f64>, f64)> {
        let mut first_in_ratio: Option<(usize, f64)> = None;
        let row = |(i, line): (usize, &BalanceLine)| match line.rule {
            MassRule::Ratio(share) => match first_in_ratio {
                None => {
                    first_in_ratio = Some((i, share));
                    None
                }
                Some((first, of_first)) => {
                    let mut row = self.of_one(i, of_first);
                    row[first] = -share;
                    Some((row, 0.0))
                }
            },
            rule => self.row_of_rule(i, rule, rho),
        };
        self.lines.iter().enumerate().filter_map(row).collect()
    }

    /// A mass against what rules it by itself; none for what is open or in a ratio.
    pub(super) fn row_of_rule(&self, i: usize, rule: MassRule, rho: f64) -> Option<(Vec<f64>, f64)> {
        match rule {
            MassRule::Fixed(g) => Some((self.of_one(i, 1.0), g)),
            MassRule::Share(p) => Some((self.against_liquid(self.of_one(i, 1.0), p), 0.0)),
            MassRule::Dose(d) => Some((self.against_liquid(self.of_one(i, 1.0), d / rho), 0.0)),
            MassRule::Open | MassRule::Ratio(_) => None,
        }
    }

    /// What a target's property is above its value, in grams; zero where it is met.
    pub(super) fn row_of_target(&self, (kind, value): TargetValue, rho: f64) -> Vec<f64> {
        let own = self.lines.iter().map(|l| amount_for(kind, &l.joins)).collect();
        self.against_liquid(own, value * per_gram_of_liquid(kind, rho))
    }

    pub(super) fn row_of_yield(&self, rho: f64) -> Option<(Vec<f64>, f64)> {
        let row = self.lines.iter().map(|l| (1.0 - self.left_behind) * (l.liquid() - l.keeps)).collect();
        Some((
            row,
            match self.yields? {
                Yield::Grams(g) => g,
                Yield::Millilitres(ml) => rho * ml,
            },
        ))
    }

    fn of_one(&self, i: usize, factor: f64) -> Vec<f64> {
        let mut row = vec![0.0; self.lines.len()];
        row[i] = factor;
        row
    }

    /// `row - share * (mass of the liquid)`.
    fn against_liquid(&self, mut row: Vec<f64>, share: f64) -> Vec<f64> {
        for (x, line) in row.iter_mut().zip(self.lines) {
            *x -= share * line.liquid();
        }
        row
    }
}

/// The masses (indices) that are negative by more than rounding.
pub(super) fn below_nothing(masses: &[f64]) -> Vec<usize> {
    let scale = masses.iter().fold(0.0_f64, |m, x| m.max(x.abs()));
    masses.iter().enumerate().filter(|(_, m)| **m < -1e-9 * scale).map(|(i, _)| i).collect()
}

/// Solves `rows * x = right` by elimination with row scaling and partial pivoting. `None` where the
/// rows do not fix every unknown (no pivot above 1e-11 of its row) or the system is not square.
pub(super) fn solve_linear(rows: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    let n = right.len();
    if rows.len() != n || rows.iter().any(|row| row.len() != n) {
        return None;
    }
    let mut a: Vec<Vec<f64>> = Vec::with_capacity(n);
    for (row, &r) in rows.iter().zip(right) {
        let scale = row.iter().fold(0.0_f64, |m, x| m.max(x.abs()));
        if !(scale > 0.0 && scale.is_finite() && r.is_finite()) {
            return None;
        }
        a.push(row.iter().chain([&r]).map(|x| x / scale).collect());
    }
    for column in 0..n {
        let pivot = (column..n).max_by(|&i, &j| a[i][column].abs().total_cmp(&a[j][column].abs()))?;
        a.swap(column, pivot);
        if a[column][column].abs() < 1e-11 {
            return None;
        }
        let (done, below) = a.split_at_mut(column + 1);
        let top = &done[column];
        for row in below {
            let factor = row[column] / top[column];
            if factor != 0.0 {
                for (x, t) in row[column..].iter_mut().zip(&top[column..]) {
                    *x -= factor * t;
                }
            }
        }
    }
    let mut x = vec![0.0; n];
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|j| a[i][j] * x[j]).sum();
        x[i] = (a[i][n] - known) / a[i][i];
    }
    x.iter().all(|v| v.is_finite()).then_some(x)
}
