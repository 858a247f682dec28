//! How long a recipe says itself that its product keeps: "keeps 2 weeks in the fridge".

use crate::card::Card;
use crate::units::spans::{SpanEnd, time};
use crate::units::told::{Clause, clauses};

use super::method::is_last_sentence;
use super::words::WordList;

/// What is said in days keeps; what is said in hours is work (ours).
const SURELY_KEPT_S: f64 = 48.0 * 3600.0;

/// The sentence of the card's last steps, or of its note, that says how long it keeps; `None` where none does.
pub(crate) fn life_told(card: &Card) -> Option<String> {
    let steps: Vec<Vec<Clause<'_>>> = card.steps.iter().map(|step| clauses(step)).collect();
    let of_steps = steps.iter().enumerate().rev().find_map(|(n, step)| {
        (0..step.len())
            .rev()
            .find(|&at| is_life(step, at) && is_last_sentence(&steps, n, at))
            .map(|at| sentence(step, at))
    });
    let in_note = || {
        let note = clauses(card.notes.as_deref()?);
        (0..note.len()).find(|&at| is_life(&note, at)).map(|at| sentence(&note, at))
    };
    of_steps.or_else(in_note)
}

/// Whether a clause says for how many days, and its sentence that it keeps.
fn is_life(step: &[Clause<'_>], at: usize) -> bool {
    let is_long =
        |clause: &Clause<'_>| time(&clause.words, SpanEnd::Most).is_some_and(|told| told.seconds >= SURELY_KEPT_S);
    let keeps = |clause: &Clause<'_>| {
        let first = clause.words.first().is_some_and(|first| WordList::Fridge.has(first));
        first || WordList::Life.within(clause.text)
    };
    step.get(at).is_some_and(is_long) && of_sentence(step, at).any(keeps)
}

fn of_sentence<'s, 't>(step: &'s [Clause<'t>], at: usize) -> impl Iterator<Item = &'s Clause<'t>> {
    let before = step.iter().take(at).rev().take_while(|clause| !clause.is_last).count();
    let behind = step.iter().skip(at).take_while(|clause| !clause.is_last).count();
    step.iter().skip(at - before).take(before + behind + 1)
}

fn sentence(step: &[Clause<'_>], at: usize) -> String {
    of_sentence(step, at).map(|clause| clause.text).collect::<Vec<_>>().join(", ")
}
