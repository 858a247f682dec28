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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_next_code_follows_the_highest_of_its_letter_and_day() {
        let day = NaiveDate::from_ymd_opt(2026, 11, 29).unwrap();
        assert_eq!(next(day, 'A', []), "261129-A1");
        assert_eq!(next(day, 'A', ["261129-A1", "261129-A9", "261129-B12", "261128-A40", "odd"]), "261129-A10");
        assert_eq!(tidy(" 261129 - a2 "), "261129-A2");
    }
}
