//! The embedded tables of ingredients.

use super::*;
use crate::vocabulary::{Allergen, Word};

#[test]
fn every_row_of_the_tables_has_its_ingredient_its_status_and_known_allergens() {
    let composition = composition();
    let ids: Vec<&str> = composition.iter().map(CompositionRow::id).collect();
    assert!(composition.iter().all(|row| row.status().is_some() && row.cell("source").is_some()));
    let names: Vec<NamesRow> = rows("names.csv", include_str!("../../src/larder/data/names.csv"));
    let measures: Vec<MeasuresRow> = rows("measures.csv", include_str!("../../src/larder/data/measures.csv"));
    for id in names.iter().map(|n| &n.id).chain(measures.iter().map(|m| &m.id)) {
        assert!(ids.contains(&id.as_str()), "{id}");
    }
    for allergen in names.iter().flat_map(|n| n.allergens.iter()) {
        assert!(Allergen::parse(allergen).is_some(), "{allergen}");
    }
}
