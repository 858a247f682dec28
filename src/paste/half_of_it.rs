//! "Use half of the syrup", of what the steps have made by then, while the lines count all of it: what goes in behind it meets half.

use crate::card::{Card, Stage};

use super::draft::DraftLine;
use super::names::Names;
use super::put_in_behind::told;
use super::speaks::before_until;
use super::strains::{Piece, pieces};
use super::words::WordList;

/// So many words behind "half" it is said of what (ours): "half of the cooled syrup".
const REACH: usize = 4;

/// A question for each piece that takes some of what was made, where a part of its stage goes in behind it.
pub(super) fn asked_of(card: &Card, names: Names<'_>) -> Vec<DraftLine> {
    let of_stage = |stage: &Stage| {
        let steps = if std::ptr::eq(stage, &card.last) { &card.steps } else { &stage.steps };
        let pieces: Vec<Piece<'_>> = steps.iter().flat_map(|step| pieces(step)).collect();
        let takes = |(at, piece): (usize, &Piece<'_>)| takes_half(stage, &pieces, at, names).then(|| asked(piece));
        pieces.iter().enumerate().filter_map(takes).collect::<Vec<_>>()
    };
    card.all_stages().flat_map(of_stage).collect()
}

fn asked(piece: &Piece<'_>) -> DraftLine {
    let asks =
        "the lines count all of it: write on them what goes in, or make it a [[stage]] and write how much of that does";
    DraftLine::question(piece.text, asks)
}

fn takes_half(stage: &Stage, pieces: &[Piece<'_>], at: usize, names: Names<'_>) -> bool {
    let Some((before, [piece, after @ ..])) = pieces.split_at_checked(at) else { return false };
    // "use half of the lemon juice" is of a line
    let names_none = !told(stage, std::slice::from_ref(piece), names).contains(&true);
    let goes_in =
        |text: &str| [WordList::PutIn, WordList::Join, WordList::Mixed].into_iter().any(|list| list.within(text));
    let is_in_turns = after.iter().any(|piece| WordList::Rest.within(piece.text) && goes_in(piece.text));
    let told = [before, after].map(|pieces| told(stage, pieces, names));
    let is_late = told[0].iter().zip(&told[1]).any(|(before, after)| *after && !before);
    is_half_of_it(before_until(piece.text)) && names_none && !is_in_turns && is_late
}

/// "Use half of the syrup", "keep half the liquid back".
fn is_half_of_it(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    let half = words.iter().position(|word| WordList::Half.has(word) || WordList::HalfOf.has(word));
    let of = half.and_then(|half| words.get(half + 1..)).unwrap_or_default();
    let is_made = of.iter().take(REACH).any(|word| WordList::Gave.within(word) || WordList::Steeped.within(word));
    is_made && WordList::TakesSome.within(text)
}
