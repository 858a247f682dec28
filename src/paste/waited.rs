//! What the steps of a recipe say of time: how long it stands, and how cold.

use crate::house::Store;
use crate::spelling::words;
use crate::units::display::temperature_text;
use crate::units::told::Clause;

use super::degrees::{Degrees, degrees};
use super::draft::{DraftLine, Remark};
use super::keys;
use super::names::Names;
use super::strains::strains;
use super::words::WordList;
use crate::units::spans::{SpanEnd, is_open, time};

/// What lasts so long is a wait, whatever stands beside it (ours).
const SURELY_STANDS_S: f64 = 3600.0;

/// What is done and stands in the cold so long is kept (ours): "Stir. In the fridge 3 weeks."
const SURELY_KEEPS_S: f64 = 7.0 * 24.0 * 3600.0;

/// How long something stands, and how cold where that is told.
pub(super) struct Waited {
    pub takes: DraftLine,
    pub at: Option<DraftLine>,
}

/// Whether something is strained before a sentence, and whether something is behind it.
#[derive(Clone, Copy)]
pub(super) struct StrainedWhen {
    pub before: bool,
    pub later: bool,
    /// Whether all is done by then: other sentences stand before it, none behind it, and nothing is in it that would be strained.
    pub is_done: bool,
}

/// "18 hours in the fridge", "a week in a jar", "o/n": what only says how long says that it stands.
pub(super) fn begins_with_time(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().map(|word| word.trim_end_matches([',', ':', ';'])).collect();
    (1..=3).any(|n| {
        let front = words.get(..n);
        front.is_some_and(|front| time(front, SpanEnd::Most).is_some_and(|told| told.written == front.join(" ")))
    })
}

/// How long a clause of a sentence says that it stands. What keeps so long when all is done stands no longer for it.
pub(super) fn wait(step: &[Clause<'_>], at: usize, strained: StrainedWhen, names: Names<'_>) -> Option<Waited> {
    let clause = step.get(at)?;
    let is_wait = WordList::Wait.within(clause.text);
    let Some(told) = time(&clause.words, SpanEnd::Most) else {
        let asks = || DraftLine::question(clause.text, "how long? takes = \"… days\"");
        return (is_open(&clause.words) && (is_wait || strained.later)).then(|| Waited { takes: asks(), at: None });
    };
    // "toast the spices in a dry pan for 2 minutes"
    let roasts = clause.words.first().is_some_and(|first| WordList::Roasted.has(first));
    if roasts && told.seconds < SURELY_STANDS_S {
        return None;
    }
    let begins = begins_with_time(clause.text);
    // "keeps 3 weeks chilled", "lasts 3 weeks", "3 weeks in the walk-in"
    let says_life = WordList::Life.within(clause.text);
    let is_kept = says_life && clause.words.first().is_some_and(|first| WordList::Life.within(first))
        // "aufbewahren, 3 Wochen"
        || begins && keeps_in_sentence(step, at) && !waits_anywhere(step, at)
        || strained.is_done && told.seconds >= SURELY_KEEPS_S && is_cold(step, at) && !waits_anywhere(step, at)
        || !is_wait && (says_life || is_cold(step, at) && (begins && strained.before || keeps_in_sentence(step, at)));
    if is_kept && !strained.later {
        return None;
    }
    let is_told = is_wait || begins || told.is_phrase || told.seconds >= SURELY_STANDS_S;
    if !(is_told || waits_in_sentence(step, at)) {
        return None;
    }
    let mut takes = keys::checked("", DraftLine::text("takes", &told.long), clause.text);
    takes.remarks.extend(told.assumed.map(Remark::Assumed));
    let place = place(step, at);
    let told = degrees(clause, names).filter(|_| is_wait);
    if let Some(Degrees::Told { written, assumed, .. }) = told {
        let mut at = keys::checked("", DraftLine::text("at", &written), clause.text);
        at.remarks.extend(assumed.map(Remark::Assumed));
        return Some(Waited { takes, at: Some(at) });
    }
    let at = store(&place, names);
    if at.is_none() && place.iter().any(|text| WordList::Cold.within(text)) {
        takes = takes.with(Remark::Question("how cold does it stand? at = \"… °C\"".to_owned()));
    }
    let taken = |store: &Store| {
        let said = Remark::Assumed(format!("the {} of the house", store.name));
        DraftLine::text("at", &temperature_text(store.temperature)).with(said)
    };
    Some(Waited { takes, at: at.map(taken) })
}

/// The place of the house where it stands, by its name or by what a fridge and a freezer are called elsewhere.
fn store<'a>(place: &[&str], names: Names<'a>) -> Option<&'a Store> {
    let stores = &names.house.settings.stores;
    let said: Vec<Vec<String>> = place.iter().map(|text| words(text)).collect();
    let is_named = |store: &&Store| {
        let name = words(&store.name);
        !name.is_empty() && said.iter().any(|said| said.windows(name.len()).any(|at| at == name.as_slice()))
    };
    let called = |list: WordList, name: &str| {
        let is_said = place.iter().any(|text| list.within(text));
        stores.iter().find(|store| is_said && store.name.eq_ignore_ascii_case(name))
    };
    let found = stores.iter().find(is_named).or_else(|| called(WordList::Freezer, "freezer"));
    found.or_else(|| called(WordList::Fridge, "fridge"))
}

/// "Keep in the fridge, up to 2 weeks".
fn keeps_in_sentence(step: &[Clause<'_>], at: usize) -> bool {
    let mut before = step.iter().take(at).rev().take_while(|clause| !clause.is_last);
    before.any(|clause| WordList::Life.within(clause.text))
}

/// "3 weeks in the walk-in", "in bottiglia, in frigo, 1 mese".
fn is_cold(step: &[Clause<'_>], at: usize) -> bool {
    let before = step.iter().take(at).rev().take_while(|clause| !clause.is_last);
    before.chain(step.get(at)).any(|clause| WordList::Cold.within(clause.text))
}

/// Whether its sentence says that it waits.
fn waits_anywhere(step: &[Clause<'_>], at: usize) -> bool {
    let before = step.iter().take(at).rev().take_while(|clause| !clause.is_last);
    // what is only put into the cold waits for nothing
    let waits = |word: &&str| WordList::Wait.within(word) && !WordList::Cold.within(word);
    before.chain(step.get(at)).any(|clause| clause.words.iter().any(waits))
}

/// "Steep the tea, the mint and the peel in the water for 20 min": the verb stands before the list.
fn waits_in_sentence(step: &[Clause<'_>], at: usize) -> bool {
    let begins = |clause: &Clause<'_>| clause.words.first().is_some_and(|first| WordList::Step.has(first));
    let is_free = step.get(at).is_some_and(|clause| !begins(clause));
    let mut before = step.iter().take(at).rev().take_while(|clause| !clause.is_last);
    let verb = before.find(|clause| begins(clause));
    is_free && verb.is_some_and(|clause| WordList::Wait.within(clause.text) && !strains(clause.text))
}

/// What says where it stands: the clause itself, and the next where that only goes on ("…, in the fridge").
fn place<'a>(step: &'a [Clause<'_>], at: usize) -> Vec<&'a str> {
    let next = step.get(at + 1).filter(|_| step.get(at).is_some_and(|clause| !clause.is_last));
    let goes_on = |clause: &&Clause<'_>| clause.words.first().is_some_and(|first| WordList::Into.has(first));
    step.get(at).into_iter().chain(next.filter(goes_on)).map(|clause| clause.text).collect()
}
