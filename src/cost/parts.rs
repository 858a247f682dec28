//! The lines of the ingredients.

use std::collections::HashMap;

use rust_decimal::Decimal;

use crate::larder::Ingredient;
use crate::solver::resolve::Material;
use crate::solver::{IceWater, Solved, SolvedPart};
use crate::units::display::percent_text;

use super::book::{Book, PriceFound};
use super::currency::Currency;
use super::line::{CostKind, CostLine, missing, priced};
use super::usable::{per_usable_kg, usable_kg_text};

/// One line an ingredient (its id and the line), through all stages and the cards inside, in card order.
pub(super) fn parts<'a>(
    solved: &'a Solved,
    book: &mut Book<'_>,
    assumed: &mut Vec<String>,
) -> Vec<(&'a str, CostLine)> {
    let names = names_on_cards(solved);
    let mut places: HashMap<&str, usize> = HashMap::new();
    let mut all: Vec<(&str, &Ingredient, f64)> = Vec::new();
    for (card, share) in solved.with_inner() {
        for part in card.parts() {
            let Material::Ingredient(ingredient) = &part.found.what else { continue };
            let id = paid_as(part, ingredient);
            let place = *places.entry(id).or_insert(all.len());
            match all.get_mut(place) {
                Some(so_far) => so_far.2 += part.mass_g * share,
                None => all.push((id, ingredient, part.mass_g * share)),
            }
        }
    }
    let lines = all.into_iter().map(|(id, ingredient, grams)| {
        let line = part(names.get(id).unwrap_or(&id), ingredient, grams, book, assumed);
        (id, CostLine { grams: Some(grams), ..line })
    });
    lines.collect()
}

/// Under what a part is paid for: what melts into a drink is not the water of its syrups.
pub(super) fn paid_as<'a>(part: &'a SolvedPart, ingredient: &'a Ingredient) -> &'a str {
    if part.melts.is_some() { IceWater::LABEL } else { &ingredient.id }
}

/// What the cards call each ingredient, by its id; the first that names it counts.
fn names_on_cards(solved: &Solved) -> HashMap<&str, &str> {
    let mut names = HashMap::new();
    for part in solved.with_inner().into_iter().flat_map(|(card, _)| &card.stages).flat_map(|s| &s.parts) {
        if let Material::Ingredient(ingredient) = &part.found.what {
            names.entry(paid_as(part, ingredient)).or_insert(part.of.as_str());
        }
    }
    names
}

fn part(name: &str, ingredient: &Ingredient, grams: f64, book: &mut Book<'_>, assumed: &mut Vec<String>) -> CostLine {
    let nothing = |basis: &str| CostLine {
        of: name.to_owned(),
        cost: Some(Decimal::ZERO),
        basis: basis.to_owned(),
        ..CostLine::default()
    };
    match book.price_of(ingredient) {
        PriceFound::Free => nothing("free"),
        PriceFound::Water => {
            assumed.push("water costs nothing: [costs] states no price of it".to_owned());
            nothing("costs nothing")
        }
        PriceFound::None(why) => missing(CostKind::Part, name, why),
        PriceFound::At(price, written) => match book.charge_grams(ingredient, price, grams) {
            Ok(charge) => {
                let per_usable_kg = per_usable_kg(ingredient, &price);
                let basis = written + &yields(ingredient, price.currency, per_usable_kg);
                CostLine { per_usable_kg, ..priced(CostKind::Part, name, price.currency, charge, basis) }
            }
            Err(why) => missing(CostKind::Part, name, why),
        },
    }
}

fn yields(ingredient: &Ingredient, currency: Currency, per_usable_kg: Option<Decimal>) -> String {
    let usable = ingredient.usable.map_or_else(String::new, |share| format!(", {} usable", percent_text(share)));
    let costs = per_usable_kg.map_or_else(String::new, |cost| format!(" = {}", usable_kg_text(currency, cost)));
    usable + &costs
}
