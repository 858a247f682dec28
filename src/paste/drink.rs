//! A recipe of one glass: its steps say how it is made on ice.

use crate::vocabulary::{DrinkHow, Word};

use super::draft::{Draft, DraftLine, Remark};
use super::words::WordList;

/// Whether it is one.
pub(super) fn is_one(draft: &Draft) -> bool {
    let mut draft = draft.clone();
    how(&mut draft);
    says_how(&draft)
}

/// Whether a line of it says already how the drink is made.
pub(super) fn says_how(draft: &Draft) -> bool {
    draft.keys.iter().any(|line| line.toml.starts_with("how = "))
}

/// A recipe that says no yield, has no stage, and is shaken, stirred or built on ice or in a glass, is a drink.
pub(super) fn how(draft: &mut Draft) {
    let is_batch = draft.sized || !draft.stages.is_empty() || says_how(draft);
    if is_batch || !draft.steps.iter().any(|step| WordList::Glass.within(step)) {
        return;
    }
    let words = draft.steps.iter().flat_map(|step| step.split(|c: char| !c.is_alphabetic()));
    let Some(how) = words.filter(|word| !word.is_empty()).find_map(DrinkHow::parse) else { return };
    let taken = Remark::Assumed("one glass, by its steps; of a batch take this line out".to_owned());
    draft.keys.push(DraftLine::text("how", &how.to_string()).with(taken));
}
