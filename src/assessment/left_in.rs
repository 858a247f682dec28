//! What is taken as strained out, left in: nobody has said that it is strained, so the date is the shorter of the two.

use crate::card::Card;
use crate::house::House;
use crate::solver::{InnerCard, Options, Solved, solve};

/// The card cannot be weighed with it left in.
pub(super) struct NotSolved;

/// The card with what its recipe says nothing of left in; `None` where there is nothing of that.
pub(super) fn left_in(solved: &Solved, house: &House) -> Option<Result<Solved, NotSolved>> {
    let mut card = Card::clone(&solved.card);
    if !card.all_parts().any(|(_, part)| part.strained_is_assumed) {
        return None;
    }
    let parts = card.stages.iter_mut().chain([&mut card.last]).flat_map(|stage| &mut stage.parts);
    for part in parts.filter(|part| part.strained_is_assumed) {
        (part.strained, part.strained_is_assumed, part.holds) = (None, false, None);
    }
    let Some(other) = solve(&card, house, &Options::default()).solved else { return Some(Err(NotSolved)) };
    // as it is written, where the card was asked for in another size
    let weighed = |of: &Solved| of.stages.iter().map(|stage| stage.course.combined.total_grams()).sum::<f64>();
    let scale = weighed(&other) / weighed(solved);
    let rescaled = |inner: &InnerCard| InnerCard { grams: scale * inner.grams, ..inner.clone() };
    Some(Ok(Solved { inner: solved.inner.iter().map(rescaled).collect(), index: solved.index, ..other }))
}
