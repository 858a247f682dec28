//! Egg that is named by its parts alone: "fold in the whites", "monter avec deux jaunes". A colour stands in the singular or
//! behind its thing ("2 citrons jaunes").

use std::sync::LazyLock;

use serde::Deserialize;

use super::step_words::StepWord;
use crate::spelling::NameWord;
use crate::vocabulary::table::{self, List};

#[derive(Deserialize)]
struct EggPartRow {
    word: String,
    behind: List<String>,
}

static PARTS: LazyLock<Vec<EggPartRow>> =
    LazyLock::new(|| table::rows("egg-parts.csv", include_str!("data/egg-parts.csv")));

/// The part of an egg that a clause names, as it is written there.
pub(super) fn named(clause: &str) -> Option<&'static str> {
    let lower = clause.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let is_said = |row: &&EggPartRow| {
        words.iter().enumerate().filter(|(_, word)| **word == row.word).any(|(at, _)| {
            let before = at.checked_sub(1).and_then(|before| words.get(before));
            let is_number = |word: &&str| word.chars().all(|c| c.is_ascii_digit());
            let stands = |word: &&str| is_number(word) || row.behind.iter().any(|known| known == word);
            row.behind.is_empty() || before.is_some_and(stands)
        })
    };
    PARTS.iter().find(is_said).map(|row| row.word.as_str())
}

/// Whether an egg of which a clause speaks comes out of its shell: "break the eggs", "six eggs", "from my own hens". A carton is weighed.
pub(super) fn is_in_shell(words: &[NameWord]) -> bool {
    /// So many words at the most stand between the number and the egg.
    const REACH: usize = 2;
    let has = |list: StepWord, word: &NameWord| list.has(&word.text);
    let is_number = |word: &NameWord| word.text.chars().all(|c| c.is_ascii_digit()) || has(StepWord::Number, word);
    let is_part = |at: usize| words.get(at).is_some_and(|word| has(StepWord::PartOfEgg, word));
    let is_whole = |at: usize| words.get(at).is_some_and(|word| has(StepWord::Egg, word)) && !is_part(at + 1);
    let counted = |at: usize| (at + 1..=at + REACH).any(is_whole);
    words.iter().any(|word| has(StepWord::Shelling, word))
        || words.iter().enumerate().any(|(at, word)| is_number(word) && counted(at))
}
