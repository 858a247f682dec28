//! Two amounts on one line, of which one goes into the other: "4 tea bags in 500 ml water", "30 g coffee to 200 ml water".

use super::amounts::is_size;
use super::names::Names;
use super::part::{PartSaid, part};
use super::words::WordList;

/// The two as lines of their own; of the second the line may say no more than how much it is, and what that is of is then asked.
pub(super) fn one_in_other(text: &str, names: Names<'_>) -> Option<[String; 2]> {
    let words: Vec<&str> = text.split(' ').collect();
    let is_part = |said: &str| matches!(part(said, names), PartSaid::Part(part) if part.amount.is_some());
    let cut = |at: usize| {
        words.get(at).filter(|word| WordList::Between.has(word) || WordList::Onto.has(word))?;
        let (one, other) = (words.get(..at)?.join(" "), words.get(at + 1..)?.join(" "));
        let is_sized = other.starts_with(|c: char| c.is_numeric()) && is_one_amount(&one) && is_one_amount(&other);
        let is_amount = || names.reads(&other).is_ok_and(is_size);
        let one = counted_in_front(&one).filter(|_| !is_part(&one)).unwrap_or(one);
        (is_sized && is_part(&one) && (is_amount() || is_part(&other))).then_some([one, other])
    };
    (1..words.len()).find_map(cut)
}

/// Whether a text has one number, and nothing behind a comma or a full stop.
fn is_one_amount(text: &str) -> bool {
    let numbers = text.split(' ').filter(|word| word.starts_with(|c: char| c.is_numeric())).count();
    numbers == 1 && !text.contains(", ") && !text.contains(". ")
}

/// "Tea: 4 bags" as "4 Tea bags".
fn counted_in_front(text: &str) -> Option<String> {
    let (thing, counted) = text.split_once(": ")?;
    let (number, of) = counted.split_once(' ')?;
    Some(format!("{number} {thing} {of}"))
}
