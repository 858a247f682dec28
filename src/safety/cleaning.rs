//! Which piece of a step cleans or boils vessels, and heats nothing that is drunk.

use crate::spelling::{NameWord, name_words};

use super::step_words::StepWord;

/// Whether a clause cleans and nothing of it stays: what is harsh only where the text tells of rinsing behind it. `told` gives the
/// words of that text that nothing forbids.
pub(super) fn leaves_nothing(clause: &[NameWord], told: impl FnOnce() -> Vec<NameWord>) -> bool {
    cleans(clause) && (!clause.iter().any(|word| StepWord::Harsh.has(&word.text)) || is_rinsed_off(&told()))
}

/// "Cleaning the jar with bleach", "spray the necks of the bottles", never "the cleaning-grade ethanol".
fn cleans(clause: &[NameWord]) -> bool {
    let has = |list: StepWord| clause.iter().any(|word| list.has(&word.text));
    if has(StepWord::Sprayed) && has(StepWord::Vessel) {
        return true;
    }
    let is_kind = |at: usize| clause.get(at + 1).is_some_and(|word| StepWord::Graded.has(&word.text));
    clause.iter().enumerate().any(|(at, word)| StepWord::Cleaning.has(&word.text) && !is_kind(at))
}

/// "Wash with detergent, do not rinse"; a sanitiser may be sold to be left on.
pub(super) fn is_left_on(text: &str) -> bool {
    let said = name_words(text);
    let may_stay = said.iter().any(|word| StepWord::LeftOn.has(&word.text));
    !may_stay && is_denied(&said, StepWord::Rinsing)
}

/// "Refill the bottles without washing", "bottles are rinsed, not washed", never "do not wash the muslin with soap".
pub(super) fn is_left_dirty(clause: &[NameWord], sentence: impl FnOnce() -> Vec<NameWord>) -> bool {
    let has = |words: &[NameWord], list: StepWord| words.iter().any(|word| list.has(&word.text));
    let is_all = || clause.iter().all(|word| forbids(word) || StepWord::Washing.has(&word.text));
    is_denied(clause, StepWord::Washing)
        && !has(clause, StepWord::With)
        && (has(clause, StepWord::Vessel) || is_all() && has(&sentence(), StepWord::Vessel))
}

fn forbids(word: &NameWord) -> bool {
    StepWord::Not.has(&word.text) || StepWord::Forbid.has(&word.text)
}

/// Whether a word of a list stands right behind one that forbids, or next to that.
fn is_denied(words: &[NameWord], list: StepWord) -> bool {
    const REACH: usize = 2;
    let behind = |at: usize| words.iter().skip(at + 1).take(REACH);
    words.iter().enumerate().any(|(at, word)| forbids(word) && behind(at).any(|next| list.has(&next.text)))
}

fn is_rinsed_off(told: &[NameWord]) -> bool {
    let last = told.iter().rposition(|word| StepWord::Harsh.has(&word.text));
    told.iter().skip(last.map_or(0, |at| at + 1)).any(|word| StepWord::Rinsing.has(&word.text))
}

/// Whether a clause cleans, or scalds a vessel and heats nothing else.
pub(super) fn is_cleaned(words: &[String]) -> bool {
    let has = |list: StepWord| words.iter().any(|word| list.has(word));
    has(StepWord::Cleaning)
        || has(StepWord::Scalding) && has(StepWord::Vessel) && !has(StepWord::Heating)
        || is_of_empty_vessel(words)
}

/// "Bollire i vasetti vuoti", "boil the muslin before use": where every word is explained, nothing else is in it.
fn is_of_empty_vessel(words: &[String]) -> bool {
    const MAY_STAND: [StepWord; 9] = [
        StepWord::Vessel,
        StepWord::Empty,
        StepWord::BesideVessel,
        StepWord::Heating,
        StepWord::Warming,
        StepWord::ToTheBoil,
        StepWord::Small,
        StepWord::Determiner,
        StepWord::Shut,
    ];
    let is_number = |word: &String| word.chars().all(|c| c.is_ascii_digit());
    let is_explained = |word: &String| is_number(word) || MAY_STAND.iter().any(|list| list.has(word));
    // "warm it in the bottle first" warms what is in it
    let is_place = |at: usize| {
        let mut before = words.iter().take(at).rev();
        let next =
            before.find(|word| !StepWord::Determiner.has(word) && !StepWord::Empty.has(word) && !is_article(word));
        next.is_some_and(|word| StepWord::PlacedIn.has(word))
    };
    let mut vessels = (0..words.len()).filter(|&at| StepWord::Vessel.has(&words[at])).peekable();
    let is_full = words.iter().any(|word| StepWord::Full.has(word));
    let is_named = vessels.peek().is_some() && words.iter().any(|word| StepWord::Empty.has(word)) && !is_full;
    is_named && words.iter().all(is_explained) && !vessels.any(is_place)
}

/// "The", "a", "der": small, and no place.
fn is_article(word: &str) -> bool {
    StepWord::Small.has(word) && !StepWord::PlacedIn.has(word)
}
