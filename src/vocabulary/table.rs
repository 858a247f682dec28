//! The embedded CSV tables: a heading, `#` for remarks, a blank for what is not known, `;` between the items of a list.

use std::borrow::Cow;
use std::ops::Deref;

use memchr::memrchr;
use serde::de::value::{MapDeserializer, StrDeserializer};
use serde::de::{self, DeserializeOwned, IntoDeserializer, Visitor};
use serde::{Deserialize, Deserializer};

use super::Word;
use crate::spelling::singular;

/// All rows of an embedded table. Each is one line; a reader of [`csv`] costs more to set up than most of the tables hold.
///
/// # Panics
/// Where a row is not one of the table: it is compiled in, so that every test that touches it fails.
pub(crate) fn rows<T: DeserializeOwned>(name: &'static str, text: &'static str) -> Vec<T> {
    let head = lines(text).next().map(cells).unwrap_or_default();
    let table = LongTable { name, head, body: "" };
    lines(text).skip(1).map(|line| table.read_line(line)).collect()
}

/// A table of lists: each word with the list that it stands in. No cell of it holds a comma.
///
/// # Panics
/// As [`rows`] does.
pub(crate) fn lists<L: DeserializeOwned + Copy>(name: &str, text: &'static str) -> Vec<(L, &'static str)> {
    let of = |line: &'static str| {
        let (list, words) = line.split_once(',').unwrap_or_else(|| panic!("{name}: a list without words: {line}"));
        let written: StrDeserializer<'_, de::value::Error> = list.into_deserializer();
        let list = L::deserialize(written).unwrap_or_else(|error| panic!("{name}: {error}"));
        words.split(';').map(str::trim).filter(|word| !word.is_empty()).map(move |word| (list, word))
    };
    lines(text).skip(1).flat_map(of).collect()
}

/// The lines of an embedded table of which no cell holds a line break: the heading, then the rows.
pub(crate) fn lines(text: &'static str) -> impl Iterator<Item = &'static str> {
    text.lines().filter(|line| !line.starts_with('#') && !line.is_empty())
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

/// The words of a cell, or of a word of a closed list. They stand there plain, and only what may be a plural is folded.
pub(crate) fn words_of(cell: &'static str) -> impl Iterator<Item = Cow<'static, str>> {
    cell.split([' ', '_']).map(|word| match word.ends_with('s') {
        true => Cow::Owned(singular(word)),
        false => Cow::Borrowed(word),
    })
}

/// The first cell of a line, which holds no comma: what the line is of.
pub(crate) fn first_cell(line: &str) -> &str {
    line.split_once(',').map_or(line, |(first, _)| first)
}

/// An embedded table without its remarks and its heading.
pub(crate) fn body(text: &'static str) -> &'static str {
    let mut rest = text;
    while let Some((line, after)) = rest.split_once('\n') {
        rest = after;
        if !line.starts_with('#') {
            break;
        }
    }
    rest
}

/// The lines whose first cell is this, of the body of a table that is sorted by the bytes of its first cells.
pub(crate) fn lines_of(body: &'static str, first: &str) -> impl Iterator<Item = &'static str> + use<> {
    lines_by(body, first, |line| Cow::Borrowed(first_cell(line)))
}

/// The lines with this key, of the body of a table that is sorted by the bytes of its keys: found by halving, so that a start reads a
/// few lines of thousands.
fn lines_by(
    body: &'static str,
    wanted: &str,
    key: fn(&'static str) -> Cow<'static, str>,
) -> impl Iterator<Item = &'static str> + use<> {
    // the first line that is not less: `low` is always the beginning of a line
    let (mut low, mut high) = (0, body.len());
    while low < high {
        let middle = low + (high - low) / 2;
        let before = body.as_bytes().get(..middle).and_then(|bytes| memrchr(b'\n', bytes));
        let start = before.map_or(0, |at| at + 1).max(low);
        let line = body.get(start..).and_then(|rest| rest.lines().next()).unwrap_or_default();
        if *key(line) < *wanted {
            low = start + line.len() + 1;
        } else {
            high = start;
        }
    }
    let wanted = wanted.to_owned();
    body.get(low..).unwrap_or_default().lines().take_while(move |line| *key(line) == *wanted)
}

/// By what a table of names is sorted: the first word of a line, folded.
pub(crate) fn first_word(line: &'static str) -> Cow<'static, str> {
    words_of(first_cell(line)).next().unwrap_or_default()
}

/// An embedded table read by its columns, and a row only when it is asked for: for long tables, of which a start needs a
/// few rows. A row is one line, and its first cell is what it is of.
pub(crate) struct LongTable {
    name: &'static str,
    head: Vec<Cow<'static, str>>,
    body: &'static str,
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
    /// The table of a text.
    pub(crate) fn read(name: &'static str, text: &'static str) -> Self {
        Self { name, head: lines(text).next().map(cells).unwrap_or_default(), body: body(text) }
    }

    /// The place of a column; none where the table lacks it.
    pub(crate) fn column(&self, column: &str) -> Option<usize> {
        self.head.iter().position(|head| head == column)
    }

    /// Its lines as they stand.
    pub(crate) fn lines(&self) -> impl Iterator<Item = &'static str> {
        self.body.lines()
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.lines().map(|line| self.row(line))
    }

    /// The lines of one thing, of a sorted table (see [`lines_of`]).
    pub(crate) fn lines_of(&self, of: &str) -> impl Iterator<Item = &'static str> + use<> {
        lines_of(self.body, of)
    }

    /// The same as rows.
    pub(crate) fn rows_of(&self, of: &str) -> impl Iterator<Item = Row<'_>> {
        self.lines_of(of).map(|line| self.row(line))
    }

    /// The lines that begin with this word, of a table that is sorted by them (see [`first_word`]).
    pub(crate) fn beginning_with(&self, word: &str) -> impl Iterator<Item = &'static str> + use<> {
        lines_by(self.body, word, first_word)
    }

    /// A line as what is read of it.
    ///
    /// # Panics
    /// As [`rows`] does; also where it has more or fewer cells than the heading.
    pub(crate) fn read_line<T: DeserializeOwned>(&self, line: &'static str) -> T {
        let cells = self.row(line).record;
        let named = self.head.iter().map(Cow::as_ref).zip(cells.into_iter().map(Cell));
        let read: Result<T, CellError> = T::deserialize(MapDeserializer::new(named));
        read.unwrap_or_else(|error| panic!("{}: {error}: {line}", self.name))
    }

    /// A line as a row.
    ///
    /// # Panics
    /// Where it has more or fewer cells than the heading, as [`rows`] does.
    pub(crate) fn row(&self, line: &'static str) -> Row<'_> {
        let record = cells(line);
        assert!(record.len() == self.head.len(), "{}: {record:?} has not the cells of the heading", self.name);
        Row { table: self, record }
    }
}

type CellError = de::value::Error;

/// One cell, as serde reads it: a blank is none where there may be none.
struct Cell(Cow<'static, str>);

impl Cell {
    fn parse<T: std::str::FromStr>(&self) -> Result<T, CellError> {
        self.0.parse().map_err(|_| de::Error::custom(format!("`{}` cannot stand here", self.0)))
    }
}

impl<'de> IntoDeserializer<'de, CellError> for Cell {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

impl<'de> Deserializer<'de> for Cell {
    type Error = CellError;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, CellError> {
        match self.0 {
            Cow::Borrowed(written) => visitor.visit_borrowed_str(written),
            Cow::Owned(written) => visitor.visit_string(written),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, CellError> {
        if self.0.is_empty() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, CellError> {
        visitor.visit_f64(self.parse()?)
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, CellError> {
        visitor.visit_u64(self.parse()?)
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, CellError> {
        visitor.visit_bool(self.parse()?)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        visitor: V,
    ) -> Result<V::Value, CellError> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, CellError> {
        visitor.visit_enum(self.0.as_ref().into_deserializer())
    }

    serde::forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u8 u16 u32 u128 f32 char str string bytes byte_buf unit unit_struct seq tuple tuple_struct map struct
        identifier ignored_any
    }
}

/// One row of a [`LongTable`]. A blank is not known; a column that the table lacks is blank.
#[derive(Clone)]
pub(crate) struct Row<'a> {
    table: &'a LongTable,
    record: Vec<Cow<'static, str>>,
}

impl Row<'_> {
    /// The text of a cell, empty where it is blank.
    pub(crate) fn text(&self, column: &str) -> &str {
        self.table.column(column).and_then(|place| self.record.get(place)).map(Cow::as_ref).unwrap_or_default()
    }

    /// The text of a cell that is not blank.
    pub(crate) fn said(&self, column: &str) -> Option<String> {
        Some(self.text(column)).filter(|cell| !cell.is_empty()).map(str::to_owned)
    }

    pub(crate) fn number(&self, column: &str) -> Option<f64> {
        self.number_at(self.table.column(column)?)
    }

    /// The number of the column at this place.
    pub(crate) fn number_at(&self, place: usize) -> Option<f64> {
        let cell = self.record.get(place).filter(|cell| !cell.is_empty())?;
        Some(cell.parse().unwrap_or_else(|_| self.wrong(cell)))
    }

    /// A word of a closed list.
    pub(crate) fn word<T: Word>(&self, column: &str) -> T {
        let cell = self.text(column);
        T::parse(cell).unwrap_or_else(|| self.wrong(cell))
    }

    /// The items of a list, parted by semicolons.
    pub(crate) fn items(&self, column: &str) -> impl Iterator<Item = &str> {
        self.text(column).split(';').map(str::trim).filter(|item| !item.is_empty())
    }

    /// Ends with what is wrong: the table is compiled in, so that every test that touches it fails.
    pub(crate) fn wrong<T>(&self, cell: &str) -> T {
        panic!("{}: `{cell}` cannot stand in {:?}", self.table.name, self.record)
    }
}
