//! pH as a target: an outer search on the acid.
//!
//! A pH is not linear in the masses, so the engine never sees one. One unknown (the open part, or the
//! parts in ratio, with most acid in a gram) is held at a trial mass, the engine meets the other rules,
//! and the pH of what that makes says whether to hold more of it or less. The search runs between the
//! two ends at which some open part stands at zero: they are what these parts can reach.

use crate::card::Card;
use crate::mixture::Mixture;
use crate::mixture::acidity::ph::{self, NoPh};
use crate::mixture::root::{self, NoRoot};
use crate::properties::{TargetKind, amount_for};
use crate::units::celsius;

use super::balance::{BalanceError, BalanceLine, MassBalance, Unknown, held};
use super::explain::reach::{self, SolveError, reasons};

/// How close the pH of the answer must come. A jump, where the pH ceases to be known, is further off.
const CLOSE: f64 = 1e-6;
/// What stands for "far above" or "far below" where there is no pH to compare, in pH units.
const FAR: f64 = 10.0;

/// The pH of a liquid at 20 °C.
pub(crate) fn ph_at_20(liquid: &Mixture) -> Result<f64, NoPh> {
    ph::estimate(liquid, celsius(20.0)).map(|estimate| estimate.value.get())
}

/// The masses that meet all rules of a balance whose target at `index` is a pH. `boils` is the line of the water
/// that boils off, if there is one.
pub(super) fn masses(
    card: &Card,
    balance: &MassBalance<'_>,
    boils: Option<usize>,
    index: usize,
) -> Result<Vec<f64>, Vec<SolveError>> {
    let mut targets = balance.targets.to_vec();
    let (_, target) = targets.remove(index);
    let rest = MassBalance { targets: &targets, ..balance.clone() };
    let unknowns = balance.found_together();
    let sourest = unknowns.iter().max_by(|a, b| acid_share(a, balance.lines).total_cmp(&acid_share(b, balance.lines)));
    let Some(acid) = sourest else { return Err(reasons(card, &rest, boils, BalanceError::Singular)) };
    let search = Search { card, rest, boils, acid, target };
    let (least, most) = search.ends(&unknowns)?;
    search.between(least, most)
}

/// Titratable acid in a gram of what is found together.
fn acid_share(unknown: &Unknown, lines: &[BalanceLine]) -> f64 {
    let shares: f64 = unknown.iter().map(|(_, share)| share).sum();
    let acid =
        |&(i, share): &(usize, f64)| share * lines.get(i).map_or(0.0, |l| amount_for(TargetKind::Acid, &l.joins));
    unknown.iter().map(acid).sum::<f64>() / shares
}

#[derive(Clone, Copy)]
struct Corner {
    x: f64,
    without: Option<usize>,
}

struct Search<'a> {
    card: &'a Card,
    rest: MassBalance<'a>,
    boils: Option<usize>,
    acid: &'a Unknown,
    target: f64,
}

impl Search<'_> {
    fn with_acid(&self, x: f64) -> Vec<BalanceLine> {
        held(self.rest.lines, self.acid, x)
    }

    /// Why the other rules have no answer, told with the acid part held.
    fn others(&self, x: f64, why: BalanceError) -> Vec<SolveError> {
        reasons(self.card, &MassBalance { lines: &self.with_acid(x), ..self.rest.clone() }, self.boils, why)
    }

    fn no_ph(&self, why: &NoPh) -> Vec<SolveError> {
        vec![reach::no_ph(self.card, self.target, why).into()]
    }

    /// The least and the most of the acid part that the other rules allow.
    fn ends(&self, unknowns: &[Unknown]) -> Result<(Corner, Corner), Vec<SolveError>> {
        let mut corners: Vec<Corner> = Vec::new();
        let mut heaviest = 0.0_f64;
        for unknown in unknowns {
            let lines = held(self.rest.lines, unknown, 0.0);
            let Ok(masses) = (MassBalance { lines: &lines, ..self.rest.clone() }).solve() else { continue };
            let first = self.acid.first().and_then(|&(i, share)| Some(masses.get(i)? / share));
            let Some(x) = first.filter(|x| x.is_finite()) else { continue };
            corners.push(Corner { x, without: unknown.first().map(|&(i, _)| i) });
            heaviest = heaviest.max(masses.iter().sum());
        }
        let least = corners.iter().copied().min_by(|a, b| a.x.total_cmp(&b.x));
        let most = corners.iter().copied().max_by(|a, b| a.x.total_cmp(&b.x));
        let Some((least, most)) = least.zip(most) else {
            let lines = self.with_acid(0.0);
            let why = MassBalance { lines: &lines, ..self.rest.clone() }.solve().err();
            return Err(self.others(0.0, why.unwrap_or(BalanceError::Singular)));
        };
        if most.x > least.x {
            return Ok((least, most));
        }
        // Nothing bounds it from above: a thousand times all else is as good as it alone.
        Ok((least, Corner { x: least.x + 1000.0 * heaviest, without: None }))
    }

    fn masses(&self, x: f64) -> Result<Vec<f64>, BalanceError> {
        let lines = self.with_acid(x);
        let signed = MassBalance { lines: &lines, ..self.rest.clone() }.solve_signed()?;
        Ok(signed.into_iter().map(|m| m.max(0.0)).collect())
    }

    fn ph_at(&self, x: f64) -> Result<Result<f64, NoPh>, BalanceError> {
        let masses = self.masses(x)?;
        Ok(ph_at_20(&self.rest.liquid_of(&masses)))
    }

    /// How far above the target a pH lies. Where it is not known for too little acid it counts as
    /// far above, for too much as far below; what no acid can mend is not a number.
    fn above(&self, ph: &Result<f64, NoPh>) -> f64 {
        match ph {
            Ok(ph) => ph - self.target,
            Err(NoPh::NoAcid | NoPh::MineralsOutweighAcid | NoPh::Unaccounted) => FAR,
            Err(NoPh::Salty) => -FAR,
            Err(NoPh::NoWater | NoPh::Protein | NoPh::Strong | NoPh::OutOfRange(_)) => f64::NAN,
        }
    }

    fn between(&self, least: Corner, most: Corner) -> Result<Vec<f64>, Vec<SolveError>> {
        let trouble = |why| self.others(least.x, why);
        let ends = [self.ph_at(least.x).map_err(trouble)?, self.ph_at(most.x).map_err(trouble)?];
        let above = ends.each_ref().map(|ph| self.above(ph));
        if let Some(Err(why)) = ends.iter().find(|ph| self.above(ph).is_nan()) {
            return Err(self.no_ph(why));
        }
        if above[0] * above[1] > 0.0 {
            return Err(match ends {
                [Err(_), Err(why)] => self.no_ph(&why),
                [at_least, at_most] => {
                    let (least, most) = ((at_least, least.without), (at_most, most.without));
                    vec![reach::ph_out_of_reach(self.card, self.target, &least, &most).into()]
                }
            });
        }
        // Why there was no pH at the last place that had none: the search ends there where the pH jumps.
        let mut none_here = NoPh::Unaccounted;
        let off = |x| {
            let ph = self.ph_at(x).map_err(trouble)?;
            let above = self.above(&ph);
            if let Err(why) = ph {
                none_here = why;
            }
            if above.is_nan() { Err(self.no_ph(&none_here)) } else { Ok(above) }
        };
        let x = match root::try_bracketed(off, least.x, most.x, 1e-14 * most.x) {
            Ok(x) => x,
            Err(NoRoot::Stopped(why)) => return Err(why),
            Err(NoRoot::NotBracketed(_)) => return Err(self.no_ph(&none_here)),
        };
        match self.ph_at(x).map_err(trouble)? {
            Ok(ph) if (ph - self.target).abs() <= CLOSE => self.masses(x).map_err(trouble),
            Ok(_) => Err(self.no_ph(&none_here)),
            Err(why) => Err(self.no_ph(&why)),
        }
    }
}
