//! The allergens of a product: on whose list each stands, and of what nobody has said.

use serde::Serialize;

use crate::card::AskedOf;
use crate::larder::Ingredient;
use crate::safety::allergens::{AllergenEntry, declared};
use crate::safety::{Facts, Market, Member, or_all};
use crate::solver::Solved;
use crate::vocabulary::{Allergen, Open};

/// Where an allergen must be declared.
#[derive(Clone, Debug, Serialize)]
pub struct AllergenLists {
    /// The allergen.
    pub allergen: Open<Allergen>,
    /// The markets of the house (all, where it names none) that ask for it on a label.
    pub markets: Vec<Market>,
    /// The entries of their lists, each once.
    pub entries: Vec<&'static AllergenEntry>,
}

/// Each of these allergens with the lists that it stands on.
pub(super) fn lists<'f>(facts: &'f Facts, allergens: impl Iterator<Item = &'f Open<Allergen>>) -> Vec<AllergenLists> {
    let lists_of = |allergen: &Open<Allergen>| {
        let mut lists = AllergenLists { allergen: allergen.clone(), markets: Vec::new(), entries: Vec::new() };
        for &market in or_all(&facts.market) {
            let entries = declared(market, allergen, facts.so2_mg_kg);
            lists.markets.extend((!entries.is_empty()).then_some(market));
            for entry in entries {
                if !lists.entries.iter().any(|known| std::ptr::eq(*known, entry)) {
                    lists.entries.push(entry);
                }
            }
        }
        lists
    };
    allergens.map(lists_of).collect()
}

/// The ingredients of which nobody has said which allergens they bring.
pub(super) fn not_stated(solved: &Solved) -> Vec<String> {
    let mut names: Vec<String> =
        solved.ingredients().iter().filter(|(i, _)| !i.allergens_stated).map(|(i, _)| i.name.clone()).collect();
    // what a line says that nobody could read may bring any
    let unread = solved
        .with_inner()
        .into_iter()
        .flat_map(|(card, _)| card.card.open_lines())
        .filter(|line| line.of == AskedOf::Parts)
        .map(|line| line.asked);
    names.extend(unread.map(|line| format!("the line `{}`", line.value.split(": ").next().unwrap_or(&line.value))));
    names.sort();
    names.dedup();
    names
}

/// Of a wine, a cider or a beer whose label nobody read: each allergen that its maker may have cleared or brewed it
/// with is open, and all are one question. Asked once everything else has raised its own.
pub(super) fn doubt_finings(facts: &mut Facts, name: &str, of: &Ingredient) {
    let open: Vec<Open<Allergen>> = of.fined_with(&facts.market).map(Open::Known).collect();
    let question = format!("what the label of `{name}` names");
    for allergen in open {
        if !facts.allergens.names(allergen.clone()) {
            facts.fined.insert(allergen.clone());
        }
        facts.doubt_allergen(allergen, question.clone());
    }
}

/// The one sentence on its allergens, for text and programs alike. That none was named is said as such, beside whatever
/// nobody has stated: an open question never reads as none.
pub(super) fn in_words(named: &[String], not_stated_for: &[String], doubted: &[String]) -> String {
    let mut words = by_group(named);
    // beside an open question it would be read as none
    if words.is_empty() && not_stated_for.is_empty() && doubted.is_empty() {
        words.push("no allergen named".to_owned());
    }
    if !not_stated_for.is_empty() {
        words.push(format!("not stated for {}", not_stated_for.join(", ")));
    }
    words.extend(doubted.iter().map(|question| format!("not stated: {question}")));
    words.join(", ")
}

/// Allergens by their words, as a label has them: "celery, tree nuts (pistachio, walnut)".
pub(crate) fn allergens_by_group(named: &[String]) -> String {
    by_group(named).join(", ")
}

/// The kinds of a group stand together, where the first of them does.
fn by_group(named: &[String]) -> Vec<String> {
    let mut groups: Vec<(String, Vec<&str>)> = Vec::new();
    for allergen in named {
        let (group, kind) = match allergen.strip_suffix(')').and_then(|kind| kind.split_once(" (")) {
            Some((group, kind)) => (group, Some(kind)),
            None => (allergen.as_str(), None),
        };
        let group = group.replace('_', " ");
        match groups.iter_mut().find(|(known, kinds)| *known == group && !kinds.is_empty() && kind.is_some()) {
            Some((_, kinds)) => kinds.extend(kind),
            None => groups.push((group, kind.into_iter().collect())),
        }
    }
    let said = |(group, kinds): &(String, Vec<&str>)| match kinds.is_empty() {
        true => group.clone(),
        false => format!("{group} ({})", kinds.join(", ")),
    };
    groups.iter().map(said).collect()
}

/// The allergens that may be there, those that surely are left out.
pub(super) fn in_doubt(facts: &Facts) -> impl Iterator<Item = &Open<Allergen>> {
    facts.allergens.unsure.iter().filter(|a| !is_named(facts, a))
}

/// The questions of them.
pub(super) fn doubted(facts: &Facts) -> Vec<String> {
    let open = in_doubt(facts).cloned().map(Member::Allergen);
    let mut asked: Vec<String> = open.filter_map(|a| facts.questions.get(&a)).flatten().cloned().collect();
    asked.sort();
    asked.dedup();
    asked
}

/// Whether an allergen, a kind of it or its group is named or asked about.
pub(super) fn is_doubted(facts: &Facts, allergen: &Open<Allergen>) -> bool {
    let group = |a: &Open<Allergen>| a.known().and_then(Allergen::group);
    let mut known = facts.allergens.present.iter().chain(&facts.allergens.unsure);
    known.any(|known| {
        known == allergen
            || group(known).is_some_and(|g| *allergen == g)
            || group(allergen).is_some_and(|g| *known == g)
    })
}

/// Whether an allergen, or a kind of it, is surely there.
pub(super) fn is_named(facts: &Facts, allergen: &Open<Allergen>) -> bool {
    let group = |a: &Open<Allergen>| a.known().and_then(Allergen::group);
    facts.allergens.present.iter().any(|named| named == allergen || group(named).is_some_and(|g| *allergen == g))
}
