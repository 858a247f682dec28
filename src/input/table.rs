//! A TOML text as tables whose keys and values remember their place.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::spelling::nearest;

#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Value {
    /// `"750 g"`
    Text(String),
    /// `64` or `0.5`: always finite.
    Number(f64),
    Flag(bool),
    /// `2026-11-20`, as written.
    Date(String),
    /// `[ … ]`
    List(Vec<Spanned<Value>>),
    /// `{ … }` or `[ … ]` at the start of a line
    Table(Table),
}

impl Value {
    pub(crate) fn text(&self) -> Option<&str> {
        if let Self::Text(text) = self { Some(text) } else { None }
    }

    pub(crate) fn number(&self) -> Option<f64> {
        if let Self::Number(number) = self { Some(*number) } else { None }
    }

    pub(crate) fn table(&self) -> Option<&Table> {
        if let Self::Table(table) = self { Some(table) } else { None }
    }

    pub(crate) fn kind(&self) -> &'static str {
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
pub(crate) struct Table {
    pub entries: Vec<(Spanned<String>, Spanned<Value>)>,
}

impl Table {
    pub(crate) fn get(&self, key: &str) -> Option<&(Spanned<String>, Spanned<Value>)> {
        self.entries.iter().find(|(k, _)| k.value == key)
    }

    pub(crate) fn other_keys<'a>(&'a self, known: &'a [&str]) -> impl Iterator<Item = &'a Spanned<String>> {
        self.entries.iter().map(|(key, _)| key).filter(|key| !known.contains(&key.value.as_str()))
    }

    /// The diagnostic for a key that is not one of these, with the one that was probably meant.
    pub(crate) fn unknown_key(&self, key: &Spanned<String>, place: &str, known: &[&str]) -> Diagnostic {
        let diagnostic = Diagnostic::error(Code::UnknownKey, format!("{place} has no key `{}`", key.value))
            .at(key.span, "not known here");
        match nearest(&key.value, known.iter().copied().filter(|k| self.get(k).is_none())) {
            Some(name) => diagnostic.help(format!("did you mean `{name}`?")).fix(key.span, name),
            None => diagnostic.help(format!("the keys of {place} are: {}", known.join(", "))),
        }
    }
}

pub(crate) fn wrong_type(key: &str, value: &Spanned<Value>, expected: &str) -> Diagnostic {
    Diagnostic::error(Code::WrongType, format!("`{key}` is {}; {expected} was expected", value.value.kind()))
        .at(value.span, format!("{expected} was expected"))
}
