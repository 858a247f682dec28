//! What the steps of a card put in behind something else that they do.

use crate::card::{Card, Part, Stage};
use crate::house::House;

use super::draft::DraftPart;
use super::names::Names;
use super::speaks::{says_all, told_in};
use super::strains::{Piece, pieces, strains};
use super::words::WordList;

/// Which of the card's own parts its steps name for the first time behind the last clause that `does` it: "heat the water and the
/// sugar, cool, add the juice". None where they put everything in before.
pub(crate) fn put_in_behind<'c>(card: &'c Card, house: &House, does: impl Fn(&str) -> bool) -> Vec<&'c Part> {
    let pieces: Vec<Piece<'_>> = card.steps.iter().flat_map(|step| pieces(step)).collect();
    let Some(at) = pieces.iter().rposition(|piece| does(piece.text)) else { return Vec::new() };
    named_behind(card, &card.last, house, &pieces, at)
}

/// A piece of the steps of a pan that does something.
pub(crate) struct DonePiece<'c> {
    pub(crate) step: &'c String,
    /// The piece of it, or all of it where no piece alone says so.
    pub(crate) text: &'c str,
    /// What the steps name for the first time behind it.
    pub(crate) late: Vec<&'c Part>,
}

/// The pieces of the steps of a pan that do it.
pub(crate) fn put_in_behind_each<'c>(
    card: &'c Card,
    stage: &'c Stage,
    house: &House,
    does: impl Fn(&str) -> bool,
) -> Vec<DonePiece<'c>> {
    let of_card = card.steps.iter().filter(|_| std::ptr::eq(stage, &card.last));
    let mut all = Vec::new();
    let mut done: Vec<(&String, &str, usize)> = Vec::new();
    for step in stage.steps.iter().chain(of_card) {
        let own = pieces(step);
        let alone = own.iter().enumerate().filter(|(_, piece)| does(piece.text));
        let before = done.len();
        done.extend(alone.map(|(at, piece)| (step, piece.text, all.len() + at)));
        if done.len() == before && does(step) && !own.is_empty() {
            done.push((step, step, all.len() + own.len() - 1));
        }
        all.extend(own);
    }
    let late = |at| named_behind(card, stage, house, &all, at);
    done.into_iter().map(|(step, text, at)| DonePiece { step, text, late: late(at) }).collect()
}

/// Which parts of a pan are named for the first time behind this piece of its steps.
fn named_behind<'c>(card: &'c Card, stage: &'c Stage, house: &House, pieces: &[Piece<'_>], at: usize) -> Vec<&'c Part> {
    // "boil the water with the hibiscus, the cinnamon and the cloves": a clause without a verb goes on with the one before
    let goes_on = |(before, piece): &(&Piece<'_>, &Piece<'_>)| {
        let begins = piece.bare().split(' ').next().is_some_and(|first| WordList::Step.has(first));
        let does = begins || WordList::PutIn.within(piece.text) || WordList::OffHeat.within(piece.text);
        !before.is_last && !does
    };
    let at = at + pieces.iter().skip(at).zip(pieces.iter().skip(at + 1)).take_while(goes_on).count();
    let (before, after) = pieces.split_at(at + 1);
    if before.iter().any(|piece| says_all(piece.text)) {
        return Vec::new();
    }
    let names = Names::of(house, "");
    // what is strained out is named there, and was in
    let after: Vec<&Piece<'_>> = after.iter().filter(|piece| !strains(piece.text)).collect();
    let told = |pieces: &[&Piece<'_>]| match std::ptr::eq(stage, &card.last) {
        true => told_of_last(card, pieces, names),
        false => told_of(stage, pieces, names),
    };
    let after = told(&after);
    if !after.contains(&true) {
        return Vec::new();
    }
    let before = told(&before.iter().collect::<Vec<_>>());
    let parts = stage.parts.iter().zip(before).zip(after);
    parts.filter(|((_, before), after)| *after && !before).map(|((part, _), _)| part).collect()
}

/// The stage whose parts the steps of the card name where something is done to them: "cook the rhubarb"; the only one, where none is
/// named. None where they name several.
pub(crate) fn stage_told<'c>(card: &'c Card, house: &House, does: impl Fn(&str) -> bool) -> Option<&'c Stage> {
    let names = Names::of(house, "");
    let pieces: Vec<Piece<'_>> = card.steps.iter().flat_map(|step| pieces(step)).collect();
    let done: Vec<&Piece<'_>> = pieces.iter().filter(|piece| does(piece.text)).collect();
    let told: Vec<&Stage> = card.stages.iter().filter(|stage| told_of(stage, &done, names).contains(&true)).collect();
    match (told.as_slice(), card.stages.as_slice()) {
        ([one], _) => Some(one),
        ([], [only]) => Some(only),
        _ => None,
    }
}

/// Which of the parts of a stage these pieces name.
pub(super) fn told(stage: &Stage, pieces: &[Piece<'_>], names: Names<'_>) -> Vec<bool> {
    told_of(stage, &pieces.iter().collect::<Vec<_>>(), names)
}

/// The same of pieces that do not all follow each other.
pub(super) fn told_of(stage: &Stage, pieces: &[&Piece<'_>], names: Names<'_>) -> Vec<bool> {
    let drafts: Vec<DraftPart> = stage.parts.iter().map(drafted).collect();
    told_in(&drafts, pieces, names)
}

/// Which of the card's own parts they name, and no part of a stage: the lemon of "with the lemon peel" is not the juice that the
/// card has.
fn told_of_last(card: &Card, pieces: &[&Piece<'_>], names: Names<'_>) -> Vec<bool> {
    let drafts: Vec<DraftPart> = card.all_stages().flat_map(|stage| &stage.parts).map(drafted).collect();
    let of_stages = drafts.len() - card.last.parts.len();
    told_in(&drafts, pieces, names).split_off(of_stages)
}

fn drafted(part: &Part) -> DraftPart {
    DraftPart { label: part.label.value.clone(), of: Some(part.of.value.clone()), ..DraftPart::default() }
}
