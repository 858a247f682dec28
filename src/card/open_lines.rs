//! What a card still asks: the lines that its reader could not read, and the questions behind a key or a part.

use crate::diagnostic::{Span, Spanned};

use super::model::{AskedOf, Card};

/// What a line of a card begins with that is still to be answered.
const OPEN_LINE: &str = "# ?";

/// What a card still asks.
pub(crate) struct OpenLine {
    /// The question, and where it stands.
    pub asked: Spanned<String>,
    /// Where it stands.
    pub of: AskedOf,
}

impl Card {
    /// What is still to be answered: lines that nobody could read, and questions behind a key or a part. The card is not complete
    /// while there is one.
    pub(crate) fn open_lines(&self) -> Vec<OpenLine> {
        let mut of = AskedOf::Key;
        let mut at = 0;
        let mut open = Vec::new();
        for line in self.text.split_inclusive('\n') {
            let said = line.trim();
            let start = at + line.len() - line.trim_start().len();
            let span = Span { start, end: start + said.len() };
            if said.starts_with('[') {
                let is_parts = said.trim_end_matches(']').ends_with("parts");
                of = if is_parts { AskedOf::Parts } else { AskedOf::Key };
            }
            open.extend(asked_in(said).map(|value| OpenLine { asked: Spanned { value, span }, of }));
            at += line.len();
        }
        open
    }
}

/// What a line asks: all of it, or what stands behind its key or its part.
fn asked_in(line: &str) -> Option<String> {
    if let Some(asked) = line.strip_prefix(OPEN_LINE) {
        return Some(asked.trim().to_owned());
    }
    let mut quoted = false;
    let mark = line.char_indices().find(|(_, c)| {
        quoted ^= *c == '"';
        *c == '#' && !quoted
    });
    let (part, remarks) = line.split_at_checked(mark.filter(|(at, _)| *at > 0)?.0)?;
    let remarks = remarks.trim_start_matches('#');
    let asked: Vec<&str> = remarks.split("; ").filter_map(|said| said.trim().strip_prefix("? ")).collect();
    let name = part.split('=').next().unwrap_or_default().trim().trim_matches('"');
    (!asked.is_empty()).then(|| format!("{name}: {}", asked.join("; ")))
}
