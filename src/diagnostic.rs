//! What is wrong, where it stands, what was expected and what to do: plain data.

mod code;
pub(crate) mod once;
mod tamed;

use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;

use serde::Serialize;

pub use code::Code;
pub use code::Topic;
pub(crate) use tamed::{is_unruly, tamed};

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
    pub(crate) fn new(value: T, span: impl Into<Span>) -> Self {
        Self { value, span: span.into() }
    }
}

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// Worth knowing: an assumption that was made, a conversion that was understood.
    Note,
    /// Probably not what was meant.
    Warning,
    /// No answer can be given until it is mended.
    Error,
}

impl Severity {
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
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

/// Each finding once: what two drinks of a menu have in common need not be read twice.
pub(crate) fn once(found: &[Diagnostic]) -> impl Iterator<Item = &Diagnostic> {
    let mut said = BTreeSet::new();
    found.iter().filter(move |d| {
        let place = d.labels.first().map(|label| label.span.start);
        said.insert((d.code, d.severity, d.title.as_str(), d.file.as_deref(), place, d.help.as_deref()))
    })
}

impl Diagnostic {
    fn new(code: Code, severity: Severity, title: impl Into<String>) -> Self {
        Self { code, severity, title: title.into(), file: None, labels: Vec::new(), help: None, fix: None }
    }

    pub(crate) fn error(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Error, title)
    }

    pub(crate) fn warning(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Warning, title)
    }

    pub(crate) fn note(code: Code, title: impl Into<String>) -> Self {
        Self::new(code, Severity::Note, title)
    }

    #[must_use]
    pub(crate) fn at(mut self, span: impl Into<Span>, text: impl Into<String>) -> Self {
        self.labels.push(Label { span: span.into(), text: text.into() });
        self
    }

    #[must_use]
    pub(crate) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// Offers a text to put in place of what was read.
    #[must_use]
    pub(crate) fn fix(mut self, span: impl Into<Span>, text: impl Into<String>) -> Self {
        self.fix = Some((span.into(), text.into()));
        self
    }

    /// Keeps it as the reason why there is no value.
    pub(crate) fn refused<T>(self, found: &mut Vec<Self>) -> Option<T> {
        found.push(self);
        None
    }

    #[must_use]
    pub(crate) fn in_file(mut self, file: &Arc<str>) -> Self {
        self.file.get_or_insert_with(|| Arc::clone(file));
        self
    }
}

impl Diagnostic {
    /// The finding as plain lines, without colour: for a pipe, a log and the checks. `text` is the
    /// text of the file; lines and columns count from 1, columns in characters.
    pub fn plain(&self, text: &str) -> String {
        let mut lines = format!("{}[{}]", self.severity.word(), self.code);
        let place = self.labels.first().map(|label| line_and_column(text, label.span.start));
        match (&self.file, place) {
            (Some(file), Some((line, column))) => lines.push_str(&format!(" {file}:{line}:{column}")),
            (Some(file), None) => lines.push_str(&format!(" {file}")),
            (None, Some((line, column))) => lines.push_str(&format!(" {line}:{column}")),
            (None, None) => {}
        }
        lines.push_str(&format!(" {}\n", self.title));
        for label in &self.labels {
            let (line, column) = line_and_column(text, label.span.start);
            let read = text.get(label.span.start..label.span.end).unwrap_or_default();
            let first: String = read.lines().next().unwrap_or_default().chars().take(LONGEST_READING).collect();
            let more = if first.len() < read.len() { " …" } else { "" };
            let read = if first.is_empty() { first } else { format!(" {first}{more}") };
            lines.push_str(&format!("  {line}:{column}{read}  <- {}\n", label.text));
        }
        for (i, help) in self.help.iter().flat_map(|help| help.lines()).enumerate() {
            lines.push_str(&format!("  {} {help}\n", if i == 0 { "help:" } else { "     " }));
        }
        if let Some((_, fix)) = &self.fix {
            let said = |help: &String| help.contains(&format!("`{}`", fix.trim_matches('"')));
            if !self.help.as_ref().is_some_and(said) {
                lines.push_str(&format!("  write: {}\n", if fix.is_empty() { "(nothing)" } else { fix }));
            }
        }
        // a card cannot make a terminal obey it
        tamed(&lines).into_owned()
    }
}

/// How many characters of what was read are said again.
const LONGEST_READING: usize = 80;

/// How many findings of one file are worth reading. A card has fewer lines.
pub(crate) const MOST_FINDINGS: usize = 50;

/// "`cucumber`, `mint` and `salt`".
pub(crate) fn listed<S: AsRef<str>>(names: impl IntoIterator<Item = S>) -> String {
    let quoted: Vec<String> = names.into_iter().map(|name| format!("`{}`", name.as_ref())).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
        None => String::new(),
    }
}

/// Keeps the findings that are worth reading, in their order, and says how many more there are.
pub(crate) fn keep_first(found: &mut Vec<Diagnostic>) {
    let rest = found.split_off(found.len().min(MOST_FINDINGS));
    if !rest.is_empty() {
        let severity = if any_error(&rest) { Severity::Error } else { Severity::Note };
        let title =
            format!("and {} more", if rest.len() < MOST_FINDINGS { rest.len().to_string() } else { "many".into() });
        found.push(Diagnostic::new(Code::More, severity, title).help("mend the first ones and read the file again"));
    }
}

/// The line and the column of a byte, both from 1; columns count characters. A byte-order mark
/// counts for nothing.
pub(crate) fn line_and_column(text: &str, at: usize) -> (usize, usize) {
    let before = text.char_indices().take_while(|(i, _)| *i < at).map(|(_, c)| c).filter(|c| *c != '\u{feff}');
    before.fold((1, 1), |(line, column), c| if c == '\n' { (line + 1, 1) } else { (line, column + 1) })
}

/// Whether any of them is an error.
pub fn any_error(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|d| d.severity == Severity::Error)
}
