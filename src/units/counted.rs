//! What is counted, where an amount names it: `20 cloves`, `a bunch of mint`, `juice of 2 limes`.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::diagnostic::Code;
use crate::spelling::words;
use crate::vocabulary::table::lists;
use crate::vocabulary::{Portion, Word};

use super::amount::{Counted, Literal, Reading};
use super::customs::Customs;
use super::error::LiteralError;
use super::literal::read_by;
use super::measures::measure;
use super::number::leading;
use super::spaces::skip_spaces;

/// What is taken of a fruit, and the words that join it to how many.
#[derive(Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum TakenWord {
    Juice,
    Zest,
    Peel,
    Joint,
}

static TAKEN: LazyLock<Vec<(TakenWord, String)>> =
    LazyLock::new(|| lists("taken-words.csv", include_str!("taken-words.csv")));

/// Words round a number that change nothing of what is counted.
const SMALL_WORDS: [&str; 14] =
    ["of", "the", "from", "whole", "fresh", "a", "an", "der", "die", "le", "la", "el", "il", "lo"];

/// Reads how much there is of something that has a name: the amount may name it again (`20 cloves`, `juice of 2 limes`,
/// `2 dashes of bitters`).
pub fn read_of(text: &str, name: &str, customs: &Customs) -> Result<Reading, LiteralError> {
    read_by(text, customs).or_else(|error| named(text, name, error, customs))
}

/// Reads an amount that is no number and unit alone; else the error that it gave.
fn named(text: &str, name: &str, error: LiteralError, customs: &Customs) -> Result<Reading, LiteralError> {
    let of_name = words(name);
    let is_named = |said: &[String]| !said.is_empty() && said.iter().all(|word| of_name.contains(word));
    // `2 dashes of bitters`: the amount says again what the line is called.
    if let (Some(kept), Some(rest)) = (&error.fix, text.get(error.at.clone()))
        && text.trim_start().starts_with(kept.as_str())
    {
        let again = is_named(&telling(rest)).then(|| read_by(kept, customs)).and_then(Result::ok);
        return again.map(|reading| Reading { text: text.to_owned(), ..reading }).ok_or(error);
    }
    if !matches!(error.code, Code::UnknownUnit | Code::NotANumber) {
        return Err(error);
    }
    // `1 bottle`, of which nobody says what it holds, is a unit and no piece.
    let is_unit = |said: &[String]| said.last().is_some_and(|word| measure(word).is_some());
    let is_portion = |said: &[String]| said.iter().any(|word| Portion::parse(word).is_some());
    let is_meant = |c: &Counted| is_named(&c.words) || is_portion(&c.words);
    match taken(text, customs).or_else(|| pieces(text, customs)) {
        // `3 dahses` is a slip of the pen, `3 dates` under `dates` is not.
        Some(reading) if reading.counted.as_ref().is_some_and(|c| is_unit(&c.words) && !is_portion(&c.words)) => {
            Err(error)
        }
        Some(reading) if error.fix.is_none() || reading.counted.as_ref().is_some_and(is_meant) => Ok(reading),
        _ => Err(error),
    }
}

/// The words of a text that say what is counted.
fn telling(text: &str) -> Vec<String> {
    words(text).into_iter().filter(|word| !SMALL_WORDS.contains(&word.as_str())).collect()
}

/// `juice of 2 limes`, `the zest of a lemon`, `juice of 2`, `Saft von 2`, `la piel de 1 naranja`.
fn taken(text: &str, customs: &Customs) -> Option<Reading> {
    let joint = |(at, _): (usize, &str)| {
        let (before, rest) = text.split_at_checked(at)?;
        let rest = rest.trim_start();
        let (word, after) = rest.split_once(' ')?;
        let is_joint = TAKEN.iter().any(|(list, known)| *list == TakenWord::Joint && known == word);
        is_joint.then_some((before, after))
    };
    let (before, after) = text.match_indices(' ').find_map(joint)?;
    let mut said = telling(before);
    let taken = of_word(&said.pop()?).filter(|_| said.is_empty())?;
    let start = text.len() - after.len();
    let (count, end) = leading(text, skip_spaces(text, start), customs).ok()??;
    counted(text, count, end, Some(taken))
}

fn of_word(word: &str) -> Option<Portion> {
    let (list, _) = TAKEN.iter().find(|(_, known)| words(known).concat() == word)?;
    match list {
        TakenWord::Juice => Some(Portion::Juice),
        TakenWord::Zest => Some(Portion::Zest),
        TakenWord::Peel => Some(Portion::Peel),
        TakenWord::Joint => None,
    }
}

/// `20 cloves`, `a bunch of mint`, `2 cinnamon sticks`, `2 lime peels`.
fn pieces(text: &str, customs: &Customs) -> Option<Reading> {
    let (count, end) = leading(text, skip_spaces(text, 0), customs).ok()??;
    counted(text, count, end, None)
}

fn counted(text: &str, count: f64, end: usize, taken: Option<Portion>) -> Option<Reading> {
    let rest = text.get(end..)?;
    let in_words = rest.chars().all(|c| c.is_alphabetic() || c.is_whitespace() || matches!(c, '-' | '\'' | '’'));
    let said = telling(rest);
    if !in_words || (said.is_empty() && taken.is_none()) {
        return None;
    }
    let counted = Some(Counted { taken, words: said });
    Some(Reading { counted, ..Reading::without_unit(text, Literal::Pieces(count), text.trim()) })
}
