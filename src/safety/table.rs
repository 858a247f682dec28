//! The embedded CSV tables: their rows as maps from heading to cell.

use std::collections::HashMap;

/// One row: heading to cell.
#[derive(Clone, Debug, Default)]
pub struct Row(HashMap<String, String>);

impl Row {
    /// The cell under a heading; empty where there is none.
    pub fn cell(&self, heading: &str) -> &str {
        self.0.get(heading).map_or("", String::as_str)
    }

    /// The cell as a list, its items separated by `;`.
    pub fn list(&self, heading: &str) -> impl Iterator<Item = &str> {
        self.cell(heading).split(';').map(str::trim).filter(|item| !item.is_empty())
    }
}

/// All rows of a table whose lines of comment begin with `#`. A line that is not of the table is left out; the
/// test of each table counts its rows.
pub fn rows(text: &str) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.deserialize().filter_map(Result::ok).map(Row).collect()
}

/// How many lines of a table should be rows: all that are not blank, of comment, or the heading.
#[cfg(test)]
pub fn lines(text: &str) -> usize {
    text.lines().filter(|l| !l.is_empty() && !l.starts_with('#')).count() - 1
}
