//! What a card promises that is not so: "nut-free" over almonds, "for children" over spirit.

use std::sync::LazyLock;

use crate::larder::{Ingredient, TRACE_OF_ALCOHOL, denies_alcohol};
use crate::mixture::{Component, Mixture};
use crate::safety::step_words::StepWord;
use crate::safety::{Facts, Member, names};
use crate::solver::Solved;
use crate::spelling::{NameWord, fold, name_words};
use crate::vocabulary::table::lists;
use crate::vocabulary::{Allergen, Open, Tag, Word, words};

words! {
    /// A list of `claims.csv`, which says what each is of.
    Promise, "list of what a card promises":
    Sober = "sober",
    SoberName = "sober_name",
    SoundsSober = "sounds_sober",
    Infants = "infants",
    Vegan = "vegan",
    VeganName = "vegan_name",
    Other = "other",
    TakenBack = "taken_back",
}

static PROMISES: LazyLock<Vec<(Promise, &str)>> = LazyLock::new(|| lists("claims.csv", include_str!("claims.csv")));

/// Grams in a gram below which a drink may be called free of sugar: Regulation (EC) No 1924/2006, annex.
const TRACE_OF_SUGAR: f64 = 0.005;

/// The same of lactose: 0.1 g in 100 g, a practice of several states of the EU (from memory).
const TRACE_OF_LACTOSE: f64 = 0.001;

/// Marks the words of the name and of the notes that promise what is not so.
pub(super) fn read(facts: &mut Facts, solved: &Solved) {
    let notes = solved.card.notes.iter().chain(&solved.card.for_a_guest).flat_map(|note| note.split(['.', ';']));
    let of_all = |note: &str| {
        name_words(note).iter().any(|word| StepWord::OfAll.has(&word.text) || free_of_in_one(&word.text).is_some())
    };
    // all that was weighed in, for what a pan may have driven off is in doubt
    let liquid = solved.bottled();
    let is_strong = liquid.grams_of(Component::Ethanol) > TRACE_OF_ALCOHOL * liquid.total_grams();
    for (text, is_name) in [(solved.name.as_str(), true)].into_iter().chain(notes.map(|note| (note, false))) {
        let promises = promised(text, is_name);
        let is_free = is_name || of_all(text);
        let tells_none = |promise: Promise| match promise {
            Promise::Sober | Promise::SoberName | Promise::Infants => is_strong,
            Promise::Vegan | Promise::VeganName => is_of_animals(facts),
            Promise::SoundsSober | Promise::Other | Promise::TakenBack => false,
        };
        let is_false = promises.iter().any(|promise| tells_none(*promise))
            || is_free
                && (denied(text).iter().any(|word| is_in_it(facts, solved, word)) || denies_alcohol(text) && is_strong);
        let of_infants = promises.contains(&Promise::Infants).then_some(Tag::ForInfants);
        let sounds_sober = (is_strong && promises.contains(&Promise::SoundsSober)).then_some(Tag::SoundsSober);
        for tag in of_infants.into_iter().chain(sounds_sober).chain(is_false.then_some(Tag::FalseClaim)) {
            facts.tags.add(tag);
            facts.read_from.entry(Member::Tag(tag)).or_default().insert(format!("\"{}\"", text.trim()));
        }
    }
}

/// What a text promises by the words of the table. "Not for children" promises nothing, nor does a note that tells what to leave out.
fn promised(text: &str, is_name: bool) -> Vec<Promise> {
    let said =
        |list: Promise| PROMISES.iter().filter(move |(own, _)| *own == list).map(|(_, words)| format!(" {words} "));
    let mut folded = format!(" {} ", fold(text));
    for other in said(Promise::Other) {
        folded = folded.replace(&other, " ");
    }
    let of_names = [Promise::SoberName, Promise::SoundsSober, Promise::VeganName];
    let is_told = |words: &String| {
        folded.split_once(words).is_some_and(|(before, after)| !takes_back(before) && (is_name || !takes_back(after)))
    };
    Promise::ALL
        .iter()
        .copied()
        .filter(|list| !matches!(list, Promise::Other | Promise::TakenBack))
        .filter(|list| is_name || !of_names.contains(list))
        .filter(|list| said(*list).any(|words| is_told(&words)))
        .collect()
}

fn takes_back(text: &str) -> bool {
    const LISTS: [StepWord; 4] = [StepWord::Not, StepWord::Forbid, StepWord::ForbidAll, StepWord::Removing];
    let is_no_promise = |word: &str| PROMISES.contains(&(Promise::TakenBack, word));
    text.split(' ').any(|word| is_no_promise(word) || LISTS.iter().any(|list| list.has(word)))
}

/// What German says in one word that a thing is free of: "zuckerfreier".
fn free_of_in_one(word: &str) -> Option<&str> {
    StepWord::FreeInOne.before(word).filter(|head| !head.is_empty())
}

/// The words that a text denies.
fn denied(text: &str) -> Vec<String> {
    let all = name_words(text);
    // "no added sugar" says nothing of that of its fruit
    let is_added = all.iter().any(|word| StepWord::Added.has(&word.text));
    let free_of = |word: &NameWord| match word.denied {
        true => Some(word.text.clone()),
        false => free_of_in_one(&word.text).map(str::to_owned),
    };
    all.iter().filter_map(free_of).filter(|word| !(is_added && StepWord::OfSugar.has(word))).collect()
}

fn is_in_it(facts: &Facts, solved: &Solved, word: &str) -> bool {
    if StepWord::Allergens.has(word) {
        return !facts.allergens.present.is_empty();
    }
    if StepWord::OfSugar.has(word) {
        return is_more(solved, StepWord::OfSugar, TRACE_OF_SUGAR, Mixture::sugar_grams);
    }
    if StepWord::OfMilk.has(word) {
        return is_more(solved, StepWord::OfMilk, TRACE_OF_LACTOSE, |all| all.grams_of(Component::Lactose));
    }
    let present = present(facts);
    let same = |a: Allergen, b: Allergen| a == b || a.family() == b || b.family() == a;
    names::find(word).allergens.iter().any(|denied| present.iter().any(|there| same(*denied, *there)))
}

/// Whether more of it is in the bottle than a trace, and of what goes in more than what by its name is free of it: what that is
/// like may lend it some.
fn is_more(solved: &Solved, list: StepWord, trace: f64, grams: impl Fn(&Mixture) -> f64) -> bool {
    let is_free = |i: &Ingredient| i.all_names().any(|name| denied(name).iter().any(|word| list.has(word)));
    let others = solved.ingredients().into_iter().filter(|(i, _)| !is_free(i));
    let brought: f64 = others.map(|(i, mass)| mass * grams(&i.per_gram)).sum();
    let most = trace * solved.bottled().total_grams();
    grams(solved.bottled()) > most && brought > most
}

fn present(facts: &Facts) -> Vec<Allergen> {
    facts.allergens.present.iter().filter_map(Open::known).collect()
}

fn is_of_animals(facts: &Facts) -> bool {
    const OF_ANIMALS: [Allergen; 5] =
        [Allergen::Milk, Allergen::Egg, Allergen::Fish, Allergen::Crustaceans, Allergen::Molluscs];
    let tags = [Tag::Honey, Tag::Dairy, Tag::RawEgg, Tag::RawMeat];
    tags.into_iter().any(|tag| facts.tags.has(tag))
        || present(facts).iter().any(|there| OF_ANIMALS.contains(&there.family()))
}
