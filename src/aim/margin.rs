//! How far an answer stays inside a range.
//!
//! An answer on the very end of a range is beyond it in every second batch: neither scale nor larder tells the strength of a
//! batch to the last figure. So each end is moved inward by the half-width at 95 % of that number on this card (the one that
//! its sheet prints behind ±), and what is then chosen lies within the range in 39 of 40 batches or more. Never beyond the
//! middle: of a range that is narrower than what can be told, the middle is all that can be aimed at. An end that the other
//! rules leave no such room counts as it is written; the others keep theirs.

use crate::card::TargetRange;
use crate::house::House;
use crate::solver::Solved;
use crate::solver::room::Room;
use crate::uncertainty;

/// The room with each range met with its margin, as far as that is known of the card as one answer makes it, and as far as
/// the others leave room for it: one after the other in card order. Tried with the least `beside_water`, which surely is a liquid.
pub(super) fn inside(room: &Room, solved: &Option<Solved>, beside_water: Vec<f64>, house: &House) -> Room {
    let unsure = solved.as_ref().map(|solved| uncertainty::of_headlines(solved, &house.settings.instruments));
    let half_width = |range: &TargetRange| uncertainty::find(unsure.as_deref()?, range.kind).map(|u| u.half_width);
    let wanted: Vec<TargetRange> =
        room.ranges.iter().map(|range| narrowed(range, half_width(range).unwrap_or(0.0))).collect();
    let nothing = [beside_water];
    let mut kept = Room { ranges: wanted.clone(), ..room.clone() };
    if kept.land(&nothing).is_ok() {
        return kept;
    }
    kept.ranges.clone_from(&room.ranges);
    for (at, wanted) in wanted.iter().enumerate() {
        let written = room.ranges[at];
        let ends = [TargetRange { least: wanted.least, ..written }, TargetRange { most: wanted.most, ..written }];
        for range in [*wanted].into_iter().chain(ends) {
            let before = std::mem::replace(&mut kept.ranges[at], range);
            if kept.land(&nothing).is_ok() {
                break;
            }
            kept.ranges[at] = before;
        }
    }
    kept
}

fn narrowed(range: &TargetRange, margin: f64) -> TargetRange {
    let middle = range.least.zip(range.most).map(|(least, most)| 0.5 * (least + most));
    let least = range.least.map(|end| middle.map_or(end + margin, |middle| middle.min(end + margin)));
    let most = range.most.map(|end| middle.map_or(end - margin, |middle| middle.max(end - margin)));
    TargetRange { least, most, ..*range }
}
