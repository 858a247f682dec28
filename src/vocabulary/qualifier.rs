//! Words that change nothing of what a thing is: "fresh", "ground", "house".

use std::collections::HashSet;
use std::sync::LazyLock;

use serde::Deserialize;

use super::table;
use crate::spelling::fold;

#[derive(Deserialize)]
struct QualifierRow {
    word: String,
}

static QUALIFIERS: LazyLock<HashSet<String>> = LazyLock::new(|| {
    let rows: Vec<QualifierRow> = table::rows("qualifiers.csv", include_str!("qualifiers.csv"));
    rows.iter().map(|row| fold(&row.word)).collect()
});

/// Whether a word, folded, is one of them.
pub(crate) fn is_qualifier(word: &str) -> bool {
    QUALIFIERS.contains(word)
}
