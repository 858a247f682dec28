//! Reads a check table of `tests/reference`.

use std::collections::HashMap;

/// One row by the names of its columns.
pub struct Row(HashMap<String, String>);

impl Row {
    pub fn text(&self, column: &str) -> &str {
        self.0.get(column).unwrap_or_else(|| panic!("no column {column}"))
    }

    /// `inf` is infinite, a blank is `None`.
    pub fn maybe(&self, column: &str) -> Option<f64> {
        match self.text(column) {
            "" => None,
            "inf" => Some(f64::INFINITY),
            text => Some(text.parse().unwrap_or_else(|_| panic!("{column}: {text}"))),
        }
    }

    pub fn number(&self, column: &str) -> f64 {
        self.maybe(column).unwrap_or_else(|| panic!("{column} is blank"))
    }
}

pub fn rows(file: &str) -> Vec<Row> {
    let path = format!("{}/tests/reference/{file}", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).flexible(true).from_path(path).unwrap();
    let headers: Vec<String> = reader.headers().unwrap().iter().map(Into::into).collect();
    let rows: Vec<Row> = reader
        .records()
        .map(|record| Row(headers.iter().cloned().zip(record.unwrap().iter().map(Into::into)).collect()))
        .collect();
    assert!(!rows.is_empty());
    rows
}

#[track_caller]
pub fn assert_close(got: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, expected {expected} ± {tolerance}");
}
