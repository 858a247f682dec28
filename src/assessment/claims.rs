//! What a card says of itself that is not so: "nut-free" over almonds, "contains no alcohol" over spirit.

use crate::larder::{TRACE_OF_ALCOHOL, denies_alcohol};
use crate::mixture::Component;
use crate::safety::step_words::StepWord;
use crate::safety::{Facts, Member, names};
use crate::solver::Solved;
use crate::spelling::{NameWord, name_words};
use crate::vocabulary::{Allergen, Open, Tag};

/// What German puts behind what a thing is free of, in one word.
const FREE: &str = "frei";

/// Marks the words of the name and of the notes that deny what is in it.
pub(super) fn read(facts: &mut Facts, solved: &Solved) {
    let notes = solved.card.notes.iter().chain(&solved.card.for_a_guest).flat_map(|note| note.split(['.', ';']));
    let of_all =
        |note: &&str| name_words(note).iter().any(|word| StepWord::OfAll.has(&word.text) || word.text.ends_with(FREE));
    // all that was weighed in, for what a pan may have driven off is in doubt
    let liquid = solved.bottled();
    let is_strong = liquid.grams_of(Component::Ethanol) > TRACE_OF_ALCOHOL * liquid.total_grams();
    for text in [solved.name.as_str()].into_iter().chain(notes.filter(of_all)) {
        if denied(text).iter().any(|word| is_in_it(facts, word)) || denies_alcohol(text) && is_strong {
            facts.tags.add(Tag::FalseClaim);
            facts.read_from.entry(Member::Tag(Tag::FalseClaim)).or_default().insert(format!("\"{}\"", text.trim()));
        }
    }
}

/// The words that a text denies.
fn denied(text: &str) -> Vec<String> {
    let free_of = |word: &NameWord| match word.denied {
        true => Some(word.text.clone()),
        false => word.text.strip_suffix(FREE).filter(|head| !head.is_empty()).map(str::to_owned),
    };
    name_words(text).iter().filter_map(free_of).collect()
}

fn is_in_it(facts: &Facts, word: &str) -> bool {
    if StepWord::Allergens.has(word) {
        return !facts.allergens.present.is_empty();
    }
    let present: Vec<Allergen> = facts.allergens.present.iter().filter_map(Open::known).collect();
    let same = |a: Allergen, b: Allergen| a == b || a.family() == b || b.family() == a;
    let said = if StepWord::OfMilk.has(word) { Default::default() } else { names::find(word) };
    said.allergens.iter().any(|denied| present.iter().any(|there| same(*denied, *there)))
}
