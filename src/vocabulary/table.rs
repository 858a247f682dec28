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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::Tag;

    #[derive(Debug, Deserialize)]
    struct Line {
        tags: List<Tag>,
        limit: Option<f64>,
    }

    #[test]
    fn a_row_is_read_by_its_heading() {
        let read: Vec<Line> = rows("t", "# remark\ntags,limit\ntonka; cassia,\n,2.5\n");
        assert_eq!(*read[0].tags, [Tag::Tonka, Tag::Cassia]);
        assert_eq!((read[0].limit, read[1].limit, read[1].tags.len()), (None, Some(2.5), 0));
    }

    #[test]
    #[should_panic(expected = "no tag is called `tonca`")]
    fn a_word_that_no_list_has_fails() {
        rows::<Line>("t", "tags,limit\ntonca,\n");
    }
}
