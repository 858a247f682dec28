//! What a guest gets beside what stands in a bottle: the allergens of what is added in the glass.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::assessment::{self, Assessment, allergens_for_a_guest};
use crate::card::{self, Card};
use crate::diagnostic::{Code, Diagnostic};
use crate::drinks;
use crate::house::House;
use crate::input::key;
use crate::safety::dressing::is_no_food;
use crate::safety::warnings::{Holds, WarnedOf};
use crate::spelling::{fold, words};

/// The allergens that a guest gets beside those of the bottle itself.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct GuestView {
    /// What of allergens goes in for a guest and is not in it.
    pub(crate) allergens_for_a_guest: Vec<String>,
    /// Of what of that nobody has stated any.
    pub(crate) allergens_for_a_guest_not_stated: Vec<String>,
}

/// What is drunk with what is in a bottle.
#[derive(Clone, Debug, Default)]
pub(super) struct Guest {
    allergens: BTreeSet<String>,
    not_stated: BTreeSet<String>,
    /// What changes how medicines act.
    pub(super) warned: Vec<Holds>,
    /// What lots bring that their cards do not any more.
    pub(super) of_lots: Vec<Diagnostic>,
}

impl Guest {
    /// Of a bottle by its card: of the glass that it is poured into, and of what its own words say is added.
    pub(super) fn of(card: &Card, house: &House) -> Self {
        let mut guest = Self { allergens: allergens_for_a_guest(card), ..Self::default() };
        let drink = card.pours.as_deref().and_then(|pours| house.read_card(pours));
        guest.take_in(drink.and_then(|drink| judged(&drink, house)));
        let named: Vec<String> =
            card.for_a_guest.iter().flat_map(|text| named_in(text, &card.name.value, house)).collect();
        if !named.is_empty() {
            match glass_of(&named, house) {
                None => guest.not_stated.extend(named),
                of_words => guest.take_in(of_words),
            }
        }
        guest
    }

    /// The same of a product of the house by its name; nothing where it has no card.
    pub(super) fn of_product(product: &str, house: &House) -> Self {
        house.read_card(product).map(|card| Self::of(&card, house)).unwrap_or_default()
    }

    fn take_in(&mut self, judged: Option<(Assessment, Vec<Diagnostic>)>) {
        let Some((judged, found)) = judged else { return };
        self.allergens.extend(judged.allergens);
        let of_medicines = |held: &Holds| matches!(held.of, WarnedOf::Grapefruit | WarnedOf::SevilleOrange);
        self.warned.extend(judged.warned.into_iter().filter(of_medicines));
        self.not_stated.extend(judged.allergens_open.into_iter().chain(judged.allergens_doubted));
        for said in found.into_iter().filter(|said| said.code == Code::LotBrings) {
            self.of_lots.extend((!self.of_lots.contains(&said)).then_some(said));
        }
    }

    /// What a guest gets beside what was judged to be in the bottle.
    pub(super) fn beside_judged(&self, judged: &Assessment) -> GuestView {
        self.beside(&judged.allergens, &[judged.allergens_open.as_slice(), &judged.allergens_doubted].concat())
    }

    /// The same by what is in the bottle, and of what in it nobody has stated the allergens.
    pub(super) fn beside(&self, in_it: &[String], not_stated: &[String]) -> GuestView {
        GuestView {
            allergens_for_a_guest: self.allergens_beside(in_it),
            allergens_for_a_guest_not_stated: self.not_stated_beside(not_stated),
        }
    }

    /// The allergens that are not in the bottle itself.
    pub(super) fn allergens_beside(&self, in_it: &[String]) -> Vec<String> {
        self.allergens.iter().filter(|one| !in_it.contains(one)).cloned().collect()
    }

    /// What nobody has stated the allergens of, and is not in the bottle itself.
    pub(super) fn not_stated_beside(&self, in_it: &[String]) -> Vec<String> {
        self.not_stated.iter().filter(|one| !in_it.contains(one)).cloned().collect()
    }
}

fn judged(drink: &Card, house: &House) -> Option<(Assessment, Vec<Diagnostic>)> {
    Some(assessment::undated(&drinks::glass::drink(drink, house, &mut Vec::new())?, house))
}

/// More words than this no name has (ours).
const LONGEST_NAME: usize = 8;

/// The products of the house and the ingredients that a text names, the longest names first. What it calls the bottle itself is none.
fn named_in(text: &str, own: &str, house: &House) -> Vec<String> {
    let all = words(text);
    let is_known = |name: &str| house.card(name).is_some() || !is_no_food(name) && house.larder.find(name).is_some();
    let (mut named, mut rest): (Vec<String>, &[String]) = (Vec::new(), &all);
    while !rest.is_empty() {
        let mut spans = (1..=rest.len().min(LONGEST_NAME)).rev().map(|n| rest.split_at(n));
        match spans.find_map(|(span, after)| Some((span.join(" "), after)).filter(|(name, _)| is_known(name))) {
            Some((name, after)) => {
                named.extend((name != fold(own) && !named.contains(&name)).then_some(name));
                rest = after;
            }
            None => rest = &rest[1..],
        }
    }
    named
}

/// A glass of a gram of each: how much of it is added is no matter of its allergens.
fn glass_of(named: &[String], house: &House) -> Option<(Assessment, Vec<Diagnostic>)> {
    let parts: Vec<String> = named.iter().map(|name| format!("{} = \"1 g\"\n", key(name))).collect();
    let text = format!("name = \"for a guest\"\nhow = \"built\"\n[parts]\n{}", parts.concat());
    judged(&card::read_by("for a guest".into(), text.into(), &house.customs()).0?, house)
}
