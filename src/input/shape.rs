//! What is known of the keys of a file before any is read: what may stand there, an example, a meaning, a home.

use crate::units::NumberRange;

/// What may stand under a key, for a JSON Schema.
#[derive(Clone, Copy, Debug)]
pub(crate) enum FieldShape {
    /// A text, or an amount in quotes.
    Text,
    /// A number from the first to the second.
    Number(f64, f64),
    Flag,
    Day,
    Words(fn() -> Vec<&'static str>),
    List(&'static FieldShape),
    Table(&'static dyn Fields),
    /// A table whose keys are names.
    Named(&'static FieldShape),
    Either(&'static [FieldShape]),
    /// Nothing: the key is known so that it can be said why it is not taken.
    None,
}

impl FieldShape {
    pub(crate) const fn within(bounds: &NumberRange) -> Self {
        let (least, most) = bounds.ends();
        Self::Number(least, most)
    }
}

impl FieldShape {
    /// Whether it is written below a heading.
    pub(crate) fn is_table(&self) -> bool {
        matches!(self, Self::Table(_) | Self::Named(_) | Self::List(Self::Table(_)))
    }
}

pub(crate) const ANY_NUMBER: FieldShape = FieldShape::Number(f64::NEG_INFINITY, f64::INFINITY);

/// An amount in quotes, or a bare number.
pub(crate) const AMOUNT: FieldShape = FieldShape::Either(&[FieldShape::Text, ANY_NUMBER]);

/// What is known of a key, whatever is read from it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct About {
    /// The key as it is written.
    pub key: &'static str,
    pub shape: FieldShape,
    /// A value as it is written in a file (`"\"12 %\""`).
    pub example: &'static str,
    /// What it means, in a line.
    pub means: &'static str,
}

impl About {
    /// A line that shows how the key is written.
    pub(crate) fn line(&self) -> String {
        format!("{} = {}", self.key, self.example)
    }
}

/// The keys of a table, whatever it is read into.
pub(crate) trait Fields: Sync {
    fn place(&self) -> &'static str;
    fn home(&self) -> &'static str {
        ""
    }
    fn required(&self) -> &'static [&'static str] {
        &[]
    }
    fn about(&self) -> Vec<&About>;
}

impl std::fmt::Debug for dyn Fields {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.place())
    }
}

/// What is known of the keys of a kind of file as a whole.
pub(crate) struct Hints {
    /// The kind of file: "a card".
    pub file: &'static str,
    /// The tables by which a key that stands elsewhere is sent home; the first that has it is meant.
    pub homes: &'static [&'static dyn Fields],
    /// What others call a key, and what it is called here.
    pub other_names: &'static [(&'static str, &'static str)],
    /// What others write as a key and no key says here, and what to do.
    pub instead: &'static [(&'static str, &'static str)],
}

impl Hints {
    /// Of a file of whose keys no more is known than their names.
    pub(crate) const NONE: Self = Self { file: "", homes: &[], other_names: &[], instead: &[] };

    /// Where a key belongs, in words. A table is sent nowhere: it is a heading itself.
    pub(crate) fn home(&self, key: &str) -> Option<&'static str> {
        let is_here = |about: &&About| about.key == key && !about.shape.is_table();
        self.homes.iter().find(|table| table.about().iter().any(is_here)).map(|table| table.home())
    }

    pub(crate) fn called(&self, word: &str) -> Option<&'static str> {
        self.other_names.iter().find(|(other, _)| *other == word).map(|(_, name)| *name)
    }
}
