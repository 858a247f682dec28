//! A TOML text as tables whose keys and values remember their place. Card, larder and house
//! files are all read through this; everything wrong is collected, nothing stops at the first error.

pub(crate) mod day;
#[allow(dead_code)] // until larder, house and board are read by it
mod field_kind;
#[allow(dead_code)] // until larder, house and board are read by it
mod given;
mod hidden;
#[allow(dead_code)] // until larder, house and board are read by it
mod layout;
mod raw;
mod remedy;
mod scan;
mod schema;
mod syntax;

pub(crate) use day::day;
#[allow(unused_imports)]
pub(crate) use field_kind::{ANY_NUMBER, DAY, FLAG, FieldKind, FieldShape, TEXT, TEXTS, word};
#[allow(unused_imports)]
pub(crate) use given::{FileReader, Given};
#[cfg(test)]
pub(crate) use layout::examples_are_read;
#[allow(unused_imports)]
pub(crate) use layout::{About, Field, Fields, Hints, Laid, Layout, Slot, layout, misplaced, put, read_file};
pub(crate) use raw::{key_text as key, quoted};
pub(crate) use schema::schema;

use toml::de::{DeTable, DeValue};

use crate::diagnostic::{Code, Diagnostic, MOST_FINDINGS, Span, Spanned};
use crate::spelling::nearest;

use scan::Scan;

/// A value as it was written.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// `"750 g"`
    Text(String),
    /// `64` or `0.5`: always finite.
    Number(f64),
    /// `true`
    Flag(bool),
    /// `2026-11-20`, as written.
    Date(String),
    /// `[ … ]`
    List(Vec<Spanned<Value>>),
    /// `{ … }` or `[ … ]` at the start of a line
    Table(Table),
}

impl Value {
    /// What it is, for a message.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Text(_) => "a text",
            Self::Number(_) => "a bare number",
            Self::Flag(_) => "true or false",
            Self::Date(_) => "a date",
            Self::List(_) => "a list",
            Self::Table(_) => "a table",
        }
    }
}

/// A table, its entries in the order of the text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// The entries.
    pub entries: Vec<(Spanned<String>, Spanned<Value>)>,
}

/// Reads a text. What cannot be read is reported and left out.
pub fn parse(text: &str, found: &mut Vec<Diagnostic>) -> Table {
    let scan = Scan::of(text);
    let sound = syntax::without_lost_lines(text, &scan);
    let (table, errors) = DeTable::parse_recoverable(&sound);
    found.extend(syntax::explain_all(text, &scan, &errors));
    let mut starts: Vec<_> = errors.iter().filter_map(|e| e.span()).map(|s| s.start).collect();
    starts.sort_unstable();
    let end = syntax::last_sound_byte(text, &scan);
    TableReader { text, errors: starts, end }.table(table.get_ref(), found)
}

/// What the reader of a table must know of the text round it.
struct TableReader<'a> {
    text: &'a str,
    /// Where the syntax errors stand, in order.
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
                let key = Spanned::new(key.get_ref().to_string(), key.span());
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
        let Some(hidden) = hidden::hidden_in(&name) else { return name };
        let seen = hidden::without_hidden(&name);
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
        _ => {
            found.push(
                Diagnostic::error(Code::OutOfRange, format!("`{written}` is not a number that can be used"))
                    .at(span, "a plain decimal number was expected"),
            );
            None
        }
    }
}

impl Table {
    /// The value under a key, with the place of the key.
    pub fn get(&self, key: &str) -> Option<&(Spanned<String>, Spanned<Value>)> {
        self.entries.iter().find(|(k, _)| k.value == key)
    }

    /// Reports every key that is not one of these, with the one that was probably meant.
    pub fn check_keys(&self, place: &str, known: &[&str], found: &mut Vec<Diagnostic>) {
        for key in self.other_keys(known).take(MOST_FINDINGS) {
            found.push(self.unknown_key(key, place, known));
        }
    }

    /// The keys that are not one of these.
    pub fn other_keys<'a>(&'a self, known: &'a [&str]) -> impl Iterator<Item = &'a Spanned<String>> {
        self.entries.iter().map(|(key, _)| key).filter(|key| !known.contains(&key.value.as_str()))
    }

    /// The diagnostic for a key that is not one of these, with the one that was probably meant.
    pub fn unknown_key(&self, key: &Spanned<String>, place: &str, known: &[&str]) -> Diagnostic {
        let diagnostic = Diagnostic::error(Code::UnknownKey, format!("{place} has no key `{}`", key.value))
            .at(key.span, "not known here");
        match nearest(&key.value, known.iter().copied().filter(|k| self.get(k).is_none())) {
            Some(name) => diagnostic.help(format!("did you mean `{name}`?")).fix(key.span, name),
            None => diagnostic.help(format!("the keys of {place} are: {}", known.join(", "))),
        }
    }

    fn take<'a, T>(
        &'a self,
        key: &str,
        expected: &str,
        found: &mut Vec<Diagnostic>,
        pick: impl Fn(&'a Value) -> Option<T>,
    ) -> Option<Spanned<T>> {
        let (_, value) = self.get(key)?;
        let picked = pick(&value.value);
        if picked.is_none() {
            found.push(wrong_type(key, value, expected));
        }
        picked.map(|v| Spanned { value: v, span: value.span })
    }

    /// A text under a key.
    pub fn text(&self, key: &str, found: &mut Vec<Diagnostic>) -> Option<Spanned<&str>> {
        self.take(key, "a text in quotes", found, |v| match v {
            Value::Text(s) => Some(s.as_str()),
            _ => None,
        })
    }

    /// A number under a key.
    pub fn number(&self, key: &str, found: &mut Vec<Diagnostic>) -> Option<Spanned<f64>> {
        self.take(key, "a number", found, |v| match v {
            Value::Number(n) => Some(*n),
            _ => None,
        })
    }

    /// `true` or `false` under a key.
    pub fn flag(&self, key: &str, found: &mut Vec<Diagnostic>) -> Option<Spanned<bool>> {
        let (_, value) = self.get(key)?;
        let mut diagnostic = wrong_type(key, value, "true or false");
        match &value.value {
            Value::Flag(flag) => return Some(Spanned { value: *flag, span: value.span }),
            Value::Text(word) => {
                if let raw::Bare::Flag(flag) = raw::bare(word) {
                    diagnostic = diagnostic.fix(value.span, flag.to_string());
                }
            }
            _ => {}
        }
        found.push(diagnostic);
        None
    }

    /// A date under a key, as written.
    pub fn date(&self, key: &str, found: &mut Vec<Diagnostic>) -> Option<Spanned<&str>> {
        self.take(key, "a date (2026-11-20)", found, |v| match v {
            Value::Date(d) | Value::Text(d) => Some(d.as_str()),
            _ => None,
        })
    }

    /// A table under a key.
    pub fn table(&self, key: &str, found: &mut Vec<Diagnostic>) -> Option<Spanned<&Table>> {
        self.take(key, &format!("the heading [{key}] with lines below it"), found, |v| match v {
            Value::Table(t) => Some(t),
            _ => None,
        })
    }

    /// The tables of a `[[key]]`.
    pub fn tables(&self, key: &str, found: &mut Vec<Diagnostic>) -> Vec<Spanned<&Table>> {
        let Some((_, value)) = self.get(key) else { return Vec::new() };
        let expected = format!("the heading [[{key}]] with lines below it");
        let items = match &value.value {
            Value::List(items) => items,
            Value::Table(table) => {
                found.push(
                    Diagnostic::error(Code::WrongType, format!("`{key}` stands in single brackets"))
                        .at(value.span, "two pairs of brackets were expected")
                        .help(format!("write [[{key}]]: there can be more than one")),
                );
                return vec![Spanned { value: table, span: value.span }];
            }
            _ => {
                found.push(wrong_type(key, value, &expected));
                return Vec::new();
            }
        };
        let mut tables = Vec::new();
        for item in items {
            match &item.value {
                Value::Table(table) => tables.push(Spanned { value: table, span: item.span }),
                _ => found.push(wrong_type(key, item, &expected)),
            }
        }
        tables
    }

    /// A list of texts under a key.
    pub fn texts(&self, key: &str, found: &mut Vec<Diagnostic>) -> Vec<Spanned<String>> {
        let Some((_, value)) = self.get(key) else { return Vec::new() };
        let Value::List(items) = &value.value else {
            found.push(wrong_type(key, value, "a list of texts"));
            return Vec::new();
        };
        let mut texts = Vec::new();
        for item in items {
            match &item.value {
                Value::Text(s) => texts.push(Spanned { value: s.clone(), span: item.span }),
                _ => found.push(wrong_type(key, item, "a text in quotes")),
            }
        }
        texts
    }
}

/// The diagnostic for a value of the wrong kind.
pub fn wrong_type(key: &str, value: &Spanned<Value>, expected: &str) -> Diagnostic {
    Diagnostic::error(Code::WrongType, format!("`{key}` is {}; {expected} was expected", value.value.kind()))
        .at(value.span, format!("{expected} was expected"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn entries_keep_the_order_and_place_of_the_text() {
        let mut found = Vec::new();
        let text = "b = \"x\"\na = 2\n[t]\nflag = true\n";
        let table = parse(text, &mut found);
        assert!(found.is_empty());
        let keys: Vec<_> = table.entries.iter().map(|(k, _)| k.value.as_str()).collect();
        assert_eq!(keys, ["b", "a", "t"]);
        let (key, value) = table.get("a").unwrap();
        assert_eq!(&text[key.span.start..key.span.end], "a");
        assert_eq!(value.value, Value::Number(2.0));
    }

    #[test]
    fn all_errors_in_one_run_and_the_rest_is_read() {
        let mut found = Vec::new();
        let table = parse("name = \"ok\"\nmakes = 750 ml\nbrix = nan\n", &mut found);
        assert!(found.len() >= 2, "{found:?}");
        assert_eq!(table.text("name", &mut found).unwrap().value, "ok");
    }

    #[test]
    fn a_misspelt_key_gets_the_name_that_was_meant() {
        let mut found = Vec::new();
        parse("nmae = \"x\"", &mut found).check_keys("a formula", &["name", "makes"], &mut found);
        assert_eq!(found[0].help.as_deref(), Some("did you mean `name`?"));
        assert!(nearest("zzz", ["name", "makes"]).is_none());
    }

    #[test]
    fn a_name_without_quotes_does_not_hide_what_follows() {
        let mut found = Vec::new();
        let table = parse("white sugar = 1\nlime juice = 2\nwater = 3\n[keep]\nfill = 4\nbad key = 5\n", &mut found);
        assert_eq!(found.len(), 3, "{found:?}");
        assert!(table.number("water", &mut found).is_some() && table.get("keep").is_some());
    }

    #[test]
    fn places_count_from_the_start_of_the_text_with_its_mark_and_line_ends() {
        let mut found = Vec::new();
        let text = "\u{feff}name = \"é\"\r\nwater = 3\r\n";
        let table = parse(text, &mut found);
        let (key, value) = table.get("water").unwrap();
        assert_eq!((&text[key.span.start..key.span.end], &text[value.span.start..value.span.end]), ("water", "3"));
    }

    proptest::proptest! {
        #![proptest_config(proptest::prelude::ProptestConfig {
            cases: 4000,
            failure_persistence: None,
            rng_seed: proptest::test_runner::RngSeed::Fixed(3),
            ..Default::default()
        })]

        /// What the parser refuses is reported, however the report is worded.
        #[test]
        fn no_syntax_error_is_lost(text in "[a-c\\[\\]{}=\"'\\\\#,.:0-9 é\u{feff}\r\n-]{0,60}") {
            let mut found = Vec::new();
            parse(&text, &mut found);
            let (_, errors) = DeTable::parse_recoverable(&text);
            proptest::prop_assert!(errors.is_empty() || found.iter().any(|d| d.code == Code::Syntax), "{text:?}");
        }
    }
}
