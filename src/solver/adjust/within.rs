//! Ranges of a card: a batch that lies in them is left as it is, and one that does not is brought to the nearest end, with the
//! room that its aim keeps.

use crate::card::{Card, LandedRange, TargetKind};
use crate::mixture::Mixture;
use crate::properties::value_of;

use super::super::SolvedPart;
use super::super::balance::BalanceError;
use super::super::target::TargetValue;
use super::least::{ShelfChoice, least};

/// Rounding of f64 is not beyond an end.
const ROUNDING: f64 = 1e-9;

/// The ranges that a card leaves, without those in whose place something else is asked.
pub(super) fn ranges(card: &Card, set: &[TargetValue]) -> Vec<LandedRange> {
    let all = card.landed.iter().flat_map(|landed| &landed.ranges);
    all.filter(|of| set.iter().all(|(kind, _)| *kind != of.range.kind)).copied().collect()
}

/// The end that a value is to be brought to; `None` inside.
fn end_for(value: f64, of: &LandedRange) -> Option<f64> {
    let off = ROUNDING * value.abs().max(1.0);
    let short = of.range.least.filter(|least| value < least - off).and(of.inside.least);
    short.or_else(|| of.range.most.filter(|most| value > most + off).and(of.inside.most))
}

/// The targets, and the ends of the ranges that a batch does not lie in.
pub(super) fn with_ends(targets: Vec<TargetValue>, batch: &Mixture, ranges: &[&LandedRange]) -> Vec<TargetValue> {
    let end = |of: &&LandedRange| Some((of.range.kind, end_for(value_of(of.range.kind, batch)?, of)?));
    targets.into_iter().chain(ranges.iter().filter_map(end)).collect()
}

/// The least addition that meets the targets and lands in every range: a range counts once the answer would leave it.
pub(super) fn least_within(
    batch: &Mixture,
    shelf: &[ShelfChoice],
    mut targets: Vec<TargetValue>,
    ranges: &[&LandedRange],
) -> Result<(Vec<TargetValue>, Vec<SolvedPart>), Option<BalanceError>> {
    loop {
        let add = least(batch, shelf, &targets)?;
        let made = *batch + add.iter().map(|part| part.found.per_gram * part.mass_g).sum();
        let is_free = |kind: TargetKind| targets.iter().all(|(own, _)| *own != kind);
        let next = ranges.iter().filter(|of| is_free(of.range.kind)).find_map(|of| {
            let end = end_for(value_of(of.range.kind, &made)?, of)?;
            Some((of.range.kind, end))
        });
        let Some(next) = next else { return Ok((targets, add)) };
        targets.push(next);
    }
}
