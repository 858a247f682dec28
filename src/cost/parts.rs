//! The lines of the ingredients.

use std::collections::HashMap;

use rust_decimal::Decimal;

use crate::larder::Ingredient;
use crate::solver::Solved;
use crate::solver::resolve::Material;
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
    let mut all: Vec<(&Ingredient, f64)> = Vec::new();
    for (ingredient, grams) in solved.ingredients() {
        let place = *places.entry(ingredient.id.as_str()).or_insert(all.len());
        match all.get_mut(place) {
            Some(so_far) => so_far.1 += grams,
            None => all.push((ingredient, grams)),
        }
    }
    let lines = all.into_iter().map(|(ingredient, grams)| {
        let id = ingredient.id.as_str();
        let line = part(names.get(id).unwrap_or(&id), ingredient, grams, book, assumed);
        (id, CostLine { grams: Some(grams), ..line })
    });
    lines.collect()
}

/// What the cards call each ingredient, by its id; the first that names it counts.
fn names_on_cards(solved: &Solved) -> HashMap<&str, &str> {
    let mut names = HashMap::new();
    for part in solved.with_inner().into_iter().flat_map(|(card, _)| &card.stages).flat_map(|s| &s.parts) {
        if let Material::Ingredient(ingredient) = &part.found.what {
            names.entry(ingredient.id.as_str()).or_insert(part.of.as_str());
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
