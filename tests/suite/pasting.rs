//! What the card of a pasted text holds, for the tests of pasted recipes.

use stillroom::house::House;
use stillroom::paste::paste;

/// In a house: the card of a text holds each of these; what stands behind a `!` it does not.
pub(crate) fn holds_in(house: &House, text: &str, expected: &[&str]) {
    let card = paste(text, house).card;
    for line in expected {
        match line.strip_prefix('!') {
            Some(line) => assert!(!card.contains(line), "`{line}` in\n{card}"),
            None => assert!(card.contains(line), "no `{line}` in\n{card}"),
        }
    }
}

/// The same where the house states nothing.
pub(crate) fn holds(text: &str, expected: &[&str]) {
    holds_in(&House::default(), text, expected);
}
