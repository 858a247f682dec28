//! One way to read a table of a file: its keys in a list, each with what stands there, an example and what it means.
//! The list reads the table, finds the keys that are none, and is printed as a JSON Schema.

use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, MOST_FINDINGS, Spanned};

use crate::units::Customs;

use super::field_kind::FieldKind;
use super::given::{FileReader, Given};
use super::parse::parse;
use super::shape::{About, FieldShape, Fields, Hints};
use super::table::Table;

/// A key, and how its value gets into the model `M`.
pub(crate) struct Field<M> {
    pub about: About,
    pub read: fn(&mut M, &Given<'_>, &mut FileReader<'_>),
}

/// A table of a file that is read into `M`.
pub(crate) struct Layout<M: 'static> {
    /// What the table is called in a message: "[keep]".
    pub place: &'static str,
    /// Where its keys stand, for a key that stands elsewhere: "under [keep]"; empty where that is never said.
    pub home: &'static str,
    pub fields: &'static [Field<M>],
    /// The keys without which a file cannot be used; what to say of one that is not there is the reader's.
    pub required: &'static [&'static str],
}

pub(crate) trait Laid: Default + 'static {
    const LAYOUT: &'static Layout<Self>;
}

impl<M: Default> Fields for Layout<M> {
    fn place(&self) -> &'static str {
        self.place
    }

    fn home(&self) -> &'static str {
        self.home
    }

    fn required(&self) -> &'static [&'static str] {
        self.required
    }

    fn about(&self) -> Vec<&About> {
        self.fields.iter().map(|field| &field.about).collect()
    }
}

impl<M: Laid> FieldKind<M> {
    pub(crate) const fn table() -> Self {
        Self::new(FieldShape::Table(M::LAYOUT), |given, reader| match given.value.value.table() {
            Some(table) => Some(M::LAYOUT.read(table, reader)),
            None => reader.refuse(M::LAYOUT.in_braces(given, given.not_a_table(), reader)),
        })
    }
}

impl<M: Default> Layout<M> {
    /// Reads a table; what cannot be read is reported, and its default stands.
    pub(crate) fn read(&self, table: &Table, reader: &mut FileReader<'_>) -> M {
        self.read_at(table, self.place, reader)
    }

    /// The same, for a table that messages call by another name.
    pub(crate) fn read_at(&self, table: &Table, place: &str, reader: &mut FileReader<'_>) -> M {
        self.check_keys(table, place, reader);
        let mut model = M::default();
        for field in self.fields {
            if let Some((key, value)) = table.get(field.about.key) {
                (field.read)(&mut model, &Given { key, value, about: &field.about, place }, reader);
            }
        }
        model
    }

    /// What stands where a table was expected, with it written as one: under the first key that takes it, else the line of an example.
    fn in_braces(&self, given: &Given<'_>, found: Diagnostic, reader: &FileReader<'_>) -> Diagnostic {
        let takes = |field: &&Field<M>| {
            let key = Spanned { value: field.about.key.to_owned(), span: given.key.span };
            let mut alone =
                FileReader { customs: reader.customs, ..FileReader::new(reader.text, reader.hints, Vec::new()) };
            (field.read)(&mut M::default(), &Given { key: &key, about: &field.about, ..*given }, &mut alone);
            !matches!(field.about.shape, FieldShape::None) && alone.found.is_empty()
        };
        let said = reader.text.get(given.value.span.start..given.value.span.end);
        match self.fields.iter().find(takes).and_then(|field| Some(format!("{{ {} = {} }}", field.about.key, said?))) {
            Some(braces) => found.help(format!("write {} = {braces}", given.key.value)).fix(given.value.span, braces),
            None => match self.fields.first() {
                Some(first) => {
                    found.help(format!("write for example {} = {{ {} }}", given.key.value, first.about.line()))
                }
                None => found,
            },
        }
    }

    pub(crate) fn has(&self, key: &str) -> bool {
        self.fields.iter().any(|field| field.about.key == key && !matches!(field.about.shape, FieldShape::None))
    }

    /// A line that shows how a key is written.
    pub(crate) fn example(&self, key: &str) -> Option<String> {
        let about = self.fields.iter().map(|field| &field.about).find(|about| about.key == key)?;
        Some(about.line())
    }

    /// Reports every key that the table does not have: with what it is called here, where it belongs, or what was
    /// probably meant.
    fn check_keys(&self, table: &Table, place: &str, reader: &mut FileReader<'_>) {
        let all: Vec<_> = self.fields.iter().map(|field| field.about.key).collect();
        let refused =
            |key: &str| self.fields.iter().any(|f| f.about.key == key && matches!(f.about.shape, FieldShape::None));
        let known: Vec<_> = all.iter().copied().filter(|key| !refused(key)).collect();
        for key in table.other_keys(&all).take(MOST_FINDINGS + 1) {
            let word = key.value.to_lowercase();
            let called = reader.hints.called(&word).filter(|name| known.contains(name) && table.get(name).is_none());
            let is_heading = table.get(&key.value).is_some_and(|(_, value)| value.value.table().is_some());
            let below = |name: &str| self.fields.iter().any(|f| f.about.key == name && f.about.shape.is_table());
            let instead = reader.hints.instead.iter().find(|(other, _)| *other == word).map(|(_, todo)| *todo);
            reader.found.push(match (called, reader.hints.home(&word)) {
                _ if let Some(todo) = instead => {
                    Diagnostic::error(Code::UnknownKey, format!("{place} has no key `{}`", key.value))
                        .at(key.span, "not known here")
                        .help(todo)
                }
                (Some(name), _) if is_heading && !below(name) => {
                    let line = self.example(name).unwrap_or_default();
                    Diagnostic::error(Code::UnknownKey, format!("{place} has no key `{}`", key.value))
                        .at(key.span, "not known here")
                        .help(format!("{} calls it `{name}`, a line above all [headings]: {line}", reader.hints.file))
                }
                (Some(name), _) => Diagnostic::error(Code::UnknownKey, format!("{place} has no key `{}`", key.value))
                    .at(key.span, "not known here")
                    .help(format!("{} calls it `{name}`", reader.hints.file))
                    .fix(key.span, name),
                (None, Some(home)) if word == key.value => misplaced(key, place, home),
                _ => table.unknown_key(key, place, &known),
            });
            // what the line will say under its right key is said now, and not once that is mended
            let field = called.and_then(|name| self.fields.iter().find(|field| field.about.key == name));
            if let (Some(field), Some((_, value)), false) = (field, table.get(&key.value), is_heading) {
                let key = Spanned { value: field.about.key.to_owned(), span: key.span };
                (field.read)(&mut M::default(), &Given { key: &key, value, about: &field.about, place }, reader);
            }
        }
    }
}

pub(crate) fn misplaced(key: &Spanned<String>, place: &str, home: &str) -> Diagnostic {
    Diagnostic::error(Code::Misplaced, format!("`{}` does not belong to {place}", key.value))
        .at(key.span, format!("this belongs {home}"))
        .help(format!("move the line {home}: whatever stands below a [heading] belongs to that heading"))
}

/// Reads the text of a file by its layout. What is found bears the name of the file.
pub(crate) fn read_file<M: Laid>(text: &str, file: &Arc<str>, hints: &'static Hints, found: &mut Vec<Diagnostic>) -> M {
    read_file_by(text, file, hints, &Customs::default(), found)
}

/// The same in a house that settles how amounts are meant.
pub(crate) fn read_file_by<M: Laid>(
    text: &str,
    file: &Arc<str>,
    hints: &'static Hints,
    customs: &Customs,
    found: &mut Vec<Diagnostic>,
) -> M {
    let mut own = Vec::new();
    let table = parse(text, &mut own);
    let mut reader = FileReader { customs: *customs, ..FileReader::new(text, hints, own) };
    let model = M::LAYOUT.read(&table, &mut reader);
    found.extend(reader.found.into_iter().map(|d| d.in_file(file)));
    model
}

pub(crate) trait Slot<T> {
    fn put(&mut self, value: Spanned<T>);
}

impl<T> Slot<T> for T {
    fn put(&mut self, value: Spanned<T>) {
        *self = value.value;
    }
}

impl<T> Slot<T> for Option<T> {
    fn put(&mut self, value: Spanned<T>) {
        *self = Some(value.value);
    }
}

impl<T> Slot<T> for Spanned<T> {
    fn put(&mut self, value: Spanned<T>) {
        *self = value;
    }
}

impl<T> Slot<T> for Option<Spanned<T>> {
    fn put(&mut self, value: Spanned<T>) {
        *self = Some(value);
    }
}

/// Reads a value and gives it, with its place, to what keeps it.
pub(crate) fn put<M, T: 'static>(
    kind: &FieldKind<T>,
    model: &mut M,
    given: &Given<'_>,
    reader: &mut FileReader<'_>,
    set: fn(&mut M, Spanned<T>),
) {
    if let Some(value) = kind.read(given, reader) {
        set(model, Spanned { value, span: given.value.span });
    }
}

/// `layout!("[keep]", "under [keep]", [required keys], (key, kind, example, meaning, where it is kept), …)`, without what
/// is empty: a field of the model (`closed`, `last.loss`), or a setter (`|model, read| …`).
macro_rules! layout {
    ($place:literal $(, $home:literal)? $(, [$($required:literal),*])? $(, ($($field:tt)*))* $(,)?) => {
        &$crate::input::Layout {
            place: $place,
            home: concat!($($home)?),
            required: &[$($($required),*)?],
            fields: &[$($crate::input::layout!(@ $($field)*)),*],
        }
    };
    (@ $key:literal, $kind:expr, $example:literal, $means:literal, $($slot:ident).+) => {
        $crate::input::layout!(@ $key, $kind, $example, $means, |model, read| {
            $crate::input::Slot::put(&mut model.$($slot).+, read)
        })
    };
    (@ $key:literal, $kind:expr, $example:literal, $means:literal, $set:expr) => {
        $crate::input::Field {
            about: $crate::input::About { key: $key, shape: $kind.shape, example: $example, means: $means },
            read: |model, given, reader| $crate::input::put(&$kind, model, given, reader, $set),
        }
    };
}
pub(crate) use layout;
