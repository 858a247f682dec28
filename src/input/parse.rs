//! From a text to its tables: everything wrong is collected, nothing stops at the first error.

use toml::de::{DeTable, DeValue};

use crate::diagnostic::{Code, Diagnostic, Span, Spanned};

use super::scan::{Line, Scan};
use super::table::{Table, Value};
use super::{raw, syntax};

/// Reads a text. What cannot be read is reported and left out.
pub(crate) fn parse(text: &str, found: &mut Vec<Diagnostic>) -> Table {
    let scan = Scan::of(text);
    let sound = with_plain_names(&syntax::without_lost_lines(text, &scan), &scan);
    let (table, errors) = DeTable::parse_recoverable(&sound);
    found.extend(syntax::explain_all(text, &scan, &errors));
    let mut starts: Vec<_> = errors.iter().filter_map(|e| e.span()).map(|s| s.start).collect();
    starts.sort_unstable();
    let end = syntax::last_sound_byte(text, &scan);
    TableReader { text, errors: starts, end }.table(table.get_ref(), found)
}

/// The text with letters of TOML in place of others in names that stand without quotes (`jalapeños`, `azúcar`), byte for
/// byte: the names themselves are read from the text. Whoever writes in Spanish knows of no list of letters.
fn with_plain_names(sound: &str, scan: &Scan) -> String {
    let mut plain = sound.to_owned();
    for (span, line) in &scan.lines {
        let Line::Entry { equals, .. } = line else { continue };
        let Some(name) = sound.get(span.start..*equals).map(str::trim_end) else { continue };
        if !name.is_ascii() && is_bare_name(name) {
            let masked: String =
                name.chars().map(|c| if c.is_ascii() { c.into() } else { "_".repeat(c.len_utf8()) }).collect();
            plain.replace_range(span.start..span.start + name.len(), &masked);
        }
    }
    plain
}

fn is_bare_name(name: &str) -> bool {
    name.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_'))
}

/// What the reader of a table must know of the text round it.
struct TableReader<'a> {
    text: &'a str,
    errors: Vec<usize>,
    /// Where the sound text ends: what stands behind a bracket that is never closed is not read.
    end: usize,
}

impl TableReader<'_> {
    fn table(&self, table: &DeTable<'_>, found: &mut Vec<Diagnostic>) -> Table {
        let mut entries: Vec<_> = table
            .iter()
            // what the parser puts in place of a heading that it could not read
            .filter(|(key, value)| !(key.span().is_empty() || self.raw(value.span().into()) == "["))
            .filter(|(key, _)| key.span().start < self.end)
            .filter_map(|(key, value)| {
                let mut read = self.value(value.get_ref(), value.span().into(), found)?;
                let bare = Some(self.raw(key.span().into())).filter(|raw| !raw.is_ascii() && is_bare_name(raw));
                let name = bare.map_or_else(|| key.get_ref().to_string(), str::to_owned);
                let key = Spanned::new(name, key.span());
                let key = Spanned::new(self.seen(key.value, key.span, found), key.span);
                if let (Value::Text(name), "name") = (&mut read, key.value.as_str()) {
                    *name = self.seen(std::mem::take(name), value.span().into(), found);
                }
                Some((key, Spanned::new(read, value.span())))
            })
            .collect();
        entries.sort_by_key(|(key, _)| key.span.start);
        Table { entries }
    }

    /// A name, all of which is seen: what is not is reported and left out.
    fn seen(&self, name: String, span: Span, found: &mut Vec<Diagnostic>) -> String {
        let Some(hidden) = raw::hidden_in(&name) else { return name };
        let seen = raw::without_hidden(&name);
        if !self.is_reported(span) {
            let title = format!("the name `{seen}` holds a character that nobody sees");
            found.push(
                Diagnostic::error(Code::HiddenCharacter, title)
                    .at(span, format!("U+{:04X} is in it", u32::from(hidden)))
                    .help("write the name anew: it may have been copied from a page or a document"),
            );
        }
        seen
    }

    fn raw(&self, span: Span) -> &str {
        self.text.get(span.start..span.end).unwrap_or_default()
    }

    /// Whether a syntax error was already reported in this value, or behind it on its line.
    fn is_reported(&self, span: Span) -> bool {
        let next = self.errors.get(self.errors.partition_point(|&at| at < span.start));
        next.and_then(|&at| self.text.get(span.start..at)).is_some_and(|between| !between.contains('\n'))
    }

    /// A text without quotes, which was reported: read as what it was meant to be.
    fn without_quotes(&self, span: Span) -> Option<Value> {
        let raw = self.raw(span);
        match raw::bare(raw) {
            raw::Bare::Flag(flag) => Some(Value::Flag(flag)),
            raw::Bare::Date => None,
            raw::Bare::Text => Some(raw::unwrapped(raw)).filter(|text| !text.is_empty()).map(Value::Text),
        }
    }

    fn value(&self, value: &DeValue<'_>, span: Span, found: &mut Vec<Diagnostic>) -> Option<Value> {
        Some(match value {
            DeValue::String(s) if self.raw(span).starts_with(['"', '\'']) => Value::Text(s.to_string()),
            DeValue::String(_) => return self.without_quotes(span),
            DeValue::Boolean(_) | DeValue::Integer(_) | DeValue::Float(_) if raw::is_word(self.raw(span)) => {
                return self.without_quotes(span);
            }
            DeValue::Integer(_) | DeValue::Float(_) | DeValue::Datetime(_) if self.is_reported(span) => return None,
            DeValue::Integer(i) if i.radix() == 10 => return number(i.as_str(), span, found),
            DeValue::Integer(i) => match i64::from_str_radix(i.as_str(), i.radix()) {
                Ok(n) => Value::Number(n as f64),
                Err(_) => return number(i.as_str(), span, found),
            },
            DeValue::Float(f) => return number(f.as_str(), span, found),
            DeValue::Boolean(b) => Value::Flag(*b),
            DeValue::Datetime(d) => Value::Date(d.to_string()),
            DeValue::Array(items) => Value::List(
                items
                    .iter()
                    .filter(|item| item.span().start < self.end)
                    .filter_map(|item| {
                        let read = self.value(item.get_ref(), item.span().into(), found)?;
                        Some(Spanned::new(read, item.span()))
                    })
                    .collect(),
            ),
            DeValue::Table(table) => Value::Table(self.table(table, found)),
        })
    }
}

fn number(written: &str, span: Span, found: &mut Vec<Diagnostic>) -> Option<Value> {
    match written.replace('_', "").parse::<f64>() {
        Ok(n) if n.is_finite() => Some(Value::Number(n)),
        _ => Diagnostic::error(Code::OutOfRange, format!("`{written}` is not a number that can be used"))
            .at(span, "a plain decimal number was expected")
            .refused(found),
    }
}
