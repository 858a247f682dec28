//! What a step speaks of without saying what it is: a bottle without a label, what a guest brought, wood that nobody names.

use super::draft::DraftLine;
use super::names::Names;
use super::share::known;
use super::unknown_in_step::{phrase, unexplained};
use super::words::WordList;

/// "From the unlabelled bottle", "the herbs the guests brought", "the pink stuff".
pub(super) fn of_nobody(clause: &str) -> Option<DraftLine> {
    let asks = "what is that? its name in a line of its own, with how much of it goes in";
    WordList::Nobody
        .is_said_in(clause)
        .then(|| DraftLine { is_unknown: true, ..DraftLine::question(clause, asks.to_owned()) })
}

/// "Smoke with chipboard", "über Möbelholz räuchern": whatever is no clean wood by its name, and no food that the house knows.
pub(super) fn smoked_with(clause: &str, names: Names<'_>) -> Option<DraftLine> {
    let words: Vec<&str> = clause.split_whitespace().collect();
    words.iter().position(|word| WordList::Smokes.has(word))?;
    let at = words.iter().position(|word| WordList::SmokedOver.has(word))?;
    let behind = words.get(at + 1..)?;
    let end = behind.iter().position(|word| WordList::Smokes.has(word)).unwrap_or(behind.len());
    let named = phrase(behind.get(..end)?);
    let is_known = (0..named.len()).any(|at| named.get(at..).is_some_and(|rest| known(rest, names).is_some()));
    let is_strange = |word: &&str| !is_clean(word) && !WordList::Rest.has_singular(word);
    let strange: Vec<&str> = named.into_iter().filter(is_strange).collect();
    let name = unexplained(&strange).filter(|_| !is_known)?;
    let asks = "what wood is that? name it where it is clean wood that is sold for smoking food: oak, beech, apple, cherry, hickory";
    Some(DraftLine { is_unknown: true, ..DraftLine::question(&name, asks.to_owned()) })
}

/// "Oak", "applewood", "Buchenholzspäne", "chips".
fn is_clean(word: &str) -> bool {
    let word = word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    let mut ends = word.char_indices().skip(1).filter_map(|(at, _)| word.split_at_checked(at));
    let is_wood = |word: &str| WordList::SmokeWood.has_singular(word);
    is_wood(&word) || ends.any(|(tree, form)| is_wood(tree) && is_clean(form))
}
