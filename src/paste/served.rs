//! What a step does with the glass of a guest, and not with what is bottled.

use crate::units::told::Clause;

use super::words::WordList;

/// "To serve, add soda and ice": what a guest's glass gets is none of the bottle.
pub(super) fn is_served(all: &[Clause<'_>], at: usize) -> bool {
    let front = all.get(..=at).unwrap_or_default();
    let begins = front.iter().rev().skip(1).take_while(|clause| !clause.is_last).count();
    let serves = |clause: &Clause<'_>| {
        let lower = clause.text.to_lowercase();
        WordList::ToServe
            .end_in(&lower)
            .is_some_and(|end| lower.get(..end).is_some_and(|said| WordList::ToServe.has(said)))
    };
    // "dilute with as much water to serve"
    let ends = |clause: &Clause<'_>| {
        let said = clause.text.trim_end_matches(['.', '!']);
        WordList::ToServe.end_in(said) == Some(said.to_lowercase().len())
    };
    front.iter().rev().take(begins + 1).any(serves) || front.last().is_some_and(ends)
}
