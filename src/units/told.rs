//! Amounts that a sentence tells: "hold it at 45 °C for 24 h".

use super::amount::Literal;
use super::{literal, number_words};

/// An amount is told in so many words at the most: "two and a half hours".
const MOST_WORDS: usize = 5;

/// A piece of a sentence.
pub(crate) struct Clause<'a> {
    pub text: &'a str,
    pub words: Vec<&'a str>,
    /// Whether a full stop stands behind it.
    pub is_last: bool,
}

/// The pieces of a sentence, at its stops and commas and at "then".
pub(crate) fn clauses(step: &str) -> Vec<Clause<'_>> {
    let mut all = Vec::new();
    let mut rest = step;
    loop {
        let end = rest.char_indices().find(|(at, c)| {
            let behind = rest.get(at + c.len_utf8()..).unwrap_or_default();
            let ends = matches!(c, '.' | ',' | ';' | '!' | '(' | ')');
            ends && (behind.is_empty() || behind.starts_with([' ', ')'])) && !is_abbreviated(&rest[..*at], *c, behind)
        });
        let (text, behind) = match end {
            Some((at, c)) => (&rest[..at], &rest[at + c.len_utf8()..]),
            None => (rest, ""),
        };
        let clause = |text| Clause { text, words: str::split_whitespace(text).collect(), is_last: false };
        all.extend(text.split(" then ").map(clause));
        if let (Some((_, '.' | '!')), Some(last)) = (end, all.last_mut()) {
            last.is_last = true;
        }
        if behind.is_empty() {
            return all;
        }
        rest = behind.trim_start();
    }
}

/// Words that are written with a point behind them, as German has them.
const ABBREVIATED: [&str; 5] = ["Std", "Min", "Sek", "ca", "Ca"];

/// "24 Std. im Rum": the point is of the word, and the sentence goes on.
fn is_abbreviated(front: &str, mark: char, behind: &str) -> bool {
    let last = front.rsplit(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
    let goes_on = behind.trim_start().starts_with(|c: char| c.is_lowercase() || c.is_numeric());
    mark == '.' && goes_on && ABBREVIATED.contains(&last)
}

/// The first stretch of words that reads as one of these, and what it is.
pub(crate) fn first_told<T>(words: &[&str], is: impl Fn(Literal) -> Option<T>) -> Option<(String, T)> {
    (0..words.len()).find_map(|start| told_first(words.get(start..)?, &is))
}

/// The longest stretch at the beginning that reads as one of these, and what it is.
pub(crate) fn told_first<T>(words: &[&str], is: impl Fn(Literal) -> Option<T>) -> Option<(String, T)> {
    // an amount begins with a number: most words of a sentence need not be read as one
    words.first().filter(|word| begins_with_number(word))?;
    (1..=MOST_WORDS).rev().find_map(|n| {
        let text = words.get(..n)?.join(" ");
        let value = is(literal::parse(&text).ok()?)?;
        Some((text, value))
    })
}

/// Whether a word is a figure, or the name of a number.
pub(crate) fn begins_with_number(word: &str) -> bool {
    let is_figure = |c: char| c.is_numeric() || matches!(c, '-' | '+' | '−' | '.' | ',');
    word.starts_with(is_figure) || number_words::leading(word, 0).is_some()
}
