//! What is taken as strained out, left in: nobody has said that it is strained, so the date is the shorter of the two.

use crate::card::{Card, Stage};
use crate::house::House;
use crate::solver::{InnerCard, Options, Solved, solve};

/// The card with what its recipe says nothing of left in; `None` where there is nothing of that.
pub(super) fn left_in(solved: &Solved, house: &House) -> Option<Solved> {
    let mut card = Card::clone(&solved.card);
    let is_taken = |stage: &Stage| -> Vec<bool> {
        stage.parts.iter().map(|part| solved.card.is_taken_as_strained(part)).collect()
    };
    let taken: Vec<Vec<bool>> = card.all_stages().map(is_taken).collect();
    if !taken.iter().flatten().any(|taken| *taken) {
        return None;
    }
    for (stage, taken) in card.stages.iter_mut().chain([&mut card.last]).zip(taken) {
        for (part, _) in stage.parts.iter_mut().zip(taken).filter(|(_, taken)| *taken) {
            (part.strained, part.holds) = (None, None);
        }
    }
    let other = solve(&card, house, &Options::default()).solved?;
    // as it is written, where the card was asked for in another size
    let weighed = |of: &Solved| of.stages.iter().map(|stage| stage.course.combined.total_grams()).sum::<f64>();
    let scale = weighed(&other) / weighed(solved);
    let rescaled = |inner: &InnerCard| InnerCard { grams: scale * inner.grams, ..inner.clone() };
    Some(Solved { inner: solved.inner.iter().map(rescaled).collect(), index: solved.index, ..other })
}
