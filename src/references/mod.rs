//! The bibliography: one entry for each standard, paper, law or table that a number or a rule stands on.
//!
//! A [`Key`] is known to stand in it: a wrong one in code does not compile, one in an embedded table is not read.

use std::sync::LazyLock;

use serde::{Deserialize, Deserializer, Serialize, de};

const FILE: &str = include_str!("references.csv");

/// How far a source was followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Standing {
    /// The figures were read in a copy of the source, or checked against it.
    #[serde(rename = "read")]
    Read,
    /// As above, but for some that were recalled; the note says which.
    #[serde(rename = "read, in part from memory")]
    ReadInPart,
    /// Recalled, then checked against independent values.
    #[serde(rename = "from memory, checked")]
    FromMemoryChecked,
    /// Recalled and not checked.
    #[serde(rename = "from memory")]
    FromMemory,
    /// A habit of the trade that no source stands behind.
    #[serde(rename = "common practice, no source")]
    CommonPractice,
}

impl Standing {
    pub(crate) fn words(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::ReadInPart => "read, in part from memory",
            Self::FromMemoryChecked => "from memory, checked",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
        }
    }
}

/// One entry.
#[derive(Clone, Debug, Deserialize)]
pub struct Reference {
    /// The short key that properties, tables and rules name.
    pub key: String,
    /// Title, author or body, year; blank where the standing says all.
    citation: String,
    /// How far it was followed.
    pub standing: Standing,
    /// What was read of it and how; blank where there is nothing to add.
    pub note: String,
}

impl Reference {
    /// The words that are printed: the citation, or the standing where there is none.
    pub(crate) fn words(&self) -> &str {
        if self.citation.is_empty() { self.standing.words() } else { &self.citation }
    }

    pub(crate) fn with_standing(&self) -> String {
        match self.citation.as_str() {
            "" => self.standing.words().to_owned(),
            citation => format!("{citation} ({})", self.standing.words()),
        }
    }
}

static REFERENCES: LazyLock<Vec<Reference>> = LazyLock::new(|| {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(FILE.as_bytes());
    reader.deserialize().map(|row| row.expect("every row of references.csv is an entry")).collect()
});

/// All of them, by subject.
pub fn all() -> &'static [Reference] {
    &REFERENCES
}

/// The entry with this key.
pub fn find(key: &str) -> Option<&'static Reference> {
    REFERENCES.iter().find(|r| r.key == key)
}

/// The key of an entry that exists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Key(&'static str);

impl Key {
    /// A key that is written in code; `keys!` makes a list of them.
    ///
    /// # Panics
    /// Where no entry has it: when the code is compiled, as all of them are constants.
    pub(crate) const fn new(key: &'static str) -> Self {
        assert!(begins_a_row(key), "references.csv has no entry with this key");
        Self(key)
    }

    /// The key that is written in a table, where there is such an entry.
    pub(crate) fn of(written: &str) -> Option<Self> {
        find(written).map(|entry| Self(&entry.key))
    }

    pub(crate) fn reference(self) -> &'static Reference {
        find(self.0).expect("a key begins a row of references.csv")
    }
}

impl<'de> Deserialize<'de> for Key {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let written = String::deserialize(deserializer)?;
        Self::of(&written).ok_or_else(|| de::Error::custom(format!("no source `{written}` in the bibliography")))
    }
}

/// Keys of the bibliography, checked when they are compiled.
macro_rules! keys {
    ($($key:literal),* $(,)?) => { const { &[$($crate::references::Key::new($key)),*] } };
}
pub(crate) use keys;

/// Where the lines of the file begin.
const STARTS: [usize; count_lines()] = {
    let (mut starts, mut line, mut at) = ([0; count_lines()], 1, 0);
    while at < FILE.len() {
        if FILE.as_bytes()[at] == b'\n' && line < starts.len() {
            starts[line] = at + 1;
            line += 1;
        }
        at += 1;
    }
    starts
};

const fn count_lines() -> usize {
    let (mut lines, mut at) = (0, 0);
    while at < FILE.len() {
        lines += (FILE.as_bytes()[at] == b'\n') as usize;
        at += 1;
    }
    lines
}

// half a key is none, and neither is more than one
const _: () = assert!(begins_a_row("kell-1975") && !begins_a_row("kell") && !begins_a_row("kell-1975,"));

const fn begins_a_row(key: &str) -> bool {
    let (file, key) = (FILE.as_bytes(), key.as_bytes());
    let mut line = 0;
    while line < STARTS.len() {
        let (start, mut same) = (STARTS[line], 0);
        while same < key.len() && start + same < file.len() && file[start + same] == key[same] {
            same += 1;
        }
        if same == key.len() && start + same < file.len() && file[start + same] == b',' {
            return true;
        }
        line += 1;
    }
    false
}
