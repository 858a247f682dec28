//! Words of how many or how long that stand between a number and its thing.

use crate::spelling::words;
use crate::vocabulary::{Portion, Word};

use super::words::WordList;

/// "Large", "sprigs", "1-inch", "of": none of them names a thing.
pub(super) fn counts(word: &str) -> bool {
    let is_portion = |word: &String| Portion::parse(word).is_some() || word.chars().all(|c| c.is_ascii_digit());
    WordList::Of.has(word) || word == "of" || WordList::Size.has(word) || words(word).iter().all(is_portion)
}
