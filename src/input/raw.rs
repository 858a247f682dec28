//! The raw text of a card: its lines, its quotes, its brackets, and what a value without quotes was
//! meant to be; and characters that nobody sees, which make a text read as another one.

use crate::diagnostic::{Span, Spanned, is_unruly};

use super::table::Value;

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Bare {
    Flag(bool),
    /// `20/11/2026`, `20 November 2026`
    Date,
    /// Anything else: a text that needs quotes.
    Text,
}

pub(super) fn bare(raw: &str) -> Bare {
    let word = raw.to_lowercase();
    let day_first = |mark: char| {
        let fields: Vec<_> = word.split(mark).collect();
        fields.len() == 3 && fields.iter().all(|f| !f.is_empty() && f.chars().all(|c| c.is_ascii_digit()))
    };
    let month = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    let has_month = || {
        word.split([' ', '-', '.'])
            .any(|w| w.get(..3).is_some_and(|w| month.contains(&w)) && word.chars().any(|c| c.is_ascii_digit()))
    };
    match word.as_str() {
        "yes" | "true" | "on" => Bare::Flag(true),
        "no" | "false" | "off" => Bare::Flag(false),
        _ if ['/', '.', '-'].into_iter().any(day_first) || has_month() => Bare::Date,
        _ => Bare::Text,
    }
}

/// A word where a value was expected; the numbers that are words are no words here.
pub(super) fn is_word(raw: &str) -> bool {
    raw.starts_with(char::is_alphabetic) && !["true", "false", "nan", "inf"].contains(&raw)
}

/// A text in quotes, as it stands in a card.
pub(crate) fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '\\' => quoted.push_str("\\\\"),
            '"' => quoted.push_str("\\\""),
            '\n' => quoted.push_str("\\n"),
            c if c.is_control() => quoted.push_str(&format!("\\u{:04X}", u32::from(c))),
            c => quoted.push(c),
        }
    }
    quoted + "\""
}

/// A value as it stands in a file, on one line.
pub(crate) fn toml(value: &Value) -> String {
    match value {
        Value::Text(text) => quoted(text),
        Value::Number(number) => number.to_string(),
        Value::Flag(flag) => flag.to_string(),
        Value::Date(date) => date.clone(),
        Value::List(items) => {
            let items: Vec<_> = items.iter().map(|item| toml(&item.value)).collect();
            format!("[{}]", items.join(", "))
        }
        Value::Table(table) => {
            let line = |(name, value): &(Spanned<String>, Spanned<Value>)| {
                format!("{} = {}", key_text(&name.value), toml(&value.value))
            };
            format!("{{ {} }}", table.entries.iter().map(line).collect::<Vec<_>>().join(", "))
        }
    }
}

/// A key as it stands in a card: in quotes unless it is one plain word.
pub(crate) fn key_text(raw: &str) -> String {
    let name = straighten(raw.trim());
    let name = name.trim_matches(['"', '\'']);
    let bare = !name.is_empty() && name.chars().all(|c| c.is_ascii_alphanumeric() || c == '-' || c == '_');
    if bare { name.to_owned() } else { quoted(name) }
}

/// A text without the quote marks, straight or curly, that were put round it.
pub(super) fn unwrapped(raw: &str) -> String {
    straighten(raw).trim_matches(['"', '\'', ' ', ',']).to_owned()
}

pub(super) fn straighten(text: &str) -> String {
    text.replace(['“', '”', '„', '«', '»', '″'], "\"").replace(['‘', '’', '‚'], "'")
}

/// The line that a byte stands in, without its end.
pub(super) fn line_at(text: &str, at: usize) -> Span {
    let at = at.min(text.len());
    let before = text.get(..at).unwrap_or_default();
    let after = text.get(at..).unwrap_or_default();
    let start = before.rfind('\n').map_or(0, |n| n + 1);
    let mut end = at + after.find('\n').unwrap_or(after.len());
    if text.get(start..end).is_some_and(|l| l.ends_with('\r')) {
        end -= 1;
    }
    // the byte-order mark belongs to no line
    let start = if start == 0 && text.starts_with('\u{feff}') { '\u{feff}'.len_utf8().min(end) } else { start };
    Span { start, end: end.max(start) }
}

/// What stands after the `=` of a line.
pub(super) fn value_of(text: &str, line: Span) -> Span {
    let whole = slice(text, line);
    let after = whole.find('=').map_or(0, |n| n + 1);
    let value = whole.get(after..).unwrap_or_default();
    let start = line.start + after + (value.len() - value.trim_start().len());
    Span { start, end: (start + value.trim().len()).min(line.end.max(start)) }
}

pub(super) fn slice(text: &str, span: Span) -> &str {
    text.get(span.start..span.end).unwrap_or_default()
}

/// What has no place in a name: two names that look alike would be two. Joiners stay, some scripts need them.
fn is_hidden(c: char) -> bool {
    is_unruly(c)
        || matches!(c, '\u{61c}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2060}'..='\u{2065}' | '\u{feff}')
        || matches!(c, '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

pub(super) fn hidden_in(name: &str) -> Option<char> {
    name.chars().find(|c| is_hidden(*c))
}

pub(super) fn without_hidden(name: &str) -> String {
    name.chars().filter(|c| !is_hidden(*c)).collect()
}
