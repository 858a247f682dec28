//! What takes the plants out in words that say something else elsewhere: "pull the pods", "decant", "pour off", once they have stood.

use crate::card::Stage;
use crate::units::spans::{SpanEnd, time};

use super::boiled_down::is_heated;
use super::names::Names;
use super::put_in_behind::told;
use super::strains::Piece;
use super::words::WordList;

/// Which piece of the steps of a stage takes its plants out, or pours off what they stood in.
pub(super) fn takes_out(stage: &Stage, pieces: &[Piece<'_>], names: Names<'_>) -> Option<usize> {
    let stood = pieces.iter().position(|piece| stands(piece.text))?;
    // what is hulled behind a boil stood in nothing yet; "steep for a week" names nothing
    let names_one = |at: usize, piece: &Piece<'_>| {
        let before = told(stage, pieces.get(..at).unwrap_or_default(), names);
        let is_new = |was: bool| !was && before.contains(&true);
        let here = told(stage, std::slice::from_ref(piece), names);
        let mut here = here.into_iter().zip(&before).zip(&stage.parts);
        here.any(|((here, was), part)| {
            here && !is_new(*was) && (part.is_strained() || names.is_strained_out(&part.of.value))
        })
    };
    let is_left = |text: &str| [WordList::Plants, WordList::Solids].into_iter().any(|list| list.within(text));
    let takes = |at, piece: &Piece<'_>| pulls(piece.text) && (is_left(piece.text) || names_one(at, piece));
    let mut after = pieces.iter().enumerate().skip(stood + 1);
    after.find(|(at, piece)| pours_off(piece.text) || takes(*at, piece)).map(|(at, _)| at)
}

/// "Leave 2 weeks", "steep", "simmer", "spin in the centrifuge".
pub(super) fn stands(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    let is_time = || time(&words, SpanEnd::Least).is_some();
    WordList::Steeps.within(text) || WordList::Spun.within(text) || is_heated(text) || is_time()
}

/// "Remove the pods", "take the pods out"; what is taken from the heat is no plant.
pub(super) fn pulls(text: &str) -> bool {
    let is_out = || WordList::Takes.within(text) && WordList::OutAgain.within(text);
    !WordList::HeatEnds.is_said_in(text) && (WordList::Pulls.within(text) || is_out())
}

/// "Decant", "pour off the liquid"; "decant into bottles" fills them.
fn pours_off(text: &str) -> bool {
    let Some(behind) = WordList::PouredOff.end_in(text).and_then(|end| text.get(end..)) else { return false };
    let mut words = behind.split_whitespace().take_while(|word| !WordList::And.has(word));
    let is_vessel = |word: &str| WordList::Bottled.within(word) || WordList::Vessel.within(word);
    let is_off = text.split_whitespace().any(|word| WordList::OffAgain.has(word));
    is_off || !words.any(is_vessel)
}
