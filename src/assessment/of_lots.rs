//! What a part of the house brings by the lots of it that may be poured: its card may have changed since they were made.

use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, LotBrings};
use crate::safety::{Facts, Member};
use crate::solver::Solved;

use super::declared::is_named;
use super::{Lot, LotsCounted, dressed};

/// The lots of a product: those that are told to have gone in, else all that stand there.
fn lots_of(product: &str, house: &House, lot: &Lot) -> Vec<LotBrings> {
    let standing = house.of_book.standing(product);
    let told = lot.parts.iter().filter(|part| part.is_called(product)).filter_map(|part| part.of_lot.as_ref());
    let told: Vec<LotBrings> = told
        .map(|told| {
            let there = standing.iter().find(|there| told.lot == there.lot).cloned();
            let (lot, allergens) = (told.lot.clone(), told.allergens.clone());
            there.unwrap_or(LotBrings { lot, allergens, not_stated: Vec::new() })
        })
        .collect();
    match (lot.counted, told.as_slice()) {
        (LotsCounted::None, _) => Vec::new(),
        (_, []) => standing.to_vec(),
        (_, _) => told,
    }
}

/// Adds what its lots bring to the facts of a product, and says what of that its card does not bring any more.
pub(super) fn add(facts: &mut Facts, product: &str, house: &House, lot: &Lot) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let by_card = facts.clone();
    for LotBrings { lot, allergens, not_stated } in lots_of(product, house, lot) {
        let mut old = Vec::new();
        for allergen in allergens.into_iter().filter(|allergen| !is_named(&by_card, allergen)) {
            let read = Member::Allergen(allergen.clone());
            old.push(read.said());
            facts.read_from.entry(read).or_default().insert(format!("`{product}`, lot {lot}"));
            facts.allergens.add(allergen);
        }
        facts.allergens.open |= !not_stated.is_empty();
        let title = format!("lot {lot} of {product} brings {}, and its card does not any more", old.join(", "));
        let help = format!("it is named as long as that lot may be poured; once it is gone: stillroom use-up {lot}");
        found.extend((!old.is_empty()).then(|| Diagnostic::warning(Code::LotBrings, title).help(help)));
    }
    found
}

/// What in the lots of its parts nobody has stated the allergens of, beside what is `known` to be open by the cards.
pub(super) fn not_stated(solved: &Solved, house: &House, lot: &Lot, known: &[String]) -> Vec<String> {
    let own = usize::from(lot.counted != LotsCounted::OwnToo);
    let inside = solved.with_inner().into_iter().skip(own).map(|(card, _)| card.name.clone());
    let on_it = dressed::products_on(solved, house).into_iter().flat_map(|on_it| on_it.holds);
    let mut open: Vec<String> = Vec::new();
    for product in inside.chain(on_it) {
        for LotBrings { lot, mut not_stated, .. } in lots_of(&product, house, lot) {
            not_stated.retain(|open| !known.contains(open));
            open.extend(
                (!not_stated.is_empty()).then(|| format!("lot {lot} of {product} ({})", not_stated.join(", "))),
            );
        }
    }
    open.sort();
    open.dedup();
    open
}
