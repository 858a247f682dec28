//! Lot codes: short enough to be written on tape, the day first, then the letter of the device and a number.

use chrono::NaiveDate;

/// The code of the next lot that a device gives on a day: `261129-A2`. `taken` are the codes that are there.
pub fn next<'a>(made: NaiveDate, letter: char, taken: impl IntoIterator<Item = &'a str>) -> String {
    let head = format!("{}-{letter}", made.format("%y%m%d"));
    let number = |code: &str| code.strip_prefix(&head)?.parse::<u32>().ok();
    let most = taken.into_iter().filter_map(number).max().unwrap_or(0);
    format!("{head}{}", most + 1)
}

/// A code as a hand writes it: capitals do not matter, and spaces are none.
pub fn tidy(written: &str) -> String {
    written.chars().filter(|c| !c.is_whitespace()).collect::<String>().to_uppercase()
}

/// Whether a text, tidied, is written as a code is: a day, a letter, a number.
pub fn is_one(tidied: &str) -> bool {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    let Some((day, rest)) = tidied.split_once('-') else { return false };
    let letters = rest.chars().next().is_some_and(|c| c.is_ascii_alphabetic());
    day.len() == 6 && digits(day) && letters && rest.get(1..).is_some_and(digits)
}
