//! The embedded CSV tables: a heading, `#` for remarks, a blank for what is not known, `;` between the items of a list.

use std::borrow::Cow;
use std::ops::Deref;

use serde::de::{DeserializeOwned, IntoDeserializer};
use serde::{Deserialize, Deserializer};

use super::Word;

/// All rows of an embedded table.
///
/// # Panics
/// Where a row is not one of the table: it is compiled in, so that every test that touches it fails.
pub(crate) fn rows<T: DeserializeOwned>(name: &str, text: &str) -> Vec<T> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let row = |row: Result<T, csv::Error>| row.unwrap_or_else(|error| panic!("{name}: {error}"));
    reader.deserialize().map(row).collect()
}

/// A cell that holds a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct List<T>(pub Vec<T>);

impl<T> Deref for List<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.0
    }
}

impl<'de, T: DeserializeOwned> Deserialize<'de> for List<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let cell = String::deserialize(deserializer)?;
        let items = cell.split(';').map(str::trim).filter(|item| !item.is_empty());
        let read = |item: &str| T::deserialize(IntoDeserializer::<D::Error>::into_deserializer(item));
        items.map(read).collect::<Result<_, _>>().map(Self)
    }
}

/// An embedded table read by its columns: for long tables, of which every start reads every row. A row is one line.
pub(crate) struct LongTable {
    name: &'static str,
    head: Vec<Cow<'static, str>>,
    records: Vec<Vec<Cow<'static, str>>>,
}

/// The cells of a line; what is quoted may hold commas, and quotes written twice.
fn cells(line: &'static str) -> Vec<Cow<'static, str>> {
    if !line.contains('"') {
        return line.split(',').map(Cow::Borrowed).collect();
    }
    let mut all = Vec::new();
    let mut cell = String::new();
    let (mut quoted, mut closed) = (false, false);
    for c in line.chars() {
        let just_closed = std::mem::take(&mut closed);
        match c {
            '"' if quoted => (quoted, closed) = (false, true),
            // the second of two quotes inside a quoted cell opens it again, and is one quote
            '"' => {
                quoted = true;
                if just_closed {
                    cell.push('"');
                }
            }
            ',' if !quoted => all.push(Cow::Owned(std::mem::take(&mut cell))),
            c => cell.push(c),
        }
    }
    all.push(Cow::Owned(cell));
    all
}

impl LongTable {
    /// All rows.
    ///
    /// # Panics
    /// Where a row has more or fewer cells than the heading, as [`rows`] does.
    pub(crate) fn read(name: &'static str, text: &'static str) -> Self {
        let mut lines = text.lines().filter(|line| !line.starts_with('#')).map(cells);
        let head = lines.next().unwrap_or_default();
        let records: Vec<_> = lines.collect();
        if let Some(row) = records.iter().find(|row| row.len() != head.len()) {
            panic!("{name}: {row:?} has not the cells of the heading");
        }
        Self { name, head, records }
    }

    /// The place of a column; none where the table lacks it.
    pub(crate) fn column(&self, column: &str) -> Option<usize> {
        self.head.iter().position(|head| head == column)
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.records.iter().map(|record| Row { table: self, record })
    }
}

/// One row of a [`LongTable`]. A blank is not known; a column that the table lacks is blank.
#[derive(Clone, Copy)]
pub(crate) struct Row<'a> {
    table: &'a LongTable,
    record: &'a [Cow<'static, str>],
}

impl<'a> Row<'a> {
    /// The text of a cell, empty where it is blank.
    pub(crate) fn text(self, column: &str) -> &'a str {
        self.table.column(column).and_then(|place| self.record.get(place)).map(Cow::as_ref).unwrap_or_default()
    }

    /// The text of a cell that is not blank.
    pub(crate) fn said(self, column: &str) -> Option<String> {
        Some(self.text(column)).filter(|cell| !cell.is_empty()).map(str::to_owned)
    }

    pub(crate) fn number(self, column: &str) -> Option<f64> {
        self.number_at(self.table.column(column)?)
    }

    /// The number of the column at this place.
    pub(crate) fn number_at(self, place: usize) -> Option<f64> {
        let cell = self.record.get(place).filter(|cell| !cell.is_empty())?;
        Some(cell.parse().unwrap_or_else(|_| self.wrong(cell)))
    }

    /// A word of a closed list.
    pub(crate) fn word<T: Word>(self, column: &str) -> T {
        let cell = self.text(column);
        T::parse(cell).unwrap_or_else(|| self.wrong(cell))
    }

    /// The items of a list, parted by semicolons.
    pub(crate) fn items(self, column: &str) -> impl Iterator<Item = &'a str> {
        self.text(column).split(';').map(str::trim).filter(|item| !item.is_empty())
    }

    /// Ends with what is wrong: the table is compiled in, so that every test that touches it fails.
    pub(crate) fn wrong<T>(self, cell: &str) -> T {
        panic!("{}: `{cell}` cannot stand in {:?}", self.table.name, self.record)
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn quoted_cells_hold_commas_and_quotes() {
        let read = super::cells("a,\"\"\"b\"\" is, c\",,\"3\"\" long\"");
        assert_eq!(read, ["a", "\"b\" is, c", "", "3\" long"]);
    }
}
