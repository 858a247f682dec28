//! What a guest gets beside what stands in a bottle: the allergens of what is added in the glass.

use crate::assessment::{self, Assessment, allergens_for_a_guest};
use crate::card::Card;
use crate::drinks;
use crate::house::House;

/// The glass that a bottled drink is poured into: what is added there is drunk with what is in the bottle.
pub(super) fn glass_of(card: &Card, house: &House) -> Option<Assessment> {
    let drink = house.read_card(card.pours.as_deref()?)?;
    let glass = drinks::glass::drink(&drink, house, &mut Vec::new())?;
    Some(assessment::undated(&glass, house).0)
}

/// The allergens of what goes in for a guest and not into the bottle: those of the glass, and what the card of the bottle says itself.
pub(super) fn added_for_a_guest(card: &Card, in_it: &[String], glass: Option<&Assessment>) -> Vec<String> {
    let mut added = allergens_for_a_guest(card, in_it);
    let of_glass = glass.into_iter().flat_map(|glass| &glass.allergens);
    for one in of_glass.filter(|one| !in_it.contains(one)) {
        if !added.contains(one) {
            added.push(one.clone());
        }
    }
    added.sort();
    added
}

/// The same of a product of the house by its name.
pub(super) fn added_to(product: &str, in_it: &[String], house: &House) -> Vec<String> {
    let added = |card: Card| added_for_a_guest(&card, in_it, glass_of(&card, house).as_ref());
    house.read_card(product).map(added).unwrap_or_default()
}
