//! More of a thing that the list has, in no figures: "add half as much water again", "more sugar until it balances".

use crate::input::key;

use super::draft::{Draft, DraftLine};
use super::names::Names;
use super::putting::puts_in;
use super::share::known;
use super::words::WordList;

/// "Half as much again", "couper avec moitié d'eau".
pub(super) fn more_again(clause: &str) -> bool {
    WordList::MoreAgain.is_said_in(clause)
}

/// What to ask of a clause that puts in more of what the list has, by a share or until it tastes right.
pub(super) fn more_of_list(clause: &str, draft: &Draft, names: Names<'_>) -> Option<DraftLine> {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let is_listed = |name: &String| {
        let mut parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
        parts.any(|part| names.same(part.of(), name)) && !WordList::Glass.has(name)
    };
    let named = || (0..words.len()).find_map(|at| known(words.get(at..)?, names).filter(is_listed));
    // "add more water if too strong": how far that goes nobody knows before
    let more = words.iter().position(|word| WordList::More.has(word));
    let is_open = || words.iter().any(|word| WordList::Until.has(word) || WordList::OpenEnd.has(word));
    let is_more = || more.is_some_and(|at| puts_in(words.get(..at).unwrap_or_default())) && is_open();
    let ends = words.last().is_some_and(|last| WordList::PutIn.has(last));
    let puts_in = ends || (1..words.len()).any(|at| puts_in(words.get(..at).unwrap_or_default()));
    let name = Some(()).filter(|()| puts_in && more_again(clause) || is_more()).and_then(|()| named())?;
    let label = key(&format!("{name}, more"));
    let asks =
        format!("how much of it is that, beside what the list has? {label} = {{ of = \"{name}\", amount = \"…\" }}");
    Some(DraftLine::question(clause, asks))
}
