//! The words by which a step says that something boils or simmers, and for how long.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::vocabulary::table::lists;

use super::spans::{SpanEnd, time};
use super::told::clauses;

/// What a pan does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Boiling {
    Simmer,
    Boil,
}

/// All of them, in small letters.
pub(crate) static BOILING_WORDS: LazyLock<Vec<(Boiling, String)>> =
    LazyLock::new(|| lists("boiling-words.csv", include_str!("boiling-words.csv")));

/// How many seconds a step boils or simmers something, at the least: by the time in the same clause.
pub(crate) fn boiled_seconds(step: &str) -> Option<f64> {
    let is_one = |word: &&str| {
        let word = word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
        BOILING_WORDS.iter().any(|(_, own)| *own == word)
    };
    let boil = clauses(step).into_iter().filter(|clause| clause.words.iter().any(is_one));
    boil.into_iter().find_map(|clause| time(&clause.words, SpanEnd::Least)).map(|told| told.seconds)
}
