//! What of a product was heated, and to what: by the key of its pan, and not what its steps put in behind the heat.

use uom::si::time::minute;

use crate::card::{Card, Stage};
use crate::house::House;
use crate::paste;
use crate::safety::steps;
use crate::shelf_life::heat::Curve;
use crate::shelf_life::{Filled, Product, data};
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::units::told::first_told;
use crate::units::{Literal, degrees_celsius};

use super::nature;

/// Sugar dissolved at or above this is as clean as its bottle, °C (ours; pasteurising begins about here).
pub(super) const HOT_C: f64 = 60.0;

/// Whether the pan of a stage was hot.
pub(super) fn hot(stage: &Stage) -> bool {
    stage.heated.is_some_and(|h| degrees_celsius(h.value.to) >= HOT_C)
}

/// A clause that heats, by its verb or by the degrees that it tells.
pub(super) fn is_hot_clause(text: &str) -> bool {
    let reading = |literal| matches!(literal, Literal::Temperature(t) if degrees_celsius(t) >= HOT_C).then_some(());
    steps::heats_all(text) || first_told(&text.split_whitespace().collect::<Vec<_>>(), reading).is_some()
}

/// Whether the whole was heated as its pH asks: five decades of the pathogens of acidified food.
pub(super) fn five_log(product: &Product, heating: Option<&Curve>) -> bool {
    let process = data::tables().heat.for_ph(product.ph_up);
    heating.zip(process).is_some_and(|(heating, process)| process.fulfilled(heating) >= 1.0)
}

/// The heating of the finished product, of which nothing was put in cold.
pub(super) fn heating(card: &Card) -> Option<Curve> {
    let heated = card.last.heated?.value;
    Some(Curve::hold(degrees_celsius(heated.to), heated.hold?.get::<minute>()))
}

/// What only heat makes clean.
pub(super) fn raw_parts(solved: &Solved) -> Vec<&SolvedPart> {
    let needs_heat = |part: &&SolvedPart| match &part.found.what {
        Material::Ingredient(ingredient) => nature::of(ingredient).unheated >= Filled::ColdPlant,
        Material::Stage(_) | Material::Card(_) => false,
    };
    solved.last().parts.iter().filter(|part| part.mass_g > 0.0).filter(needs_heat).collect()
}

/// What of it the steps put in once the pan was hot.
pub(super) fn put_in_cold<'s>(solved: &'s Solved, house: &House) -> Vec<&'s SolvedPart> {
    let raw = raw_parts(solved);
    if !hot(&solved.card.last) || raw.is_empty() {
        return Vec::new();
    }
    let late = paste::put_in_behind(&solved.card, house, is_hot_clause);
    let is_late = |part: &&SolvedPart| late.iter().any(|late| late.label.value == part.label);
    raw.into_iter().filter(is_late).collect()
}
