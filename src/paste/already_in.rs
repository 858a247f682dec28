//! Clauses that speak of a thing and put nothing in: "the sugar is already in", "never add the sugar after this".

use super::words::WordList;

/// So many words from the verb a "not" denies it at the most (ours): "den Zucker nie danach zugeben".
const DENIED_WITHIN: usize = 2;

/// Whether a clause tells of what went in before, or forbids that anything goes in.
pub(super) fn puts_nothing_in(clause: &str) -> bool {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let near = |at: usize| words.iter().skip(at.saturating_sub(DENIED_WITHIN)).take(2 * DENIED_WITHIN + 1);
    let is_denied = |at: usize| near(at).any(|word| WordList::Unless.has(word));
    let denies = (0..words.len()).any(|at| WordList::PutIn.within(words[at]) && is_denied(at));
    denies || WordList::AlreadyIn.is_said_in(clause)
}
