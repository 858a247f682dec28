//! "~500 g", "ca. 20 ml", "to taste": amounts that are none to the gram.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::vocabulary::table::lists;

#[derive(Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum AboutWord {
    About,
    Open,
}

static WORDS: LazyLock<Vec<(AboutWord, &str)>> =
    LazyLock::new(|| lists("about-words.csv", include_str!("about-words.csv")));

/// An amount without the word that says it is none to the millilitre.
pub(crate) fn without_about(text: &str) -> &str {
    let trimmed = text.trim_start();
    let lower = trimmed.to_lowercase();
    let behind = |word: &&str| {
        let rest = lower.strip_prefix(*word)?;
        let is_apart = rest.starts_with(' ') || !word.ends_with(char::is_alphabetic);
        let number = rest.trim_start();
        (is_apart && number.starts_with(char::is_numeric)).then(|| lower.len() - number.len())
    };
    let about = WORDS.iter().filter(|(list, _)| *list == AboutWord::About).map(|(_, word)| word);
    about.filter_map(behind).max().and_then(|end| trimmed.get(end..)).unwrap_or(text)
}

/// Whether an amount says so.
pub(crate) fn is_about(text: &str) -> bool {
    without_about(text) != text
}

/// Whether it is what people write where nobody has measured it: "to taste", "q.b.".
pub(super) fn is_left_open(text: &str) -> bool {
    let lower = text.trim().to_lowercase();
    WORDS.iter().any(|(list, word)| *list == AboutWord::Open && *word == lower)
}
