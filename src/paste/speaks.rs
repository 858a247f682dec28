//! Whether a clause of the method speaks of a part of the list, or of all of them.

use crate::larder::spoken::taken_of;
use crate::spelling::words;
use crate::vocabulary::Word;

use super::names::Names;
use super::words::WordList;

/// "Put everything in a jar"; "all the milk" is the milk.
pub(super) fn says_all(clause: &str) -> bool {
    let said = words(clause);
    let of_one = |at: usize| said.get(at + 1).is_some_and(|next| matches!(next.as_str(), "the" | "of"));
    said.iter().enumerate().any(|(at, word)| WordList::Everything.has(word) && !(word == "all" && of_one(at)))
}

/// Whether a clause speaks of a part: by the last word of its name, or by another that says what it is.
pub(super) fn names_it(part: &str, clause: &str) -> bool {
    let said = words(clause);
    let of = taken_of(part).unwrap_or_else(|| part.to_owned());
    let own = words(&of);
    let long: Vec<&String> = own.iter().filter(|word| word.len() > 2 && !TOO_WIDE.contains(&word.as_str())).collect();
    long.iter().any(|word| said.contains(word)) || own.last().is_some_and(|last| said.contains(last))
}

/// Words of names that say of many things what they are like, and of none what it is.
const TOO_WIDE: [&str; 12] =
    ["white", "red", "green", "black", "fresh", "dried", "ground", "whole", "caster", "golden", "dark", "light"];

/// The same, and by what kind of thing it is: "the sugar" of demerara, "the spirit" of gin, "the spices".
pub(super) fn speaks_of(part: &str, clause: &str, names: Names<'_>) -> bool {
    let kind = names.house.larder.find(part).and_then(|known| known.kind);
    names_it(part, clause)
        || kind.is_some_and(|kind| words(clause).iter().any(|word| word == kind.word()))
        || names.is_strained_out(part) && WordList::Plants.within(clause)
}
