//! What every reader of a value needs: the text, the findings so far, and the way from a text in
//! quotes to an amount.

use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::input::{self, Laid, Table, Value, quoted, wrong_type};
use crate::units::{Literal, LiteralError, literal};

pub(super) struct Reader<'a> {
    /// The text of the card.
    pub text: &'a str,
    /// Everything found so far.
    pub found: Vec<Diagnostic>,
    /// The places of ratio amounts that do not say by weight or by volume.
    pub no_basis: Vec<Span>,
}

impl Reader<'_> {
    /// A table with a layout of its own.
    pub fn laid<M: Laid>(&mut self, table: &Table) -> M {
        let found = std::mem::take(&mut self.found);
        let mut reader = input::FileReader { text: self.text, hints: &super::keys::HINTS, found };
        let model = M::LAYOUT.read(table, &mut reader);
        self.found = reader.found;
        model
    }

    /// Whether a key of another name was found that was meant to be this one: then it is not missing too.
    pub fn is_renamed(&self, key: &str) -> bool {
        self.found.iter().any(|d| d.code == Code::UnknownKey && d.fix.as_ref().is_some_and(|(_, fix)| fix == key))
    }

    /// An amount: a text in quotes, or a number alone.
    pub fn literal(&mut self, key: &str, value: &Spanned<Value>, expected: &str) -> Option<Literal> {
        match &value.value {
            Value::Number(n) => Some(Literal::Number(*n)),
            Value::Text(written) => match literal::parse(written) {
                Ok(literal) => Some(literal),
                Err(error) => {
                    self.literal_error(key, value.span, written, error);
                    None
                }
            },
            _ => {
                self.found.push(wrong_type(key, value, expected));
                None
            }
        }
    }

    fn literal_error(&mut self, key: &str, span: Span, written: &str, error: LiteralError) {
        let at = self.inside(span, written, error.at);
        let mut diagnostic = Diagnostic::error(error.code, error.title).at(at, format!("in `{key}`"));
        diagnostic.help = error.help;
        if let Some(fix) = error.fix {
            diagnostic = diagnostic.fix(span, quoted(&fix));
        }
        self.found.push(diagnostic);
    }

    /// The place of a part of a text that stands in quotes at `span`.
    pub fn inside(&self, span: Span, written: &str, part: std::ops::Range<usize>) -> Span {
        let raw = self.text.get(span.start..span.end).unwrap_or_default();
        match raw.find(written) {
            Some(at) if part.start <= part.end && part.end <= written.len() => {
                Span { start: span.start + at + part.start, end: span.start + at + part.end }
            }
            _ => span,
        }
    }

    /// Reports a value of the wrong dimension.
    pub fn wrong(&mut self, key: &str, literal: &Literal, span: Span, expected: &str, help: &str) {
        self.found.push(
            Diagnostic::error(Code::WrongDimension, format!("`{key}` is {}; {expected} was expected", literal.kind()))
                .at(span, format!("not {expected}"))
                .help(help),
        );
    }

    /// Reports a number that needs a unit.
    pub fn no_unit(&mut self, key: &str, number: f64, span: Span, units: &[&str]) {
        let written: Vec<_> = units.iter().map(|unit| format!("\"{number} {unit}\"")).collect();
        let diagnostic = Diagnostic::error(Code::NoUnit, format!("`{key}` is the number {number} without a unit"))
            .at(span, "of what?");
        self.found.push(match written.as_slice() {
            [only] => diagnostic.help("write the unit, and quotes round both").fix(span, only.clone()),
            _ => diagnostic.help(format!("write the unit, and quotes round both: {}", written.join(" or "))),
        });
    }

    /// Reports a value outside what is possible.
    pub fn out_of_range(&mut self, title: String, span: Span, why: &str, help: &str) {
        self.found.push(Diagnostic::error(Code::OutOfRange, title).at(span, why).help(help));
    }
}
