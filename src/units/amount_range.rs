//! "10-12 cloves", "10-15g citric acid", "1 to 2 tsp sugar": which amount it is nobody but the maker knows.

use super::about::without_about;
use super::amount::Literal;
use super::display::short;
use super::literal;

/// Words between the two ends, in English, German, French, Spanish and Italian; from memory.
const TO: [&str; 11] = ["to", "or", "-", "–", "—", "bis", "oder", "à", "ou", "a", "o"];

/// A range, and the same line with the number in the middle, and at both ends.
pub(crate) struct AmountRange {
    pub said: String,
    pub middle: String,
    pub ends: [String; 2],
    /// Whether its ends lie no further from the middle than a quarter of it.
    pub is_narrow: bool,
}

/// What is counted or spooned may be off by as much (ours).
const NARROW: f64 = 0.25;

pub(crate) fn range(words: &[&str]) -> Option<AmountRange> {
    let dash = |c: char| matches!(c, '-' | '–' | '—' | '−');
    let first = words.first().filter(|word| word.starts_with(|c: char| c.is_ascii_digit()))?;
    let (low, high, said, rest) = match first.split_once(dash).filter(|(low, _)| low.ends_with(char::is_alphanumeric)) {
        Some((low, high)) if high.starts_with(|c: char| c.is_ascii_digit()) => {
            (low.to_owned(), high, (*first).to_owned(), words.get(1..)?)
        }
        _ => {
            let is_between = |word: &&&str| TO.contains(&word.to_lowercase().as_str());
            let between = (1..=2).find(|&n| words.get(n).as_ref().is_some_and(is_between))?;
            let high = words.get(between + 1).filter(|word| word.starts_with(|c: char| c.is_ascii_digit()))?;
            let low = words.get(..between)?.join(" ");
            let said = format!("{low} to {high}");
            (low, *high, said, words.get(between + 2..)?)
        }
    };
    // the unit may stand at the number ("10-15g"), and at both ("10g-15g")
    let number = |text: &str| {
        let end = text.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '/'))).unwrap_or(text.len());
        let (number, unit) = text.split_at(end);
        match literal::parse(number) {
            Ok(Literal::Number(number)) => Some((number, unit.to_owned())),
            _ => None,
        }
    };
    let line = |number: f64, unit: &str| {
        let first = format!("{}{unit}", short(number));
        std::iter::once(first.as_str()).chain(rest.iter().copied()).collect::<Vec<_>>().join(" ")
    };
    let both = number(&low).zip(number(high));
    let is_narrow = both.as_ref().is_some_and(|((low, _), (high, _))| high - low <= NARROW * (high + low));
    let lines =
        both.map(|((low, _), (high, unit))| [line((low + high) / 2.0, &unit), line(low, &unit), line(high, &unit)]);
    let [middle, least, most] = lines.unwrap_or_default();
    Some(AmountRange { said, middle, ends: [least, most], is_narrow })
}

/// "1 to 1.2 L", "750-800 ml": the lesser of the two.
pub(crate) fn lesser(text: &str) -> Option<String> {
    let words: Vec<&str> = without_about(text).split_whitespace().collect();
    let [lesser, _] = range(&words)?.ends;
    let is_size = |read: Literal| matches!(read, Literal::Volume(_) | Literal::Mass(_));
    literal::parse(&lesser).is_ok_and(is_size).then_some(lesser)
}
