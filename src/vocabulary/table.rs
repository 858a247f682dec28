//! The embedded CSV tables: a heading, `#` for remarks, a blank for what is not known, `;` between the items of a list.

use std::ops::Deref;

use serde::de::{DeserializeOwned, IntoDeserializer};
use serde::{Deserialize, Deserializer};

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
