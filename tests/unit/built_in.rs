//! The embedded tables of ingredients.

use std::collections::{HashMap, HashSet};

use super::*;
use crate::spelling::fold;
use crate::vocabulary::Allergen;

fn ids(sheet: &LongTable) -> Vec<String> {
    sheet.rows().map(|row| row.text("id").to_owned()).collect()
}

fn composed() -> Vec<String> {
    TABLES.sheets.iter().flat_map(|(sheet, _)| ids(sheet)).collect()
}

fn ingredients() -> impl Iterator<Item = &'static Ingredient> {
    (0..count()).filter_map(at)
}

#[test]
fn every_row_of_the_tables_has_its_ingredient_its_status_and_known_allergens() {
    let composed = composed();
    for row in TABLES.sheets.iter().flat_map(|(sheet, _)| sheet.rows()) {
        assert!(!row.text("source").is_empty(), "{}", row.text("id"));
        status(&row);
    }
    for table in ["about.csv", "names.csv", "measures.csv", "alkalis.csv"] {
        let text = match table {
            "about.csv" => include_str!("../../src/larder/data/about.csv"),
            "names.csv" => include_str!("../../src/larder/data/names.csv"),
            "measures.csv" => include_str!("../../src/larder/data/measures.csv"),
            _ => include_str!("../../src/larder/data/alkalis.csv"),
        };
        let is_sorted = body(text).lines().is_sorted_by(|a, b| first_cell(a) <= first_cell(b));
        assert!(is_sorted || table == "alkalis.csv", "{table} is searched by halving");
        for id in ids(&LongTable::read(table, text)).iter().filter(|id| !id.is_empty()) {
            assert!(composed.contains(id), "{table}: {id}");
        }
    }
    for row in TABLES.about.rows() {
        for allergen in row.items("allergens") {
            assert!(Allergen::parse(allergen).is_some(), "{allergen}");
        }
    }
}

#[test]
fn no_id_name_or_alias_stands_twice() {
    let composed = composed();
    assert_eq!(composed.len(), 90 + 17 + 843 + 12 + 4 + 250);
    assert_eq!(composed.iter().collect::<HashSet<_>>().len(), composed.len());
    let mut of: HashMap<String, String> = HashMap::new();
    for ingredient in ingredients() {
        for name in ingredient.all_names() {
            let other = of.insert(fold(name), ingredient.id.clone());
            assert!(other.as_ref().is_none_or(|id| *id == ingredient.id), "`{name}` of {} is {other:?}", ingredient.id);
        }
    }
}

/// Every name stands folded in the table of keys, and nothing else does.
#[test]
fn the_keys_are_the_names_folded() {
    let table = LongTable::read("keys.csv", include_str!("../../src/larder/data/keys.csv"));
    let keys: HashMap<String, String> =
        table.rows().map(|row| (row.text("key").to_owned(), row.text("id").to_owned())).collect();
    assert!(TABLES.keys.lines().is_sorted_by(|a, b| first_cell(a) < first_cell(b)));
    let folded: HashMap<String, &str> =
        ingredients().flat_map(|i| i.all_names().map(|name| (fold(name), i.id.as_str()))).collect();
    let missing: Vec<_> =
        folded.iter().filter(|(key, id)| keys.get(key.as_str()).map(String::as_str) != Some(*id)).collect();
    assert!(missing.is_empty(), "keys.csv needs {missing:?}");
    let idle: Vec<_> = keys.keys().filter(|key| !folded.contains_key(*key)).collect();
    assert!(idle.is_empty(), "nothing is called {idle:?}");
}

/// What is offered for an everyday name has that name, and the name by itself is of nothing.
#[test]
fn what_a_name_may_mean_is_known() {
    let larder = crate::larder::Larder::built_in();
    for row in crate::larder::WHICH.iter() {
        assert!(larder.find(&row.name).is_none(), "{} is a name already", row.name);
        for name in row.which.iter() {
            assert!(larder.find(name).is_some(), "{}: {name}", row.name);
        }
    }
}

/// The columns add to what the row prints, and to about 100.
#[test]
fn every_composition_closes() {
    for (sheet, columns) in &TABLES.sheets {
        for row in sheet.rows() {
            let analysis = analysis(&row, columns, &status(&row));
            let sum = analysis.grams.total_grams();
            if let Some(printed) = row.number("sum_g") {
                assert!((95.0..=101.0).contains(&printed), "{}: {printed}", row.text("id"));
                assert!((sum - printed).abs() < 0.06, "{}: {sum} for {printed}", row.text("id"));
            }
            assert!(Component::ALL.iter().all(|&c| analysis.grams.grams_of(c) >= 0.0), "{}", row.text("id"));
        }
    }
}
