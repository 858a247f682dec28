//! The embedded larder against its own tables and against independent ones.

use std::collections::HashMap;

use stillroom::larder::{Form, Larder};
use stillroom::mixture::acidity::ph;
use stillroom::mixture::{Component, Mixture};
use stillroom::units::{celsius, in_grams, in_kg_per_m3};
use stillroom::vocabulary::Tag;

fn rows(csv: &str) -> Vec<HashMap<String, String>> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(csv.as_bytes());
    reader.deserialize().map(|row| row.expect("a row")).collect()
}

fn number(row: &HashMap<String, String>, column: &str) -> f64 {
    row[column].parse().unwrap_or_else(|_| panic!("{column} of {row:?}"))
}

fn per_100g(id: &str) -> Mixture {
    Larder::built_in().find(id).unwrap_or_else(|| panic!("no {id}")).per_gram * 100.0
}

const COMPOSITION: &str = include_str!("../../src/larder/data/composition.csv");

#[test]
fn every_row_loads_and_its_mass_closes() {
    let table = rows(COMPOSITION);
    assert_eq!(table.len(), 90);
    for row in &table {
        assert_eq!(Larder::built_in().find(&row["id"]).expect("found").id, row["id"]);
    }
    assert_eq!(Larder::built_in().iter().count(), 90 + 29);
    for ingredient in Larder::built_in().iter() {
        let sum = 100.0 * ingredient.per_gram.total_grams();
        assert!((sum - 100.0).abs() < 1e-9, "{}: {sum}", ingredient.id);
        assert!(Component::ALL.iter().all(|&c| ingredient.per_gram.grams_of(c) >= 0.0), "{}", ingredient.id);
        assert!(!ingredient.status.as_str().is_empty() && !ingredient.source.is_empty(), "{}", ingredient.id);
    }
}

#[test]
fn components_are_those_of_the_table() {
    for row in rows(COMPOSITION) {
        let mixture = per_100g(&row["id"]);
        let sum = number(&row, "sum_g").max(100.0);
        for &component in Component::ALL {
            let Some(written) = row.get(&format!("{}_g", component.key())) else { continue };
            if component == Component::Ash && row["id"] == "salt" {
                assert_eq!(mixture.grams_of(Component::Salt), 99.8);
                continue;
            }
            let expected = written.parse::<f64>().unwrap() * 100.0 / sum;
            // a printed sum is rounded to 0.01
            assert!((mixture.grams_of(component) - expected).abs() < 0.011, "{} {component:?}", row["id"]);
        }
        let acid = mixture.grams_of_all(&Component::ACIDS);
        assert!((acid - number(&row, "acid_g") * 100.0 / sum).abs() < 0.011, "{}", row["id"]);
    }
}

#[test]
fn every_name_finds_one_ingredient() {
    for ingredient in Larder::built_in().iter() {
        for name in ingredient.all_names() {
            let found = Larder::built_in().find(name).expect("found");
            assert_eq!(found.id, ingredient.id, "`{name}` names two ingredients");
            let shouted = name.to_uppercase().replace(' ', "-");
            assert_eq!(Larder::built_in().find(&shouted).expect("found").id, ingredient.id);
        }
    }
}

#[test]
fn names_that_people_write() {
    for (name, id) in [
        ("White sugar", "sugar-granulated"),
        ("caster sugar", "sugar-granulated"),
        ("dark muscovado sugar", "sugar-muscovado-dark"),
        ("light muscovado", "sugar-muscovado-light"),
        ("Demerara sugar", "sugar-turbinado"),
        ("overproof white rum", "rum-overproof-63"),
        ("white rum", "rum-white-40"),
        ("cloves", "clove"),
        ("whole cloves", "clove"),
        ("lime zest", "lime-peel"),
        ("limes", "lime"),
        ("fresh lime juice", "lime-juice"),
        ("citric", "citric-acid"),
        ("vodka", "vodka-40"),
        ("acacia", "gum-arabic"),
        ("sea salt", "salt"),
        ("cinnamon", "cassia-cinnamon"),
        ("raspberries", "raspberry"),
        ("almonds", "almonds"),
        ("water", "water"),
    ] {
        assert_eq!(Larder::built_in().find(name).map(|i| i.id.as_str()), Some(id), "{name}");
    }
    assert_eq!(Larder::built_in().suggest("demmerara sugar"), Some("demerara sugar"));
    assert!(Larder::built_in().find("unobtainium").is_none());
    assert!(Larder::built_in().suggest("zzzz").is_none());
}

/// The tolerances of the header: 3 g for water and sugars, 2 g for acid, 7 g for fat of nuts and eggs, 13 g of
/// water for ginger. It gives none for protein, ash and ethanol: the 3 g of the bulk are used there.
#[test]
fn independent_national_tables_agree() {
    let table = rows(include_str!("../reference/larder-crosscheck.csv"));
    assert_eq!(table.len(), 27);
    for row in table {
        let mixture = per_100g(&row["id"]);
        let quantity = row["quantity"].as_str();
        let (value, tolerance) = match quantity {
            "total sugars" => (mixture.sugar_grams(), 3.0),
            "acid" => (mixture.grams_of_all(&Component::ACIDS), 2.0),
            "fat" => (mixture.grams_of(Component::Fat), 7.0),
            "water" if row["id"] == "ginger-root" => (mixture.grams_of(Component::Water), 13.0),
            other => (mixture.grams_of(Component::from_key(other).expect("a component")), 3.0),
        };
        let difference = value - number(&row, "independent");
        assert!(difference.abs() <= tolerance, "{} {quantity}: {difference}", row["id"]);
        // and the difference is the one that the table prints (rows above 100 g are scaled by up to 0.5 %)
        assert!((difference - number(&row, "difference")).abs() < 0.5, "{} {quantity}: {difference}", row["id"]);
    }
}

#[test]
fn brix_of_juices_is_plausible() {
    let table = rows(include_str!("../reference/larder-brix-check.csv"));
    assert_eq!(table.len(), 7);
    for row in table {
        let juice = per_100g(&row["id"]);
        let solids = juice.solids_grams();
        assert!((solids - number(&row, "soluble_solids_g_per_100g")).abs() < 0.02, "{}: {solids}", row["id"]);
        let brix = 100.0 * solids / (solids + juice.grams_of(Component::Water));
        assert!((brix - number(&row, "soluble_solids_pct_of_juice")).abs() < 0.011, "{}: {brix}", row["id"]);
        assert!((brix - number(&row, "legal_average_brix")).abs() <= 3.1, "{}: {brix}", row["id"]);
    }
}

/// The check table of the pH model, here through the larder: its cations and its pH.
#[test]
fn juices_of_the_larder_have_the_ph_of_the_check_table() {
    let table = rows(include_str!("../reference/acid-juices.csv"));
    assert_eq!(table.len(), 8);
    for row in table {
        let juice = Larder::built_in().find(&row["id"]).expect("a juice").per_gram;
        let water_kg = juice.grams_of(Component::Water) / 1000.0;
        let cations = juice.bound_cations_eq[1] / water_kg;
        assert!((cations - number(&row, "strong_cation_eq_per_kg_water")).abs() < 0.0001, "{}: {cations}", row["id"]);
        match ph::estimate(&juice, celsius(25.0)) {
            Ok(estimate) => {
                let miss = estimate.value.get() - number(&row, "ph_model_k07");
                assert!(miss.abs() <= 0.02, "{}: {miss}", row["id"]);
            }
            // Two berries have more than 1 % of protein.
            Err(no) => assert_eq!((no, row["id"].ends_with("berry")), (ph::NoPh::Protein, true), "{}", row["id"]),
        }
    }
}

/// Dry weight of a gram of it, by mass alone: solids stay, water leaves.
#[test]
fn dried_wheels_weigh_what_the_table_says() {
    let ids = HashMap::from([
        ("lemon whole wheel", "lemon"),
        ("lime flesh+peel wheel", "lime"),
        ("orange wheel", "orange"),
        ("grapefruit wheel", "grapefruit"),
        ("pineapple slice", "pineapple"),
        ("strawberry slice", "strawberry"),
        ("ginger slice", "ginger-root"),
    ]);
    let mut checked = 0;
    for row in rows(include_str!("../reference/larder-drying.csv")) {
        let Some(id) = ids.get(row["item"].as_str()) else { continue };
        let fresh = per_100g(id);
        let solids = 100.0 - fresh.grams_of(Component::Water);
        let dry = solids / (1.0 - number(&row, "moisture_dry_pct") / 100.0);
        assert!((dry - number(&row, "yield_g_per_100g_fresh")).abs() <= 0.01, "{row:?}: {dry}");
        checked += 1;
    }
    assert_eq!(checked, 19);
}

#[test]
fn pieces_follow_from_the_yields() {
    for row in rows(include_str!("../reference/larder-yield.csv")) {
        let piece = |name: &str| in_grams(Larder::built_in().find(name).unwrap().piece.expect("a piece"));
        let item = row["item"].as_str();
        match row["product"].as_str() {
            "juice" => {
                let whole = number(&row, "edible_fruit_g") / (1.0 - number(&row, "refuse_pct") / 100.0);
                assert!((piece(item) - whole).abs() < 0.001, "{item}: {whole}");
                let juice = piece(&format!("{item} juice"));
                assert_eq!(juice, number(&row, "product_g"));
                assert!((100.0 * juice / whole - number(&row, "yield_pct")).abs() <= 0.5, "{item}");
            }
            "white, one large" => assert_eq!(piece("egg white"), number(&row, "product_g")),
            "yolk, one large" => assert_eq!(piece("egg yolk"), number(&row, "product_g")),
            _ => {}
        }
    }
}

#[test]
fn cups_and_spoons_of_solids_weigh_what_the_table_says() {
    let mut checked = 0;
    for row in rows(include_str!("../reference/larder-bulk.csv")) {
        let ml = match row["measure"].as_str() {
            "cup" | "cup packed" | "cup whole" => 236.588,
            "tsp" => 4.929,
            "bulk g/mL" => 1.0,
            _ => continue,
        };
        let ingredient = Larder::built_in().find(&row["id"]);
        let Some(bulk) = ingredient.filter(|i| i.form == Form::Solid).and_then(|i| i.bulk_density) else { continue };
        let grams = in_kg_per_m3(bulk) / 1000.0 * ml;
        // a spoon is printed to 0.1 g and its sample is another than that of the cup
        let tolerance = if row["measure"] == "tsp" { 0.4 } else { 0.01 };
        assert!((grams - number(&row, "grams")).abs() <= tolerance, "{row:?}: {grams}");
        checked += 1;
    }
    assert_eq!(checked, 11);
}

#[test]
fn what_is_not_known_stays_unknown() {
    let of = |id: &str| Larder::built_in().find(id).unwrap().per_gram;
    // blank minerals
    assert!((of("sugar-muscovado-dark").unaccounted_ash_g - 0.02).abs() < 1e-12);
    assert!((of("molasses-blackstrap").unaccounted_ash_g - 0.105).abs() < 1e-12);
    assert!(of("lime").unaccounted_ash_g > 0.1);
    // minerals without an acid
    assert!(of("honey").unaccounted_ash_g > 0.0 && of("honey").unaccounted_cations_eq > 0.0);
    // both known
    assert_eq!(of("lemon-juice").unaccounted_ash_g, 0.0);
    assert!(of("lemon-juice").bound_cations_eq[1] > 0.0);
    // nothing to know
    for id in ["citric-acid", "rum-overproof-63", "water", "dextrose-monohydrate", "clove", "salt"] {
        assert_eq!((of(id).unaccounted_ash_g, of(id).unaccounted_cations_eq), (0.0, 0.0), "{id}");
    }
    assert!((of("salt").sodium_mol - 0.38758 / 22.9898).abs() < 1e-9);
    let gum = of("gum-arabic");
    assert_eq!(gum.grams_of(Component::Fibre), 0.0);
    assert!((gum.grams_of(Component::OtherCarbohydrate) - 0.843).abs() < 1e-12);
}

#[test]
fn only_dry_spice_and_peel_hold_by_default() {
    for ingredient in Larder::built_in().iter() {
        if ingredient.holds.is_some() {
            assert_eq!(ingredient.form, Form::Solid);
            let status = ingredient.holds_status.as_deref().unwrap_or_default();
            assert!(status.starts_with("common practice, no source"), "{}", ingredient.id);
        }
    }
    for id in ["raspberry", "almonds", "ginger-root", "mint-spearmint", "lime"] {
        assert!(Larder::built_in().find(id).unwrap().holds.is_none(), "{id}");
    }
    assert_eq!(Larder::built_in().find("clove").unwrap().holds, Some(1.2));
}

#[test]
fn allergens_and_tags_of_what_carries_them() {
    let of = |id: &str| Larder::built_in().find(id).unwrap();
    assert_eq!(of("almonds").allergens, ["tree nut (almond)"]);
    assert_eq!(of("whole milk").allergens, ["milk"]);
    assert_eq!(of("egg white").allergens, ["egg"]);
    assert_eq!(of("lecithin").allergens, ["soya"]);
    assert!(of("lime juice").tags.contains(&Tag::RawJuice.into()));
    assert!(of("cinnamon").tags.contains(&Tag::Cassia.into()));
}
