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
    /// Stands on the stove for a while.
    Cook,
    /// Has a lid on: next to nothing of its water goes up (common practice, no source).
    Covered,
}

/// All of them, in small letters.
pub(crate) static BOILING_WORDS: LazyLock<Vec<(Boiling, String)>> =
    LazyLock::new(|| lists("boiling-words.csv", include_str!("boiling-words.csv")));

/// Whether a text boils, simmers or cooks something.
pub(crate) fn boils(text: &str) -> bool {
    text.split_whitespace().any(is_said)
}

fn is_said(word: &str) -> bool {
    let word = word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    BOILING_WORDS.iter().any(|(what, own)| *what != Boiling::Covered && *own == word)
}

/// Nothing boils for a day: what bubbles so long works (ours), seconds.
const LONGEST_S: f64 = 86_400.0;

/// How many seconds a step boils or simmers something, at the least: by the time in the same clause.
pub(crate) fn boiled_seconds(step: &str) -> Option<f64> {
    let boil = clauses(step).into_iter().filter(|clause| clause.words.iter().any(|word| is_said(word)));
    let told = boil.into_iter().find_map(|clause| time(&clause.words, SpanEnd::Least)).map(|told| told.seconds);
    told.filter(|seconds| *seconds < LONGEST_S)
}

/// Whether a text tells of a lid on the pan: "covered", "with the lid on", "zugedeckt".
pub(crate) fn is_covered(text: &str) -> bool {
    let words: Vec<String> = text.split(|c: char| !c.is_alphanumeric()).map(str::to_lowercase).collect();
    let said = format!(" {} ", words.join(" "));
    let covered = BOILING_WORDS.iter().filter(|(what, _)| *what == Boiling::Covered);
    covered.into_iter().any(|(_, own)| said.contains(&format!(" {own} ")))
}
