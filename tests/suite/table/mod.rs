//! The check tables of `tests/reference`, and embedded tables: rows with named columns, `#` lines left out.
#![allow(dead_code)] // each test file uses a part of it

use std::collections::HashMap;

/// One row: column name to text.
pub struct Row(HashMap<String, String>);

impl Row {
    /// The text in a column.
    pub fn text(&self, column: &str) -> &str {
        self.0.get(column).unwrap_or_else(|| panic!("no column {column}"))
    }

    /// Whether its table has this column.
    pub fn has(&self, column: &str) -> bool {
        self.0.contains_key(column)
    }

    /// The number in a column.
    pub fn number(&self, column: &str) -> f64 {
        self.maybe(column).unwrap_or_else(|| panic!("no number in {column}: {:?}", self.0))
    }

    /// The number in a column, if there is one.
    pub fn maybe(&self, column: &str) -> Option<f64> {
        self.text(column).trim_start_matches('+').parse().ok()
    }
}

/// All rows of a table.
pub fn rows(name: &str) -> Vec<Row> {
    let path = format!("{}/tests/reference/{name}.csv", env!("CARGO_MANIFEST_DIR"));
    let rows = rows_of(&std::fs::read_to_string(&path).unwrap());
    assert!(!rows.is_empty(), "{name}");
    rows
}

/// All rows of the text of a table, as of one that is embedded.
pub fn rows_of(text: &str) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.deserialize().map(|row| Row(row.unwrap())).collect()
}

/// Collects the largest deviation, and says it when the test is run with `--nocapture`.
pub struct Largest {
    what: &'static str,
    value: f64,
}

impl Largest {
    pub fn of(what: &'static str) -> Self {
        Self { what, value: 0.0 }
    }

    /// Notes one deviation without checking it.
    pub fn shown(&mut self, found: f64, expected: f64) {
        self.value = self.value.max((found - expected).abs());
    }

    /// Checks one deviation against its tolerance.
    pub fn within(&mut self, found: f64, expected: f64, tolerance: f64, at: impl std::fmt::Debug) {
        self.shown(found, expected);
        assert!((found - expected).abs() <= tolerance, "{} at {at:?}: {found} for {expected} ± {tolerance}", self.what);
    }
}

impl Drop for Largest {
    fn drop(&mut self) {
        println!("{}: largest deviation {:.3e}", self.what, self.value);
    }
}
