//! A sentence with amounts in it, which is no line of a list.

use super::amount_in_step::told_at;
use super::names::Names;

/// A sentence that tells amounts has so many words at the least (ours), more than a heading, and so many amounts.
const FEWEST_WORDS: usize = 9;
const FEWEST_AMOUNTS: usize = 2;

/// "For the falernum: 60 g ginger and the zest of 9 limes go into 250 ml rum overnight": a sentence, and no line of a list.
pub(super) fn tells_amounts(text: &str, names: Names<'_>) -> bool {
    let words: Vec<&str> = text.split(' ').collect();
    if words.len() < FEWEST_WORDS {
        return false;
    }
    // a line of the list may say its amount twice
    let is_line = text.starts_with(|c: char| c.is_numeric());
    let (mut at, mut found) = (0, 0);
    while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
        let told = told_at(&[], rest, false, names);
        found += usize::from(told.is_some());
        at += told.map_or(1, |(_, long)| long.max(1));
    }
    found >= FEWEST_AMOUNTS + usize::from(is_line)
}
