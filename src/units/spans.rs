//! A stretch of time as a sentence tells it: "24 hours", "12-24 h", "2 bis 3 Wochen", "overnight", "three nights".

use std::sync::LazyLock;

use serde::Deserialize;
use uom::si::time::second;

use crate::vocabulary::table::{List, rows};

use super::amount::Literal;
use super::amount_range::range;
use super::literal;
use super::told::told_first;

#[derive(Deserialize)]
struct SpanRow {
    kind: SpanKind,
    is: String,
    words: List<String>,
}

#[derive(Clone, Copy, Deserialize, PartialEq)]
#[serde(rename_all = "lowercase")]
enum SpanKind {
    Phrase,
    Amount,
    Open,
    Unit,
    Number,
}

static SPANS: LazyLock<Vec<SpanRow>> = LazyLock::new(|| rows("spans.csv", include_str!("spans.csv")));

/// Which end of a range counts: of a heat the lesser, of what stands the greater.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum SpanEnd {
    Least,
    Most,
}

/// The time that words tell.
pub(crate) struct ToldTime {
    /// As a card takes it.
    pub long: String,
    /// As it is written.
    pub written: String,
    pub seconds: f64,
    /// In words that say of themselves that something stands ("overnight").
    pub is_phrase: bool,
    /// What was taken for granted.
    pub assumed: Option<String>,
}

/// The first that there is.
pub(crate) fn time(words: &[&str], end: SpanEnd) -> Option<ToldTime> {
    (0..words.len()).find_map(|at| time_first(words.get(at..)?, end))
}

/// The one that they begin with.
pub(crate) fn time_first(words: &[&str], end: SpanEnd) -> Option<ToldTime> {
    in_range(words, end).or_else(|| phrase(words)).or_else(|| amount(words)).or_else(|| plain(words))
}

fn seconds(text: &str) -> Option<f64> {
    match literal::parse(text) {
        Ok(Literal::Time(time)) => Some(time.get::<second>()),
        _ => None,
    }
}

/// A range of a unit, which stands behind the second number.
fn in_range(words: &[&str], end: SpanEnd) -> Option<ToldTime> {
    let found = range(words)?;
    let [least, most] = &found.ends;
    let (one, which) = if end == SpanEnd::Least { (least, "shorter") } else { (most, "longer") };
    let one: Vec<&str> = one.split(' ').collect();
    let told = plain(&one)?;
    let written = words.iter().take(words.len() + told.written.split(' ').count() - one.len());
    let written = written.copied().collect::<Vec<_>>().join(" ");
    let assumed = Some(format!("the recipe says {written}: the {which}"));
    Some(ToldTime { written, assumed, is_phrase: false, ..told })
}

/// A number and a unit, at the beginning.
fn plain(words: &[&str]) -> Option<ToldTime> {
    let read = |long: String, written: String, assumed| {
        Some(ToldTime { seconds: seconds(&long)?, long, written, is_phrase: false, assumed })
    };
    if let Some((text, ())) = told_first(words, |literal| matches!(literal, Literal::Time(_)).then_some(())) {
        return read(text.trim_end_matches('.').to_owned(), text, None);
    }
    let [number, unit, ..] = words else { return None };
    let written = format!("{number} {unit}");
    let count = of_kind(SpanKind::Number, number).map_or_else(|| number.parse().ok(), |is| is.parse::<f64>().ok())?;
    match of_kind(SpanKind::Unit, unit) {
        Some(days) => {
            let days = count * days.parse::<f64>().ok()?;
            let assumed = format!("{written} is {days} days at the most");
            read(format!("{days} days"), written, Some(assumed))
        }
        None => read(format!("{count} {unit}"), written, None),
    }
}

fn of_kind(kind: SpanKind, word: &str) -> Option<&'static str> {
    let lower = word.to_lowercase();
    SPANS.iter().find(|row| row.kind == kind && row.words.contains(&lower)).map(|row| row.is.as_str())
}

/// "Overnight", at the beginning.
fn phrase(words: &[&str]) -> Option<ToldTime> {
    let said = words.join(" ").to_lowercase();
    let (row, written) = begins_with(&said, SpanKind::Phrase)?;
    let assumed = Some(format!("{written} is {}", row.is));
    let written = written.to_owned();
    Some(ToldTime { seconds: seconds(&row.is)?, long: row.is.clone(), written, is_phrase: true, assumed })
}

/// "A quarter of an hour", at the beginning: its last words alone would be an hour.
fn amount(words: &[&str]) -> Option<ToldTime> {
    let said = words.join(" ").to_lowercase();
    let (row, written) = begins_with(&said, SpanKind::Amount)?;
    let written = written.to_owned();
    Some(ToldTime { seconds: seconds(&row.is)?, long: row.is.clone(), written, is_phrase: false, assumed: None })
}

/// Whether it says that something stands, and not how long: "a few days".
pub(crate) fn is_open(words: &[&str]) -> bool {
    (0..words.len())
        .filter_map(|at| words.get(at..))
        .any(|rest| begins_with(&rest.join(" ").to_lowercase(), SpanKind::Open).is_some())
}

fn begins_with(said: &str, kind: SpanKind) -> Option<(&'static SpanRow, &'static str)> {
    let begins = |phrase: &&String| {
        said.strip_prefix(phrase.as_str()).is_some_and(|rest| !rest.starts_with(char::is_alphanumeric))
    };
    let of_row = |row: &'static SpanRow| Some((row, row.words.iter().find(begins)?.as_str()));
    SPANS.iter().filter(|row| row.kind == kind).find_map(of_row)
}
