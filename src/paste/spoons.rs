//! "2 T dried peel" and "1 t coriander" in one list: who writes both means the large spoon and the small one.

use std::borrow::Cow;

use super::clean::PastedLine;
use super::draft::{DraftLine, Remark};

/// The units, and what they are called in full.
const SPOONS: [(&str, &str); 2] = [("T", "tbsp"), ("t", "tsp")];

/// The lines with their spoons in full, and what was taken for granted; as they were where one letter stands alone.
pub(super) fn in_full(lines: Vec<PastedLine>) -> (Vec<PastedLine>, Option<DraftLine>) {
    let has = |unit: &str| lines.iter().any(|line| spoons(&line.text).any(|(_, word)| bare(word) == unit));
    if !SPOONS.iter().all(|(unit, _)| has(unit)) {
        return (lines, None);
    }
    let full = |line: PastedLine| {
        let at: Vec<usize> = spoons(&line.text).map(|(at, _)| at).collect();
        let word = |(n, word)| match SPOONS.iter().find(|(unit, _)| at.contains(&n) && bare(word) == *unit) {
            Some((_, full)) => Cow::Borrowed(*full),
            None => Cow::Owned(word.to_owned()),
        };
        let text = line.text.split(' ').enumerate().map(word).collect::<Vec<_>>().join(" ");
        PastedLine { text, ..line }
    };
    let said = Remark::Assumed("T is read as tbsp and t as tsp: the list has both".to_owned());
    (lines.into_iter().map(full).collect(), Some(DraftLine::default().with(said)))
}

/// The words behind a number, by their places.
fn spoons(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let words = text.split(' ').zip(text.split(' ').skip(1)).enumerate();
    words.filter(|(_, (number, _))| number.ends_with(char::is_numeric)).map(|(at, (_, word))| (at + 1, word))
}

fn bare(word: &str) -> &str {
    word.trim_end_matches('.')
}
