//! The lightest set of additions that meets the targets.

use crate::mixture::Mixture;
use crate::properties::value_of;

use super::super::SolvedPart;
use super::super::balance::{BalanceError, BalanceLine, MassBalance, MassRule};
use super::super::target::TargetValue;
use super::shelf::ShelfChoice;

/// How well a property that no part is there to mend must sit already, as a share of it.
const ALREADY: f64 = 1e-9;
/// Less than this share of the batch is nothing.
const NOTHING: f64 = 1e-9;

/// Whether a value is as good as what was asked.
pub(super) fn is_met(asked: f64, gives: f64) -> bool {
    (gives - asked).abs() <= ALREADY * asked.abs().max(1.0)
}

/// The lightest addition that meets the targets, or the density that could not be computed on the way.
pub(super) fn least(
    batch: &Mixture,
    shelf: &[ShelfChoice],
    targets: &[TargetValue],
) -> Result<Vec<SolvedPart>, Option<BalanceError>> {
    let mut best: Option<(f64, Vec<SolvedPart>)> = None;
    let mut no_density = None;
    for parts in subsets(shelf.len(), targets.len()) {
        let choices: Vec<&ShelfChoice> = pick(shelf, parts).collect();
        let chosen: Vec<&SolvedPart> = choices.iter().copied().flatten().collect();
        let lines = lines(batch, &choices);
        for rules in subsets(targets.len(), targets.len()).filter(|r| r.count_ones() == parts.count_ones()) {
            let used: Vec<TargetValue> = pick(targets, rules).copied().collect();
            let balance = MassBalance { lines: &lines, targets: &used, yields: None, left_behind: 0.0 };
            let masses = match balance.solve() {
                Ok(mut masses) => masses.split_off(1),
                Err(why) => {
                    if matches!(why, BalanceError::NoDensity(_) | BalanceError::NoDensityFits) {
                        no_density = Some(why);
                    }
                    continue;
                }
            };
            let add: f64 = masses.iter().sum();
            let made = *batch + chosen.iter().zip(&masses).map(|(p, m)| p.found.per_gram * *m).sum();
            let met = |&(kind, asked): &TargetValue| value_of(kind, &made).is_some_and(|gives| is_met(asked, gives));
            // A set with more parts must be lighter, not alike.
            let lighter = best.as_ref().is_none_or(|(least, _)| add < least - NOTHING * batch.total_grams());
            if lighter && targets.iter().all(met) {
                let part = |(p, m): (&&SolvedPart, &f64)| SolvedPart { mass_g: *m, ..(*p).clone() };
                let some = |p: &SolvedPart| p.mass_g > NOTHING * batch.total_grams();
                best = Some((add, chosen.iter().zip(&masses).map(part).filter(some).collect()));
            }
        }
    }
    best.map(|(_, add)| add).ok_or(no_density)
}

/// The engine's lines: the batch as a fixed row, then the parts of these choices.
pub(super) fn lines(batch: &Mixture, choices: &[&ShelfChoice]) -> Vec<BalanceLine> {
    let fixed = BalanceLine { joins: batch.per_gram(), keeps: 0.0, rule: MassRule::Fixed(batch.total_grams()) };
    let added = choices.iter().flat_map(|choice| {
        choice.iter().map(|part| {
            let rule = if choice.len() == 1 { MassRule::Open } else { MassRule::Ratio(part.mass_g) };
            part.feed.line(0.0, rule)
        })
    });
    [fixed].into_iter().chain(added).collect()
}

/// All sets of up to `most` of `count` things, as bits, the smaller sets first.
fn subsets(count: usize, most: usize) -> impl Iterator<Item = u32> {
    let all = 1_u32.checked_shl(u32::try_from(count).unwrap_or(u32::MAX)).unwrap_or(0);
    (0..=most).flat_map(move |size| (0..all).filter(move |set| set.count_ones() as usize == size))
}

fn pick<T>(things: &[T], set: u32) -> impl Iterator<Item = &T> {
    things.iter().enumerate().filter(move |(i, _)| set >> i & 1 == 1).map(|(_, thing)| thing)
}
