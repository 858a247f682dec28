//! Published worked examples written as cards and brought through the whole chain. Where a source is wrong the
//! answer must not agree with it.

use std::collections::{BTreeSet, HashMap};

use crate::kitchen::{Kitchen, Made, close};
use crate::table::{Row, rows};
use stillroom::card::TargetKind::{Abv, Brix};
use stillroom::card::{Amount, Makes};
use stillroom::solver::{BatchSize, Options};
use stillroom::units::{celsius, grams, in_grams, in_kg_per_m3, readers};

const FL_OZ_ML: f64 = 29.5735295625;
const CUP_ML: f64 = 236.5882365;
const LB_G: f64 = 453.59237;

struct Inputs(HashMap<String, String>);

impl Inputs {
    fn of(row: &Row) -> Self {
        let pairs = row.text("inputs_unit_in_key").split("; ").map(|pair| pair.split_once('=').unwrap());
        Self(pairs.map(|(k, v)| (k.to_owned(), v.to_owned())).collect())
    }

    fn get(&self, key: &str) -> f64 {
        self.text(key).parse().unwrap()
    }

    fn text(&self, key: &str) -> &str {
        &self.0[key]
    }
}

fn card(head: &str, parts: &[(&str, String)]) -> String {
    let lines: Vec<String> = parts.iter().map(|(part, amount)| format!("\"{part}\" = {amount}")).collect();
    format!("name = \"An example\"\n{head}\n[parts]\n{}\n", lines.join("\n"))
}

fn quoted(amount: impl std::fmt::Display) -> String {
    format!("\"{amount}\"")
}

const NEEDED: &str = "\"as needed\"";

/// Sugar and water to a size and a Brix.
fn syrup(makes: &str, brix: &str) -> Made {
    let head = format!("makes = \"{makes}\"\n[target]\nbrix = {brix}");
    Kitchen::new("[ingredient.sucrose]\nper_100g = { sucrose = 100 }\n")
        .makes(&card(&head, &[("sucrose", NEEDED.to_owned()), ("water", NEEDED.to_owned())]))
}

/// Spirit brought down with water to a size and a strength.
fn diluted(makes: &str, spirit: &str, target: &str) -> Made {
    let head = format!("makes = \"{makes}\"\n[target]\nabv = {target}");
    Kitchen::new(&format!("[ingredient.spirit]\nabv = {spirit}\n"))
        .makes(&card(&head, &[("spirit", NEEDED.to_owned()), ("water", NEEDED.to_owned())]))
}

/// The answer to a row, if its topic is one of those here.
fn answer(row: &Row) -> Option<f64> {
    let i = Inputs::of(row);
    let out = row.text("output_unit_in_name");
    Some(match row.text("topic") {
        // the larder's own cup of sugar weighs 200 g, as the source has it
        "syrup_yield_from_cups" | "syrup_brix_from_cups" => {
            let cups = |key: &str| quoted(format!("{} US cup", i.text(key)));
            let made = Kitchen::new("")
                .makes(&card("", &[("white sugar", cups("sugar_cups")), ("water", cups("water_cups"))]));
            if out == "brix_pct" { made.is(Brix) } else { made.millilitres() / CUP_ML }
        }
        "syrup_mass_volume" => syrup(&format!("{} ml", i.text("volume_ml")), i.text("brix_pct")).grams("sucrose"),
        "syrup_substitution" => {
            let simple = syrup(&format!("{} ml", i.text("from_volume_ml")), i.text("from_brix_pct"));
            let size = BatchSize::From("sucrose".to_owned(), Amount::Mass(grams(simple.grams("sucrose"))));
            let head = format!("makes = \"1 L\"\n[target]\nbrix = {}", i.text("to_brix_pct"));
            let rich = card(&head, &[("sucrose", NEEDED.to_owned()), ("water", NEEDED.to_owned())]);
            let kitchen = Kitchen::new("[ingredient.sucrose]\nper_100g = { sucrose = 100 }\n");
            kitchen.solve(&rich, &Options { size: Some(size), ..Options::default() }).millilitres()
        }
        "boil_off" => {
            let head = format!("[target]\nbrix = {}\n[loss]\nevaporated = \"as needed\"", i.text("target_brix_pct"));
            let juice = quoted(format!("{} kg", i.text("feed_mass_kg")));
            let made = Kitchen::new(&format!("[ingredient.juice]\nbrix = {}\n", i.text("feed_brix_pct")))
                .makes(&card(&head, &[("juice", juice)]));
            made.solved().last().course.evaporated_g / 1000.0
        }
        "alcohol_dilution_mass" => {
            let made =
                diluted(&format!("{} g", i.text("batch_mass_g")), i.text("spirit_abv_pct"), i.text("target_abv_pct"));
            made.grams("spirit")
        }
        "alcohol_dilution_volume" => {
            let makes = format!("{} ml", i.text("batch_volume_ml"));
            let made = diluted(&makes, i.text("spirit_abv_pct"), i.text("target_abv_pct"));
            match out {
                "spirit_mass_g" => made.grams("spirit"),
                "spirit_volume_ml" => made.part("spirit").volume_ml().unwrap(),
                "water_to_add_ml" => made.part("water").volume_ml().unwrap(),
                _ => panic!("{out}"),
            }
        }
        "brix_blend_mass" => {
            let head = format!("makes = \"100 g\"\n[target]\nbrix = {}", i.text("target_brix_pct"));
            let larder = format!(
                "[ingredient.strong]\nbrix = {}\n[ingredient.weak]\nbrix = {}\n",
                i.text("strong_brix_pct"),
                i.text("weak_brix_pct")
            );
            Kitchen::new(&larder)
                .makes(&card(&head, &[("strong", NEEDED.to_owned()), ("weak", NEEDED.to_owned())]))
                .grams("strong")
        }
        // The sheet fills by weight at 20 °C; the rule speaks of a gallon at 60 °F, where spirit is heavier.
        "fill_weight" => {
            let head = format!("makes = \"1 x {} US gal\"", i.text("volume_gal_60F"));
            let kitchen = Kitchen::new(&format!("[ingredient.spirit]\nabv = \"{} US proof\"\n", i.text("proof")));
            let made = kitchen.makes(&card(&head, &[("spirit", NEEDED.to_owned())]));
            let kg_m3 = |t_c: f64| in_kg_per_m3(made.solved().bottled().density(celsius(t_c)).unwrap().value);
            made.sheet().fill.unwrap().each_g * kg_m3((60.0 - 32.0) / 1.8) / kg_m3(20.0) / LB_G
        }
        // the source counts the menstruum in volumes, and its ethanol as pure
        "tincture_menstruum" => {
            let (herb, per) = (i.get("herb_oz"), i.text("ratio").strip_prefix("1:").unwrap().parse::<f64>().unwrap());
            let head = format!("makes = \"{} fl oz\"\n[target]\nabv = {}", herb * per, i.text("menstruum_abv_pct"));
            let kitchen = Kitchen::new("[ingredient.pure]\nabv = 100\n");
            let made = kitchen.makes(&card(&head, &[("pure", NEEDED.to_owned()), ("water", NEEDED.to_owned())]));
            made.part("pure").volume_ml().unwrap() / FL_OZ_ML
        }
        // a dry herb pressed by hand keeps about 1.6 ml a gram, says the source; at 60 % that is 1.45 g
        "tincture_yield" => {
            let herb = format!("{{ amount = \"{} oz wt\", strained = true, holds = 1.45 }}", i.text("herb_oz"));
            let menstruum = quoted(format!("{} fl oz", i.text("menstruum_floz")));
            let kitchen =
                Kitchen::new("[ingredient.menstruum]\nabv = 60\n[ingredient.herb]\nper_100g = { insoluble = 100 }\n");
            kitchen.makes(&card("", &[("menstruum", menstruum), ("herb", herb)])).millilitres() / FL_OZ_ML
        }
        "scale_factor" => {
            let (old, new) = match out {
                "factor" if i.0.contains_key("old_portions") => {
                    (i.get("old_portions") * i.get("old_portion_g"), i.get("new_portions") * i.get("new_portion_g"))
                }
                _ => (i.get("old_yield") * 1000.0, i.get("new_yield") * 1000.0),
            };
            let text = card(
                &format!("makes = \"{old} g\""),
                &[("white sugar", quoted("1 part by weight")), ("water", quoted("2 parts by weight"))],
            );
            let kitchen = Kitchen::new("");
            let size = Some(BatchSize::Makes(Makes::Mass(grams(new))));
            let scaled = kitchen.solve(&text, &Options { size, ..Options::default() });
            let factors = ["white sugar", "water"].map(|part| scaled.grams(part) / kitchen.makes(&text).grams(part));
            close(factors[0], factors[1], 1e-12);
            factors[0]
        }
        _ => return None,
    })
}

#[test]
fn the_worked_examples_of_the_trade() {
    let mut topics = BTreeSet::new();
    let mut disagreed = 0;
    for row in rows("trade-worked-examples") {
        let Some(found) = answer(&row) else { continue };
        topics.insert(row.text("topic").to_owned());
        let (expected, tolerance) = (row.number("expected_value"), row.number("tolerance_abs"));
        let agrees = (found - expected).abs() <= tolerance;
        let said = format!("{} {}: {found} for {expected} ± {tolerance}", row.text("id"), row.text("topic"));
        println!("{said}");
        if row.text("basis") == "published_wrong" {
            disagreed += 1;
            // a little more water than the subtraction says, never less
            assert!(!agrees && found > expected, "must not agree with what is wrong: {said}");
        } else {
            assert!(agrees, "{said}");
        }
    }
    assert_eq!(topics.len(), 12, "{topics:?}");
    assert_eq!(disagreed, 1);
}

/// 4 fl oz of a 64 % rum, 7 fl oz of syrup, 2.5 fl oz of lime juice: without contraction 18.96 % (row E41). The
/// true strength lies within 0.3 of it, and above: volumes shrink.
#[test]
fn a_liqueur_by_volumes_is_nearly_what_it_seems() {
    let row = rows("trade-worked-examples").into_iter().find(|r| r.text("topic") == "liqueur_abv_naive").unwrap();
    let i = Inputs::of(&row);
    let naive = row.number("expected_value");
    for syrup in ["1 part by weight", "2 parts by weight"] {
        let kitchen = Kitchen::new(&format!("[ingredient.rum]\nabv = {}\n", i.text("spirit_abv_pct")));
        kitchen.write(
            "syrup.toml",
            &card("makes = \"1 L\"", &[("white sugar", quoted(syrup)), ("water", quoted("1 part by weight"))])
                .replace("An example", "Syrup"),
        );
        let poured = |key: &str| quoted(format!("{} fl oz", i.text(key)));
        let made = kitchen.makes(&card(
            "",
            &[("rum", poured("spirit_floz")), ("Syrup", poured("syrup_floz")), ("lime juice", poured("juice_floz"))],
        ));
        let found = made.is(Abv);
        println!("{found} for {naive} without contraction");
        assert!(found > naive && found < naive + 0.3, "{found}");
    }
}

/// The misprint of row E34: raising 15.5 US gallons by 1 g/L takes 2.07 oz, not 1.4.
#[test]
fn a_misprinted_addition_of_acid_is_not_followed() {
    let head = "makes = \"15.5 US gal\"";
    let made = Kitchen::new("[ingredient.tartaric]\nper_100g = { tartaric = 100 }\n")
        .makes(&card(head, &[("tartaric", quoted("1 g/L")), ("water", NEEDED.to_owned())]));
    let ounce = in_grams(readers::mass("1 oz wt").unwrap());
    close(made.grams("tartaric") / ounce, 2.07, 0.005);
    let printed = rows("trade-worked-examples")
        .into_iter()
        .find(|r| r.text("topic") == "acid_addition" && r.text("basis") == "published_wrong")
        .unwrap();
    assert!(
        (made.grams("tartaric") / ounce - printed.number("expected_value")).abs() > printed.number("tolerance_abs")
    );
}
