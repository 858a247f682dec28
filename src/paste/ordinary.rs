//! Words of steps that are no thing that goes in: what stands for what is there, for how much, or for a vessel.

use crate::units::{is_container, measured_by_hand};

use super::words::WordList;

/// "The mixture", "two thirds", "three times": a word that stands for what is there, or for how much or how often.
pub(super) fn is_of_kitchens(word: &str) -> bool {
    const LISTS: [WordList; 16] = [
        WordList::Everything,
        WordList::Plants,
        WordList::Glass,
        WordList::Rest,
        WordList::Half,
        WordList::HalfOf,
        WordList::Measure,
        WordList::Handful,
        WordList::Counted,
        WordList::Syrup,
        WordList::Sweet,
        WordList::Strong,
        WordList::Juice,
        WordList::Peel,
        WordList::Others,
        WordList::Kitchen,
    ];
    LISTS.iter().any(|list| list.has_singular(word)) || measured_by_hand(word)
}

/// "A", "une".
pub(super) fn is_one(word: &str) -> bool {
    WordList::One.has(word) || matches!(word.to_lowercase().as_str(), "a" | "an")
}

/// "Jar", "Topf": what an amount in front of it is the size of.
pub(super) fn is_vessel(word: &str) -> bool {
    WordList::Vessel.has_singular(word) || WordList::Bottled.within(word) || is_container(word)
}
