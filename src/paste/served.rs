//! What a step does with the glass of a guest, and not with what is bottled.

use crate::units::told::{Clause, told_first};
use crate::units::{Literal, in_millilitres};

use super::draft::{Draft, DraftLine};
use super::drink;
use super::names::Names;
use super::strains::{pieces, strains};
use super::words::WordList;

/// More of a product is in no glass, ml (ours: a large measure).
const LARGEST_DOSE_ML: f64 = 60.0;

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

/// "To serve: 50 ml whisky + 120 ml mix" beside the list: none of it goes into the batch.
pub(super) fn told_above(text: &str) -> Option<&str> {
    let (front, told) = text.split_once(':')?;
    let has_amount = told.contains(|c: char| c.is_numeric());
    (WordList::ToServe.has(front.trim()) && has_amount).then_some(text)
}

/// A step without the sentences that tell a guest's glass: "Bottle. Use 30 ml in a highball, top it with ginger beer."
pub(super) fn without_advice(step: &str, names: Names<'_>) -> String {
    parted(step, names).0
}

/// The advice of a recipe that is no drink stands in a note, and is no work.
pub(super) fn advice_apart(draft: &mut Draft, names: Names<'_>) {
    let has_note = draft.keys.iter().any(|line| line.toml.starts_with("notes"));
    let all: Vec<(String, String)> = draft.steps.iter().map(|step| parted(step, names)).collect();
    let is_told = all.iter().any(|(kept, _)| !kept.is_empty()) || !draft.stages.is_empty();
    if has_note || draft.is_complete || !is_told || drink::is_one(draft) {
        return;
    }
    let (kept, advice): (Vec<String>, Vec<String>) = all.into_iter().unzip();
    let advice: Vec<String> = advice.into_iter().filter(|said| !said.is_empty()).collect();
    if advice.is_empty() {
        return;
    }
    draft.steps = kept.into_iter().filter(|step| !step.is_empty()).collect();
    draft.keys.push(DraftLine::text("notes", &advice.join(" ")));
}

/// What of a step is work, and what is advice.
fn parted(step: &str, names: Names<'_>) -> (String, String) {
    // most steps speak of no glass
    if !(WordList::AtGuest.is_said_in(step) || WordList::Glass.within(step) || WordList::Drinks.within(step)) {
        return (step.to_owned(), String::new());
    }
    let ends = pieces(step).into_iter().filter(|piece| piece.is_last).map(|piece| piece.end).chain([step.len()]);
    let (mut kept, mut advice, mut from) = (Vec::new(), Vec::new(), 0);
    for end in ends {
        // the stop behind it is of the sentence
        let rest = step.get(end..).unwrap_or_default();
        let end = end + rest.len() - rest.trim_start_matches(['.', '!', ')', ' ']).len();
        let Some(sentence) = step.get(from..end).map(str::trim).filter(|sentence| !sentence.is_empty()) else {
            continue;
        };
        if is_advice(sentence, names) { &mut advice } else { &mut kept }.push(sentence);
        from = end;
    }
    (kept.join(" "), advice.join(" "))
}

/// A sentence that serves, or that has so little of nothing that it names go into a glass.
fn is_advice(sentence: &str, names: Names<'_>) -> bool {
    let words: Vec<&str> = sentence.split_whitespace().collect();
    let at_guest = WordList::AtGuest.is_said_in(sentence)
        || [WordList::Glass, WordList::Drinks].iter().any(|list| list.within(sentence));
    let is_small = |literal| match literal {
        Literal::Volume(volume) => (in_millilitres(volume) <= LARGEST_DOSE_ML).then_some(()),
        _ => None,
    };
    let is_joint = |word: &&str| {
        let lists = [WordList::Between, WordList::Into, WordList::RinsedWith, WordList::Each, WordList::DownTo];
        lists.iter().any(|list| list.has(word))
    };
    let is_bare_dose = |at: usize| {
        let Some((said, ())) = words.get(at..).and_then(|rest| told_first(rest, is_small)) else { return false };
        let behind = words.get(at + said.split(' ').count());
        let before = at.checked_sub(1).and_then(|at| words.get(at));
        let names_one = before.is_some_and(|word| names.knows(word.trim_matches([',', ':', '.'])));
        !names_one && (said.ends_with([',', '.', ':']) || behind.is_none_or(is_joint))
    };
    let serves =
        words.first().is_some_and(|first| WordList::Serves.has(first)) || WordList::ToServe.at_the_start(sentence);
    at_guest && !strains(sentence) && (serves || (0..words.len()).any(is_bare_dose))
}
