//! A value under a key, as its reader gets it.

use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::units::display::as_read;
use crate::units::{Customs, Literal, LiteralError, NumberRange, Reading, literal, read_of};

use super::raw::{self, quoted};
use super::shape::{About, Hints};
use super::table::{Table, Value, wrong_type};

/// What every reader of a file needs: its text, what is known of its keys, and the findings so far.
pub(crate) struct FileReader<'a> {
    pub text: &'a str,
    pub hints: &'static Hints,
    pub found: Vec<Diagnostic>,
    /// How its amounts are meant.
    pub customs: Customs,
}

impl<'a> FileReader<'a> {
    /// Of a file of which nothing settles how its amounts are meant.
    pub(crate) fn new(text: &'a str, hints: &'static Hints, found: Vec<Diagnostic>) -> Self {
        Self { text, hints, found, customs: Customs::default() }
    }

    pub(crate) fn refuse<T>(&mut self, finding: Diagnostic) -> Option<T> {
        finding.refused(&mut self.found)
    }

    /// Whether a key of another name was found that was meant to be this one: then it is not missing too.
    pub(crate) fn is_renamed(&self, key: &str) -> bool {
        self.found.iter().any(|d| d.code == Code::UnknownKey && d.fix.as_ref().is_some_and(|(_, fix)| fix == key))
    }

    /// The place of a part of a text that stands in quotes at `span`.
    fn inside(&self, span: Span, written: &str, part: std::ops::Range<usize>) -> Span {
        let raw = self.text.get(span.start..span.end).unwrap_or_default();
        match raw.find(written) {
            Some(at) if part.start <= part.end && part.end <= written.len() => {
                Span { start: span.start + at + part.start, end: span.start + at + part.end }
            }
            _ => span,
        }
    }
}

/// A value under a key: what was written, where it stands, and what is known of the key.
#[derive(Clone, Copy)]
pub(crate) struct Given<'a> {
    pub key: &'a Spanned<String>,
    pub value: &'a Spanned<Value>,
    pub about: &'a About,
    /// What the table is called in which it stands.
    pub place: &'a str,
}

impl<'a> Given<'a> {
    pub(crate) fn wrong_type(&self, expected: &str) -> Diagnostic {
        wrong_type(&self.key.value, self.value, expected)
    }

    fn pick<T>(&self, reader: &mut FileReader<'_>, expected: &str, picked: Option<T>) -> Option<T> {
        if picked.is_none() {
            reader.found.push(self.wrong_type(expected));
        }
        picked
    }

    pub(crate) fn text(&self, reader: &mut FileReader<'_>) -> Option<&'a str> {
        self.pick(reader, "a text in quotes", self.value.value.text())
    }

    pub(crate) fn number(&self, reader: &mut FileReader<'_>) -> Option<f64> {
        self.pick(reader, "a number", self.value.value.number())
    }

    /// A number within bounds; one beyond them is reported with them.
    pub(crate) fn within(&self, reader: &mut FileReader<'_>, bounds: &NumberRange, help: &str) -> Option<f64> {
        let number = self.number(reader)?;
        if bounds.holds(number) {
            return Some(number);
        }
        let title = format!("`{}` is {}", self.key.value, as_read(number));
        reader.refuse(self.out_of_range(title, &bounds.expected(), help))
    }

    /// `true` or `false`, or another word for one of them in quotes: `"yes"`.
    pub(crate) fn flag(&self, reader: &mut FileReader<'_>) -> Option<bool> {
        match &self.value.value {
            Value::Flag(flag) => Some(*flag),
            Value::Text(word) if let raw::Bare::Flag(flag) = raw::bare(word.trim()) => Some(flag),
            _ => reader.refuse(self.wrong_type("true or false")),
        }
    }

    /// A day, in quotes or not, as written.
    pub(crate) fn day(&self, reader: &mut FileReader<'_>) -> Option<&'a str> {
        let day = match &self.value.value {
            Value::Date(day) | Value::Text(day) => Some(day.as_str()),
            _ => None,
        };
        self.pick(reader, "a date (2026-11-20)", day)
    }

    /// The lines below a heading, or between braces.
    pub(crate) fn table(&self, reader: &mut FileReader<'_>) -> Option<&'a Table> {
        let table = self.value.value.table();
        if table.is_none() {
            reader.found.push(self.not_a_table());
        }
        table
    }

    pub(crate) fn not_a_table(&self) -> Diagnostic {
        self.wrong_type(&format!("the heading [{}] with lines below it", self.key.value))
    }

    /// The tables of a `[[key]]`; what is no table is reported and left out.
    pub(crate) fn tables(&self, reader: &mut FileReader<'_>) -> Vec<Spanned<&'a Table>> {
        let key = &self.key.value;
        let expected = format!("the heading [[{key}]] with lines below it");
        if let Value::Table(table) = &self.value.value {
            reader.found.push(
                Diagnostic::error(Code::WrongType, format!("`{key}` stands in single brackets"))
                    .at(self.value.span, "two pairs of brackets were expected")
                    .help(format!("write [[{key}]]: there can be more than one")),
            );
            return vec![Spanned { value: table, span: self.value.span }];
        }
        let mut tables = Vec::new();
        for item in self.list(&expected, reader).unwrap_or_default() {
            match &item.value {
                Value::Table(table) => tables.push(Spanned { value: table, span: item.span }),
                _ => reader.found.push(wrong_type(key, item, &expected)),
            }
        }
        tables
    }

    pub(crate) fn list(&self, expected: &str, reader: &mut FileReader<'_>) -> Option<&'a [Spanned<Value>]> {
        let list = match &self.value.value {
            Value::List(items) => Some(items.as_slice()),
            _ => None,
        };
        self.pick(reader, expected, list)
    }

    /// An amount: a text in quotes as `read` takes it, or a bare number as if it stood in quotes.
    pub(crate) fn amount<T>(
        &self,
        reader: &mut FileReader<'_>,
        read: fn(&str) -> Result<T, LiteralError>,
    ) -> Option<T> {
        self.amount_or(reader, "an amount in quotes", read)
    }

    /// The same, as the customs of the file have it.
    pub(crate) fn amount_by<T>(
        &self,
        reader: &mut FileReader<'_>,
        read: fn(&str, &Customs) -> Result<T, LiteralError>,
    ) -> Option<T> {
        let customs = reader.customs;
        self.amount_or(reader, "an amount in quotes", |text| read(text, &customs))
    }

    pub(crate) fn literal(&self, reader: &mut FileReader<'_>, expected: &str) -> Option<Literal> {
        self.reading(reader, expected).map(|reading| reading.literal)
    }

    /// An amount of any kind, with what was written.
    pub(crate) fn reading(&self, reader: &mut FileReader<'_>, expected: &str) -> Option<Reading> {
        self.reading_or(reader, expected, literal::read_by)
    }

    /// How much there is of what the key names, with what was written; `amount` gives the piece of the text that says it.
    pub(crate) fn reading_of(
        &self,
        reader: &mut FileReader<'_>,
        expected: &str,
        amount: impl Fn(&str) -> &str,
    ) -> Option<Reading> {
        let read = |text: &str, customs: &Customs| {
            let part = amount(text);
            let reading = read_of(part, &self.key.value, customs).map_err(|error| error.within(text, part))?;
            Ok(Reading { text: text.to_owned(), ..reading })
        };
        self.reading_or(reader, expected, read)
    }

    /// The same by a reader of its own.
    pub(crate) fn reading_or(
        &self,
        reader: &mut FileReader<'_>,
        expected: &str,
        read: impl Fn(&str, &Customs) -> Result<Reading, LiteralError>,
    ) -> Option<Reading> {
        if let Value::Number(number) = self.value.value {
            let written = number.to_string();
            return Some(Reading::without_unit(&written, Literal::Number(number), written.as_str()));
        }
        let customs = reader.customs;
        self.amount_or(reader, expected, |text| read(text, &customs))
    }

    fn amount_or<T>(
        &self,
        reader: &mut FileReader<'_>,
        expected: &str,
        read: impl Fn(&str) -> Result<T, LiteralError>,
    ) -> Option<T> {
        let written = match &self.value.value {
            Value::Text(written) => written.clone(),
            Value::Number(number) => number.to_string(),
            _ => return self.pick(reader, expected, None),
        };
        let error = match read(&written) {
            Ok(amount) => return Some(amount),
            Err(error) => error,
        };
        let at = reader.inside(self.value.span, &written, error.at.clone());
        let fix = error.fix.as_deref().map(|fix| (self.value.span, quoted(fix)));
        reader.refuse(Diagnostic { fix, ..error.at(at, format!("in `{}`", self.key.value)) })
    }

    pub(crate) fn out_of_range(&self, title: impl Into<String>, why: &str, help: &str) -> Diagnostic {
        Diagnostic::error(Code::OutOfRange, title).at(self.value.span, why).help(help)
    }

    pub(crate) fn wrong_dimension(&self, literal: &Literal, expected: &str, help: &str) -> Diagnostic {
        let title = format!("`{}` is {}; {expected} was expected", self.key.value, literal.kind());
        Diagnostic::error(Code::WrongDimension, title).at(self.value.span, format!("not {expected}")).help(help)
    }

    pub(crate) fn no_unit(&self, number: f64, units: &[&str]) -> Diagnostic {
        let number = as_read(number);
        let written: Vec<_> = units.iter().map(|unit| format!("\"{number} {unit}\"")).collect();
        let title = format!("`{}` is the number {number} without a unit", self.key.value);
        let diagnostic = Diagnostic::error(Code::NoUnit, title).at(self.value.span, "of what?");
        match written.as_slice() {
            [only] => diagnostic.help("write the unit, and quotes round both").fix(self.value.span, only.clone()),
            _ => diagnostic.help(format!("write the unit, and quotes round both: {}", written.join(" or "))),
        }
    }
}
