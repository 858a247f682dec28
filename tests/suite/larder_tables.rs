//! The embedded tables of ingredients, line by line, against what the larder gives.

use std::collections::{HashMap, HashSet};

use crate::kitchen::{Kitchen, close};
use crate::table::{Row, rows_of};
use stillroom::larder::{Form, Larder};
use stillroom::mixture::Component;
use stillroom::properties::{TargetKind, value_of};
use stillroom::solver::Options;
use stillroom::spelling::fold;
use stillroom::vocabulary::{Allergen, Kind, Status, Word};

/// The tables of compositions.
fn sheets() -> Vec<Row> {
    let texts = [
        include_str!("../../src/larder/data/composition.csv"),
        include_str!("../../src/larder/data/dry-goods.csv"),
        include_str!("../../src/larder/data/composition-second.csv"),
    ];
    texts.into_iter().flat_map(rows_of).collect()
}

#[test]
fn every_row_of_the_tables_has_its_ingredient_its_status_and_known_allergens() {
    let sheets = sheets();
    let composed: HashSet<&str> = sheets.iter().map(|row| row.text("id")).collect();
    for row in &sheets {
        let id = row.text("id");
        assert!(!row.text("source").is_empty() && Status::parse(row.text("status")).is_some(), "{id}");
        let made = Larder::built_in().find(id).unwrap_or_else(|| panic!("{id}"));
        assert_eq!(
            (made.id.as_str(), made.name.as_str(), made.status.as_str()),
            (id, row.text("name"), row.text("status"))
        );
    }
    for (table, text) in [
        ("about.csv", include_str!("../../src/larder/data/about.csv")),
        ("names.csv", include_str!("../../src/larder/data/names.csv")),
        ("measures.csv", include_str!("../../src/larder/data/measures.csv")),
        ("sugars.csv", include_str!("../../src/larder/data/sugars.csv")),
        ("alkalis.csv", include_str!("../../src/larder/data/alkalis.csv")),
    ] {
        let rows = rows_of(text);
        let ids: Vec<&str> = rows.iter().map(|row| row.text("id")).collect();
        assert!(ids.is_sorted() || table == "alkalis.csv", "{table} is searched by halving");
        for id in ids.into_iter().filter(|id| !id.is_empty()) {
            assert!(composed.contains(id), "{table}: {id}");
        }
    }
    for row in rows_of(include_str!("../../src/larder/data/about.csv")) {
        let allergens = row.text("allergens").split(';').map(str::trim).filter(|allergen| !allergen.is_empty());
        let allergens: Vec<&str> = allergens.collect();
        assert!(allergens.iter().all(|allergen| Allergen::parse(allergen).is_some()), "{allergens:?}");
        assert_eq!(Larder::built_in().find(row.text("id")).unwrap().allergens, allergens);
    }
}

#[test]
fn no_id_name_or_alias_stands_twice() {
    let sheets = sheets();
    assert_eq!(sheets.len(), 90 + 18 + 843 + 12 + 4 + 264);
    assert_eq!(sheets.iter().map(|row| row.text("id")).collect::<HashSet<_>>().len(), sheets.len());
    assert_eq!(Larder::built_in().iter().count(), sheets.len());
    let mut of: HashMap<String, String> = HashMap::new();
    for ingredient in Larder::built_in().iter() {
        for name in ingredient.all_names() {
            let other = of.insert(fold(name), ingredient.id.clone());
            assert!(other.as_ref().is_none_or(|id| *id == ingredient.id), "`{name}` of {} is {other:?}", ingredient.id);
        }
    }
}

/// Every name stands folded in the table of keys, and nothing else does.
#[test]
fn the_keys_are_the_names_folded() {
    let table = rows_of(include_str!("../../src/larder/data/keys.csv"));
    assert!(table.is_sorted_by(|a, b| a.text("key").as_bytes() < b.text("key").as_bytes()));
    let keys: HashMap<&str, &str> = table.iter().map(|row| (row.text("key"), row.text("id"))).collect();
    let folded: HashMap<String, &str> =
        Larder::built_in().iter().flat_map(|i| i.all_names().map(|name| (fold(name), i.id.as_str()))).collect();
    let missing: Vec<_> = folded.iter().filter(|(key, id)| keys.get(key.as_str()) != Some(*id)).collect();
    assert!(missing.is_empty(), "keys.csv needs {missing:?}");
    let idle: Vec<_> = keys.keys().filter(|key| !folded.contains_key(**key)).collect();
    assert!(idle.is_empty(), "nothing is called {idle:?}");
}

/// What is offered for an everyday name has that name; the name by itself is of nothing, or of a drink beside a plant.
#[test]
fn what_a_name_may_mean_is_known() {
    let larder = Larder::built_in();
    let rows = rows_of(include_str!("../../src/larder/data/which.csv"));
    assert!(rows.len() > 3, "{}", rows.len());
    for row in rows {
        if let Some(known) = larder.find(row.text("name")) {
            let is_plant = |name: &str| larder.find(name).is_some_and(|i| i.kind == Some(Kind::Flower));
            let beside = row.text("which").split(';').map(str::trim).any(is_plant);
            assert!(known.form == Form::Liquid && beside, "{} is a name already", row.text("name"));
        }
        for name in row.text("which").split(';').map(str::trim) {
            assert!(larder.find(name).is_some(), "{}: {name}", row.text("name"));
        }
    }
}

/// What a row has under a heading, where its table has that heading.
fn cell(row: &Row, column: &str) -> f64 {
    if row.has(column) { row.maybe(column).unwrap_or(0.0) } else { 0.0 }
}

/// The columns add to what the row prints, and to about 100; a gram of it has what the columns say.
#[test]
fn every_composition_closes() {
    for row in sheets() {
        let id = row.text("id");
        let of_columns = |&c: &Component| (c, cell(&row, &format!("{}_g", c.key())));
        let columns: Vec<(Component, f64)> = Component::ALL.iter().map(of_columns).collect();
        let sum = columns.iter().map(|(_, g)| g).sum::<f64>() + cell(&row, "other_carb_g") + cell(&row, "acid_g");
        if row.has("sum_g")
            && let Some(printed) = row.maybe("sum_g")
        {
            assert!((95.0..=101.0).contains(&printed), "{id}: {printed}");
            assert!((sum - printed).abs() < 0.06, "{id}: {sum} for {printed}");
        }
        let gram = Larder::built_in().find(id).unwrap().per_gram;
        close(gram.total_grams(), 1.0, 1e-9);
        assert!(Component::ALL.iter().all(|&c| gram.grams_of(c) >= 0.0), "{id}");
        let plain = [Component::Water, Component::Sucrose, Component::Fructose, Component::Ethanol, Component::Ash];
        for (component, g) in columns.iter().filter(|(c, _)| plain.contains(c)) {
            let is = 100.0 * gram.grams_of(*component);
            assert!((is - g * 100.0 / sum.max(100.0)).abs() < 1e-6, "{id}: {is} {component:?} for {g} of {sum}");
        }
    }
}

#[test]
fn a_bottle_has_the_strength_of_its_name() {
    for (name, abv) in [
        ("white rum 54%", 54.0),
        ("white rum 54 %", 54.0),
        ("vodka (47.5 %)", 47.5),
        ("63% white rum", 63.0),
        ("white wine 11%", 11.0),
    ] {
        let bottle = Larder::built_in().find(name).unwrap_or_else(|| panic!("{name}"));
        close(value_of(TargetKind::Abv, &bottle.per_gram).unwrap(), abv, 1e-6);
    }
    for none in ["white wine 99%", "lime juice 40%", "white rum 200%", "white rum x%"] {
        assert!(Larder::built_in().find(none).is_none(), "{none}");
    }
}

/// What a table of foods has as carbohydrate without its sugars is sugar all the same: marmalade is three fifths of it.
#[test]
fn sugar_without_its_kinds_counts_as_sugar() {
    for row in rows_of(include_str!("../../src/larder/data/sugars.csv")) {
        let made = Larder::built_in().find(row.text("id")).unwrap();
        let range = made.sugar_range.unwrap();
        assert!(0.0 < range.low && range.low <= range.high && !row.text("source").is_empty(), "{}", made.id);
        assert!((made.per_gram.sugar_grams() - range.middle()).abs() < 1e-3, "{}", made.id);
        // no more than its carbohydrate
        assert!(made.per_gram.grams_of(Component::OtherCarbohydrate) >= range.half_width() - 1e-3, "{}", made.id);
        assert!((made.per_gram.total_grams() - 1.0).abs() < 1e-9, "{}", made.id);
    }
    // 370 g at 57 to 65 g in 100 g, and 100 g of sugar: 311 to 341 g in 596 ml are 522 to 571 g/L
    let card = "name = \"T\"\n[parts]\nmarmalade = \"370 g\"\nwater = \"250 ml\"\nsugar = \"100 g\"\n";
    let made = Kitchen::unstated("").solve(card, &Options::default());
    let by = made.sheet().doubt.iter().find(|doubt| doubt.kind == TargetKind::Sugar).unwrap().half_width;
    let sugar = made.is(TargetKind::Sugar);
    assert!((540.0..=560.0).contains(&sugar) && (25.0..=45.0).contains(&by), "{sugar:.0} ± {by:.0} g/L");
}

/// What a fruit is told to hold of acid is in it, however many minerals it has: none of them counts as an alkali.
#[test]
fn no_ingredient_with_acid_takes_acid_from_another() {
    for ingredient in Larder::built_in().iter() {
        let gram = &ingredient.per_gram;
        let is_sour = gram.grams_of_all(&Component::ACIDS) > 0.0;
        assert!(!is_sour || gram.titratable_acid_grams() > 0.0, "{}", ingredient.id);
    }
    // the table has 0.6 g as citric acid in 100 g
    let figs = Larder::built_in().find("dried figs").unwrap().per_gram;
    close(figs.titratable_acid_grams(), 0.006, 1e-4);
    // by hand: 51 g of lemon juice at 4.6 % and 300 g of figs at 0.6 % bring 4.1 g into 0.72 L
    let made = Kitchen::new("").makes(
        "name = \"Figs\"\n[parts]\n\"dried figs\" = \"300 g\"\nwater = \"450 ml\"\n\"lemon juice\" = \"50 ml\"\n",
    );
    let acid = value_of(TargetKind::Acid, made.solved.as_ref().unwrap().bottled()).unwrap();
    close(acid, 5.7, 0.3);
}

/// Whole citrus: what of it is juice or flesh, and peel for the rest, by their own rows.
#[test]
fn whole_citrus_has_the_acid_and_the_minerals_of_what_it_is_made_of() {
    let of = |id: &str| Larder::built_in().find(id).unwrap_or_else(|| panic!("{id}")).per_gram;
    for (fruit, inside, share, peel) in [
        ("lime", "lime juice", 0.42, "lemon peel"),
        ("lemon", "lemon juice", 0.38, "lemon peel"),
        ("orange", "orange-flesh", 0.73, "orange peel"),
        ("grapefruit", "grapefruit-flesh", 0.51, "orange peel"),
        ("seville orange", "orange-flesh", 0.73, "orange peel"),
    ] {
        let reckoned = of(inside) * share + of(peel) * (1.0 - share);
        let held = [of(fruit), reckoned].map(|of| of.bound_cations_eq[2]);
        close(held[0], held[1], 1e-6);
        let acid = [of(fruit), reckoned].map(|of| of.grams_of_all(&Component::ACIDS));
        close(acid[0], acid[1], 1e-4);
    }
}
