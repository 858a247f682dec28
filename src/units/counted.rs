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
use super::measures::{measure, refusal};
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
    Few,
    One,
    Half,
}

/// How many a few are (common practice, no source).
const FEW: (f64, f64) = (2.0, 5.0);
const FEW_USUAL: f64 = 3.0;

static TAKEN: LazyLock<Vec<(TakenWord, &str)>> =
    LazyLock::new(|| lists("taken-words.csv", include_str!("taken-words.csv")));

/// Words round a number that change nothing of what is counted.
const SMALL_WORDS: [&str; 18] = [
    "sized", "of", "de", "di", "von", "the", "from", "whole", "fresh", "a", "an", "der", "die", "le", "la", "el", "il",
    "lo",
];

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
    let is_unit = |said: &[String]| said.last().is_some_and(|word| measure(word).is_some() || refusal(word).is_some());
    let is_portion = |said: &[String]| said.iter().any(|word| Portion::parse(word).is_some());
    let is_meant = |c: &Counted| is_named(&c.words) || is_portion(&c.words);
    let about = || about_so_many(text, customs);
    let alone = || one_without_a_number(text);
    match taken(text, customs).or_else(about).or_else(|| pieces(text, customs)).or_else(alone) {
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

/// `juice of 2 limes`, `the zest of a lemon`, `juice of 2`, `Saft von 2`, `la piel de 1 naranja`, `le jus d'un citron`, `Saft einer Zitrone`.
fn taken(text: &str, customs: &Customs) -> Option<Reading> {
    let plain = text.replace('’', "'").replace("un'", "una ").replace("d'", "de ");
    let is = |list: TakenWord, word: &str| TAKEN.iter().any(|(of, known)| *of == list && *known == word);
    let first = |text: &str| text.split(' ').next().unwrap_or_default().to_lowercase();
    let joint = |(at, _): (usize, &str)| {
        let (before, rest) = plain.split_at_checked(at)?;
        let rest = rest.trim_start();
        match rest.split_once(' ') {
            Some((word, after)) if is(TakenWord::Joint, word) => Some((before, after)),
            _ => is(TakenWord::One, &first(rest)).then_some((before, rest)),
        }
    };
    let (before, after) = plain.match_indices(' ').find_map(joint)?;
    let mut said = telling(before);
    let taken = of_word(&said.pop()?).filter(|_| said.is_empty())?;
    let start = plain.len() - after.len();
    // "mezzo limone", "un demi citron"
    let in_words = [(TakenWord::One, 1.0), (TakenWord::Half, 0.5)].map(|(list, count)| {
        let word = first(after);
        is(list, &word).then_some((count, start + word.len()))
    });
    let [one, half] = in_words;
    let half_of_one = one.and_then(|(_, end)| {
        let word = first(plain.get(end..)?.trim_start());
        is(TakenWord::Half, &word).then_some((0.5, skip_spaces(&plain, end) + word.len()))
    });
    let (count, end) = match half_of_one.or(half).or(one) {
        Some(found) => found,
        None => leading(&plain, skip_spaces(&plain, start), customs).ok()??,
    };
    Some(Reading { text: text.to_owned(), ..counted(&plain, count, end, Some(taken))? })
}

fn of_word(word: &str) -> Option<Portion> {
    let (list, _) = TAKEN.iter().find(|(_, known)| words(known).concat() == word)?;
    match list {
        TakenWord::Juice => Some(Portion::Juice),
        TakenWord::Zest => Some(Portion::Zest),
        TakenWord::Peel => Some(Portion::Peel),
        TakenWord::Joint | TakenWord::Few | TakenWord::One | TakenWord::Half => None,
    }
}

/// `20 cloves`, `a bunch of mint`, `2 cinnamon sticks`, `2 lime peels`.
fn pieces(text: &str, customs: &Customs) -> Option<Reading> {
    let (count, end) = leading(text, skip_spaces(text, 0), customs).ok()??;
    counted(text, count, end, None)
}

/// `2-3 sprigs`, `2 to 3 sprigs`, `a few sprigs`: the middle, and between what it lies.
fn about_so_many(text: &str, customs: &Customs) -> Option<Reading> {
    let of_range = || {
        let digits = |text: &str| text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let first = digits(text);
        let behind = text.get(first..)?;
        let from = ["-", "–", "—", " - ", " – ", " to ", " bis ", " à ", " a "]
            .iter()
            .find_map(|to| behind.strip_prefix(to))?;
        let (low, high) = (text.get(..first)?.parse().ok()?, from.get(..digits(from))?.parse().ok()?);
        Some(((low, high), 0.5 * (low + high), text.len() - from.len() + digits(from)))
    };
    let of_few = || {
        let lower = text.trim_start().to_lowercase();
        let few = TAKEN.iter().filter(|(list, _)| *list == TakenWord::Few).map(|(_, few)| few);
        let few = few.filter(|few| lower.strip_prefix(**few).is_some_and(|rest| rest.starts_with(' ')));
        let end = text.len() - text.trim_start().len() + few.map(|few| few.len()).max()?;
        Some((FEW, FEW_USUAL, end))
    };
    let ((low, high), middle, end) = of_range().or_else(of_few).filter(|((low, high), ..)| low < high)?;
    let reading =
        counted(text, middle, end, None).filter(|_| leading(text, end, customs).is_ok_and(|n| n.is_none()))?;
    let of = reading.counted.filter(|of| of.words.iter().any(|word| Portion::parse(word).is_some()))?;
    Some(Reading { counted: Some(Counted { between: Some((low, high)), ..of }), ..reading })
}

/// `large bunch`, `thumb-sized piece`, `un mazzetto`: one of it.
fn one_without_a_number(text: &str) -> Option<Reading> {
    const ONE_BY_ITSELF: [Portion; 7] = [
        Portion::Small,
        Portion::Medium,
        Portion::Large,
        Portion::ExtraLarge,
        Portion::Thumb,
        Portion::Bunch,
        Portion::Handful,
    ];
    // "un mazzetto", "eine Handvoll"
    let one = TAKEN.iter().filter(|(list, _)| *list == TakenWord::One).map(|(_, one)| one);
    let lower = text.trim_start().to_lowercase();
    let one = one.filter(|one| lower.strip_prefix(**one).is_some_and(|rest| rest.starts_with(' ')));
    let end = one.map(|one| text.len() - text.trim_start().len() + one.len()).max().unwrap_or(0);
    let first = telling(text.get(end..)?).first().and_then(|word| Portion::parse(word))?;
    ONE_BY_ITSELF.contains(&first).then(|| counted(text, 1.0, end, None)).flatten()
}

fn counted(text: &str, count: f64, end: usize, taken: Option<Portion>) -> Option<Reading> {
    let rest = text.get(end..)?;
    let in_words = rest.chars().all(|c| c.is_alphabetic() || c.is_whitespace() || matches!(c, '-' | '\'' | '’'));
    let said = telling(rest);
    // "1 whole" of pineapple
    let is_whole = words(rest).iter().any(|word| word == "whole");
    if !in_words || (said.is_empty() && taken.is_none() && !is_whole) {
        return None;
    }
    let counted = Some(Counted { taken, words: said, between: None });
    Some(Reading { counted, ..Reading::without_unit(text, Literal::Pieces(count), text.trim()) })
}
