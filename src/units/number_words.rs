//! Numbers that are written as words: `a`, `two`, `half a`, `one and a half`, `a dozen`.

use super::spaces::skip_spaces;

const WORDS: [(&str, f64); 15] = [
    ("a", 1.0),
    ("an", 1.0),
    ("half", 0.5),
    ("one", 1.0),
    ("two", 2.0),
    ("three", 3.0),
    ("four", 4.0),
    ("five", 5.0),
    ("six", 6.0),
    ("seven", 7.0),
    ("eight", 8.0),
    ("nine", 9.0),
    ("ten", 10.0),
    ("eleven", 11.0),
    ("twelve", 12.0),
];

/// The word that begins at a byte, spaces before it passed over, and where it ends. It stands alone: `a` of `a lemon`,
/// not of `agave` nor of `a/b`.
fn word(text: &str, from: usize) -> (&str, usize) {
    let start = skip_spaces(text, from);
    let rest = text.get(start..).unwrap_or_default();
    let end = start + rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
    let alone = text.get(end..).unwrap_or_default().chars().next().is_none_or(char::is_whitespace);
    if alone { (text.get(start..end).unwrap_or_default(), end) } else { ("", from) }
}

fn is(word: &str, one_of: &[&str]) -> bool {
    one_of.iter().any(|other| word.eq_ignore_ascii_case(other))
}

/// The number that these words are, and where it ends.
pub(super) fn leading(text: &str, start: usize) -> Option<(f64, usize)> {
    let (first, mut end) = word(text, start);
    let mut value = WORDS.iter().find(|(known, _)| is(first, &[known]))?.1;
    let (second, after) = word(text, end);
    if is(first, &["half"]) && is(second, &["a", "an"]) {
        // half a lemon
        end = after;
    } else if is(first, &["a", "an"]) && is(second, &["half"]) {
        (value, end) = (0.5, after);
    } else if is(second, &["and"])
        && let (article, after) = word(text, after)
        && let (half, after) = word(text, after)
        && is(article, &["a"])
        && is(half, &["half"])
    {
        (value, end) = (value + 0.5, after);
    }
    Some(match dozens(text, end) {
        Some(after) => (12.0 * value, after),
        None => (value, end),
    })
}

/// Where the text goes on after `dozen`, if that stands here.
pub(super) fn dozens(text: &str, from: usize) -> Option<usize> {
    let (found, end) = word(text, from);
    is(found, &["dozen", "dozens"]).then_some(end)
}
