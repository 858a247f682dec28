//! What is wrong, where it stands, what was expected and what to do: plain data.

use std::fmt;
use std::ops::Range;
use std::sync::Arc;

/// A range of bytes in a text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Span {
    /// The first byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

impl From<Range<usize>> for Span {
    fn from(range: Range<usize>) -> Self {
        Self { start: range.start, end: range.end }
    }
}

/// A value together with the place in the text that it was read from.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// A value and its place.
    pub fn new(value: T, span: impl Into<Span>) -> Self {
        Self { value, span: span.into() }
    }
}

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth knowing: an assumption that was made, a conversion that was understood.
    Note,
    /// Probably not what was meant.
    Warning,
    /// No answer can be given until it is mended.
    Error,
}

impl Severity {
    /// The word that is printed.
    pub fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $text:literal : $description:literal,)*) => {
        /// The stable name of a kind of diagnostic.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Code {
            $(#[doc = $description] $name,)*
        }

        impl Code {
            /// Every code there is.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// The code as it is printed.
            pub fn as_str(self) -> &'static str {
                match self { $(Self::$name => $text,)* }
            }

            /// What it means, in a sentence.
            pub fn description(self) -> &'static str {
                match self { $(Self::$name => $description,)* }
            }
        }
    };
}

codes! {
    // reading a file
    CannotRead = "cannot-read": "A file could not be opened or is not UTF-8 text.",
    Syntax = "syntax": "The file is not valid TOML at this place.",
    UnknownKey = "unknown-key": "A key that a formula, larder or house file does not have.",
    MissingKey = "missing-key": "A key that must be there is not.",
    WrongType = "wrong-type": "The value is of another kind than the key takes.",
    TooLarge = "too-large": "The file is larger than any formula can be.",
    // amounts
    NotANumber = "not-a-number": "The amount does not begin with a number.",
    AmbiguousNumber = "ambiguous-number": "The number can be read in two ways: a comma may part thousands or decimals.",
    NoUnit = "no-unit": "The amount has no unit.",
    UnknownUnit = "unknown-unit": "The unit is not known.",
    AmbiguousUnit = "ambiguous-unit": "The unit means different things in different places.",
    WrongDimension = "wrong-dimension": "The amount is of another kind than is asked for here.",
    OutOfRange = "out-of-range": "The value lies outside what is possible or known.",
    RatioBasis = "ratio-basis": "A ratio does not say whether it is by weight or by volume.",
    // larder and house
    UnknownLike = "unknown-like": "An ingredient is said to be like one that is not in the larder.",
    LikeRing = "like-ring": "Ingredients are said to be like each other in a ring.",
    CannotRemove = "cannot-remove": "An entry tries to take away an allergen or a tag that its ingredient brings.",
    Contradiction = "contradiction": "Two keys say the same thing in different ways.",
    NotHundred = "not-hundred": "The grams in 100 g do not add to 100.",
    SameName = "same-name": "Two entries or two formulas have the same name.",
    Assumed = "assumed": "Something that a house may state is not stated, and a default was taken.",

    // formula

    // solve

    // acidity and readings

    // safety and dates

    // cost and plan

}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

/// A place in the text and what is said about it.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What is said of it.
    pub text: String,
}

/// One finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnostic {
    /// Its kind.
    pub code: Code,
    /// How bad it is.
    pub severity: Severity,
    /// What is wrong, in one line: what was read and what was expected.
    pub title: String,
    /// The file it speaks of.
    pub file: Option<Arc<str>>,
    /// The places it speaks of; the first is the main one.
    pub labels: Vec<Label>,
    /// What to do about it.
    pub help: Option<String>,
    /// A text that can be put in place of what was read.
    pub fix: Option<(Span, String)>,
}

impl Diagnostic {
    fn new(code: Code, severity: Severity, title: impl Into<String>) -> Self {
        Self { code, severity, title: title.into(), file: None, labels: Vec::new(), help: None, fix: None }
    }

    /// An error.
    pub fn error(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Error, title)
    }

    /// A warning.
    pub fn warning(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Warning, title)
    }

    /// A note.
    pub fn note(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Note, title)
    }

    /// Points at a place.
    #[must_use]
    pub fn at(mut self, span: impl Into<Span>, text: impl Into<String>) -> Self {
        self.labels.push(Label { span: span.into(), text: text.into() });
        self
    }

    /// Says what to do.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Offers a text to put in place of what was read.
    #[must_use]
    pub fn fix(mut self, span: impl Into<Span>, text: impl Into<String>) -> Self {
        self.fix = Some((span.into(), text.into()));
        self
    }

    /// Names the file.
    #[must_use]
    pub fn in_file(mut self, file: &Arc<str>) -> Self {
        self.file.get_or_insert_with(|| Arc::clone(file));
        self
    }
}

/// Whether any of them is an error.
pub fn any_error(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|d| d.severity == Severity::Error)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn codes_are_unique_and_described() {
        let names: HashSet<_> = Code::ALL.iter().map(|c| c.as_str()).collect();
        assert_eq!(names.len(), Code::ALL.len());
        assert!(Code::ALL.iter().all(|c| c.description().ends_with('.')));
    }
}
