//! The small words by which a sentence of a method is read, as lists.

use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

use crate::vocabulary::table::lists;

crate::vocabulary::words! {
    /// A list of `step-words.csv`, which says what each is of.
    StepWord, "list of small words":
    Not = "not",
    VerbLast = "verb_last",
    Forbid = "forbid",
    Between = "between",
    Join = "join",
    ForbidAll = "forbid_all",
    Cleaning = "cleaning",
    Needed = "needed",
    Discard = "discard",
    InCase = "in_case",
    Likeness = "likeness",
    Stoning = "stoning",
    Kernel = "kernel",
    Removing = "removing",
    Expressing = "expressing",
    Determiner = "determiner",
    Heating = "heating",
    Warming = "warming",
    Harsh = "harsh",
    Rinsing = "rinsing",
    Small = "small",
    Looking = "looking",
    Heat = "heat",
    Unheated = "unheated",
    Drying = "drying",
    Next = "next",
    OfAll = "of_all",
    Allergens = "allergens",
    OfMilk = "of_milk",
}

static LISTS: LazyLock<HashMap<StepWord, HashSet<String>>> = LazyLock::new(|| {
    let mut all: HashMap<StepWord, HashSet<String>> = HashMap::new();
    for (list, word) in lists("step-words.csv", include_str!("data/step-words.csv")) {
        all.entry(list).or_default().insert(word);
    }
    all
});

impl StepWord {
    /// Whether a folded word stands in the list.
    pub(crate) fn has(self, word: &str) -> bool {
        LISTS.get(&self).is_some_and(|words| words.contains(word))
    }
}
