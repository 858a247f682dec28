//! What harms at once by the gram: so much of it in one serving.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::references::Key;
use crate::spelling;
use crate::vocabulary::Tag;
use crate::vocabulary::table::{self, List};

/// A row of the table.
#[derive(Deserialize)]
pub(crate) struct OverdoseRow {
    /// What it is.
    pub tag: Tag,
    /// Words of its names; none: whatever it is called.
    pub words: List<String>,
    /// Grams in a serving from which it harms.
    pub grams: f64,
    /// How that is known.
    pub why: String,
    /// Where it stands.
    #[serde(rename = "source_id")]
    pub source: Key,
    /// How sure it is.
    pub status: String,
}

impl OverdoseRow {
    /// Whether the row is of a thing of this name.
    pub(crate) fn is_called(&self, name: &str) -> bool {
        let said = spelling::words(name);
        let begins = |word: &String| said.iter().any(|said| said.starts_with(word.as_str()));
        let all = |words: &String| spelling::words(words).iter().all(begins);
        self.words.is_empty() || self.words.iter().any(all)
    }
}

static OVERDOSES: LazyLock<Vec<OverdoseRow>> =
    LazyLock::new(|| table::rows("overdoses.csv", include_str!("data/overdoses.csv")));

/// What has a dose that harms at once.
pub(crate) fn overdoses() -> impl Iterator<Item = &'static OverdoseRow> {
    OVERDOSES.iter()
}
