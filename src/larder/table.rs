//! The embedded tables: CSV with a header row, `#` for remarks, a blank for what is not known.

use std::collections::HashMap;

/// One row, by the names of its columns.
pub(super) struct Row(HashMap<String, String>);

/// The rows of a table, in order.
pub(super) fn rows(csv: &str) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(csv.as_bytes());
    reader.deserialize().filter_map(Result::ok).map(Row).collect()
}

impl Row {
    /// The text of a column; empty where there is none.
    pub(super) fn text(&self, column: &str) -> &str {
        self.0.get(column).map_or("", String::as_str)
    }

    /// The text of a column, unless blank.
    pub(super) fn filled(&self, column: &str) -> Option<String> {
        Some(self.text(column)).filter(|s| !s.is_empty()).map(str::to_owned)
    }

    /// The number in a column; `None` for a blank.
    pub(super) fn number(&self, column: &str) -> Option<f64> {
        self.text(column).parse().ok()
    }

    /// The texts in a column that semicolons part.
    pub(super) fn list(&self, column: &str) -> Vec<String> {
        self.text(column).split(';').map(str::trim).filter(|s| !s.is_empty()).map(str::to_owned).collect()
    }
}
