//! Why a text is not an amount.

use std::ops::Range;

use crate::diagnostic::{Code, Diagnostic, Span};

/// Why a text is not an amount.
#[derive(Clone, Debug, PartialEq)]
pub struct LiteralError {
    /// Its kind: not a number, ambiguous number, no unit, unknown unit, ambiguous unit, out of range.
    pub code: Code,
    /// What was read and what was expected.
    pub title: String,
    /// The bytes of the text that are at fault.
    pub at: Range<usize>,
    /// What to write instead.
    pub help: Option<String>,
    /// The whole text as it should be, where that is clear.
    pub fix: Option<String>,
}

impl LiteralError {
    pub(crate) fn new(code: Code, title: impl Into<String>, at: Range<usize>) -> Self {
        Self { code, title: title.into(), at, help: None, fix: None }
    }

    pub(crate) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// The same of a text of which only a part was read.
    pub(crate) fn within(self, whole: &str, part: &str) -> Self {
        let from = whole.find(part).unwrap_or_default();
        Self { at: self.at.start + from..self.at.end + from, ..self }
    }

    /// The finding at a place of a file.
    pub(crate) fn at(self, span: Span, text: impl Into<String>) -> Diagnostic {
        Diagnostic { help: self.help, ..Diagnostic::error(self.code, self.title).at(span, text) }
    }

    /// Offers the text with what is at fault replaced.
    pub(super) fn replace(self, text: &str, by: &str) -> Self {
        let fix = replaced(text, &self.at, by);
        let help = format!("did you mean `{fix}`?");
        Self { fix: Some(fix), ..self }.help(help)
    }
}

/// What was read, and of what lies outside a range the range.
impl From<LiteralError> for String {
    fn from(why: LiteralError) -> Self {
        match why.help.filter(|_| why.code == Code::OutOfRange) {
            Some(range) => format!("{}; {range}", why.title),
            None => why.title,
        }
    }
}

/// A piece of a text as a message shows it: short, and nothing in it that a terminal would obey.
pub(super) fn quoted(text: &str, at: Range<usize>) -> String {
    const LONGEST: usize = 40;
    let piece = text.get(at).unwrap_or_default().trim();
    let mut shown = String::new();
    for c in piece.chars().take(LONGEST) {
        if c.is_control() { shown.extend(c.escape_default()) } else { shown.push(c) }
    }
    let more = if piece.chars().count() > LONGEST { "…" } else { "" };
    format!("`{shown}{more}`")
}

pub(super) fn replaced(text: &str, at: &Range<usize>, by: &str) -> String {
    let before = text.get(..at.start).unwrap_or_default();
    // `2oz` becomes `2 fl oz`, not `2fl oz`; `85c` stays close.
    let gap = if before.ends_with(|c: char| c.is_ascii_digit()) && !by.starts_with(|c: char| c.is_ascii_digit()) {
        " "
    } else {
        ""
    };
    format!("{before}{gap}{by}{}", text.get(at.end..).unwrap_or_default()).trim().to_owned()
}

/// What is wrong with a piece of a text, which the message begins with.
pub(super) fn wrong(code: Code, text: &str, at: Range<usize>, why: &str) -> LiteralError {
    LiteralError::new(code, format!("{} {why}", quoted(text, at.clone())), at)
}

pub(super) fn out_of_range(text: &str, at: Range<usize>, why: &str) -> LiteralError {
    wrong(Code::OutOfRange, text, at, why)
}
