//! Milk and cream that somebody calls raw, or not pasteurised: "raw milk", "lait entier non pasteurisé". What is raw beside them
//! ("raw sugar and milk") is another thing.

use crate::spelling::{Claim, NameWord, pasteurised};

use super::step_words::StepWord;

/// So many words at the most stand between milk and what it is called ("raw whole milk").
const BETWEEN: usize = 1;

/// Whether these words call a milk raw. `is_milk`: whether the word at a place names one.
pub(super) fn is_named(words: &[NameWord], is_milk: impl Fn(usize) -> bool) -> bool {
    let is_raw = |word: &NameWord| match word.text.as_str() {
        "pasteurised" => word.denied,
        text => !word.denied && (StepWord::Raw.has(text) || pasteurised(text) == Some(Claim::Denied)),
    };
    let said: Vec<usize> = (0..words.len()).filter(|at| words.get(*at).is_some_and(is_raw)).collect();
    let near =
        |at: usize| (at.saturating_sub(BETWEEN + 1)..=at + BETWEEN + 1).any(|near| near < words.len() && is_milk(near));
    said.into_iter().any(near)
}
