//! The worked dates: composition in, days in each store out, every row within its bounds.

use stillroom::instruments::ph_reading::{PhInstrument, PhSaid, with_reading};
use stillroom::mixture::acidity::acids::{ACETIC, CITRIC, MALIC};
use stillroom::mixture::acidity::bounds::{self, Beside, PhBounds};
use stillroom::shelf_life::hurdles::{Hurdles, Screened};
use stillroom::shelf_life::{
    Asked, Authority, Contents, Dairy, Egg, Filled, Product, StageWarmth, Verdict, class, verdicts,
};
use stillroom::units::{Abv, celsius, grams_per_litre};
use stillroom::vocabulary::Word;

use super::table::{Row, rows};

/// Grams of a list such as `citric=4.0;malic=2`.
fn parts(text: &str) -> Vec<(&str, f64)> {
    text.split(';')
        .filter_map(|part| part.split_once('='))
        .map(|(name, grams)| (name, grams.parse().unwrap()))
        .collect()
}

/// Share of ash of what has no minerals listed, and the alkalis in equivalents a gram (`dates.md` E1 and E3).
fn ash(kind: &str) -> f64 {
    match kind {
        "dried_leaf" => 0.15,
        "dried_spice" => 0.10,
        "fresh_plant" => 0.025,
        "white_sugar" => 0.0003,
        "raw_sugar" => 0.025,
        "fruit" => 0.010,
        "tea" => 0.08,
        other => panic!("{other}"),
    }
}

fn bounds_of(row: &Row) -> PhBounds {
    if row.text("acids_g_l") == "open" {
        return PhBounds::default();
    }
    let (abv, sugar) = (row.number("abv"), row.number("sugar_g_l"));
    // water of a litre: what sugar and alcohol leave of it (apparent volumes 0.62 mL a gram of sugar, 1 of spirit)
    let water_kg = (1000.0 - 0.62 * sugar - 10.0 * abv).max(1.0) / 1000.0;
    let acids: Vec<_> = parts(row.text("acids_g_l"))
        .into_iter()
        .map(|(name, grams)| {
            let acid = match name {
                "citric" => &CITRIC,
                "malic" => &MALIC,
                "acetic" => &ACETIC,
                other => panic!("{other}"),
            };
            (acid, grams / acid.molar_mass / water_kg)
        })
        .collect();
    let alkali: f64 = parts(row.text("alkali_g_l")).iter().map(|(_, g)| g * 0.011904).sum();
    let of_ash: f64 =
        parts(row.text("no_minerals_g_l")).iter().map(|(k, g)| g * ash(k) * bounds::ASH_EQ_PER_GRAM).sum();
    let most = bounds::TAP_WATER_EQ_PER_KG + (alkali + of_ash) / water_kg;
    let beside = Beside { sugar: grams_per_litre(sugar), abv: Abv::new(abv).unwrap() };
    bounds::bounds(&acids, (0.0, most), beside, celsius(25.0)).unwrap()
}

fn read(row: &Row) -> Option<(f64, PhInstrument)> {
    let (value, by) = row.text("ph_read").split_once(" by ")?;
    let by = match by {
        "strip" => PhInstrument::Strip,
        "meter" => PhInstrument::Meter { calibrated: false },
        "meter calibrated" => PhInstrument::Meter { calibrated: true },
        "laboratory" => PhInstrument::Laboratory,
        other => panic!("{other}"),
    };
    Some((value.parse().unwrap(), by))
}

fn product(row: &Row) -> Product {
    let flags: Vec<&str> = row.text("flags").split('+').collect();
    let has = |flag: &str| flags.contains(&flag);
    let (abv, brix) = (row.number("abv"), row.number("brix"));
    let mut ph_up = row.maybe("ph_up");
    if let Some((value, by)) = read(row) {
        let doubt = by.doubt(0.0, brix, abv);
        let given = PhBounds { low: row.maybe("ph_low"), up: bounds_of(row).up };
        ph_up = with_reading(given, value, doubt, by).0;
    }
    let dairy = ["dairy_milk", "dairy_cream", "dairy_fat", "dairy_clarified"].iter().position(|f| has(f));
    let stage = |text: &str| {
        let (hours, t_c) = text.trim_end_matches('C').split_once("h at ").unwrap();
        // what stood in spirit stood in it from the start; everything else stood in water
        let abv = if row.text("id") == "d90" { row.number("abv") } else { 0.0 };
        StageWarmth { t_c: t_c.parse().unwrap(), hours: hours.parse().unwrap(), abv, ph_up: None, aw_up: 1.0 }
    };
    Product {
        abv_pct: abv,
        abv_doubt: 0.3,
        sugar_g_l: row.number("sugar_g_l"),
        brix: Some(brix),
        aw: Some(row.number("aw_without_alcohol")),
        aw_doubt: if has("plant") || has("nutrient") { 0.015 } else { 0.008 },
        ph_up,
        salt_pct: row.number("salt_pct"),
        acetic_pct: row.number("acetic_pct"),
        acid_g_l: parts(row.text("acids_g_l")).iter().map(|(_, g)| g).sum(),
        raw_juice: row.number("raw_juice"),
        sweet_citrus: row.text("juice_kind") == "orange",
        pasteurised_juice: row.number("pasteurised_juice"),
        contents: Contents {
            plant: has("plant"),
            nutrient: has("nutrient"),
            nut: has("nut"),
            wine: has("wine"),
            coffee: has("coffee"),
            peel: has("peel"),
            no_food: has("no_food"),
            drops: has("drops"),
            dried: has("dried"),
            dairy: dairy.map(|d| [Dairy::Milk, Dairy::Cream, Dairy::FatWashed, Dairy::Clarified][d]),
            egg: if has("egg_pasteurised") {
                Some(Egg::Pasteurised)
            } else if has("egg_raw") {
                Some(Egg::Raw)
            } else {
                None
            },
            ..Contents::default()
        },
        filled: match row.text("fill") {
            "hot_closed" => Filled::HotClosed,
            "hot_clean" => Filled::HotClean,
            "cold" => Filled::Cold,
            "cold_plant" => Filled::ColdPlant,
            "raw" => Filled::Raw,
            other => panic!("{other}"),
        },
        opened: row.text("opened") == "1",
        closed: row.text("sealed") == "1",
        stages: row.text("stages").split(';').filter(|s| !s.is_empty()).map(stage).collect(),
        water_pct: None,
        spoiled_lot_days: None,
        of_lots: Vec::new(),
    }
}

const STORES: [(&str, f64); 3] = [("fridge", 4.0), ("cellar", 12.0), ("back_bar", 21.0)];

fn judged(product: &Product) -> Vec<Verdict> {
    let stores = STORES.map(|(_, t)| celsius(t));
    verdicts(product, &stores, &Authority::default(), Asked::default())
}

#[test]
fn every_day_count_lies_within_its_bounds() {
    let mut wrong = Vec::new();
    for row in rows("dates-worked.csv") {
        let product = product(&row);
        // The rows print their Brix to a tenth; the days were reckoned from what stood behind it.
        let brix = product.brix.unwrap();
        let tenth = [0.0, -0.05, 0.05].map(|more| judged(&Product { brix: Some(brix + more), ..product.clone() }));
        for (place, (store, _)) in STORES.iter().enumerate() {
            let days: Vec<Option<u32>> = tenth.iter().map(|verdicts| verdicts[place].days).collect();
            let told = format!("{} {store}: {days:?} {}", row.text("id"), row.text("product"));
            if row.text(&format!("{store}_days")) == "refused" {
                if days.iter().any(Option::is_some) {
                    wrong.push(format!("{told} is not refused"));
                }
                continue;
            }
            let (low, high) = (row.number(&format!("{store}_min")), row.number(&format!("{store}_max")));
            if !days.iter().flatten().any(|days| (low..=high).contains(&f64::from(*days))) {
                wrong.push(format!("{told} is not {low} to {high}, by {:?}", tenth[0][place].decided_by));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_screen_is_that_of_every_row() {
    for row in rows("dates-worked.csv") {
        let screened = match Hurdles::of(&product(&row)).screened {
            Screened::Stable | Screened::NoFood => "stable",
            Screened::Alcohol => "alcohol",
            Screened::Control => "control",
        };
        assert_eq!(screened, row.text("screen"), "{} {}", row.text("id"), row.text("product"));
    }
}

/// `dates.md` E2: what is added to 650 g of water and 550 g of white sugar.
#[test]
fn bounds_of_the_ph_meet_the_table() {
    let table: [(&str, f64, &[(&str, f64)], f64, f64, f64); 9] = [
        ("1 g citric", 1.0, &[], 0.0, 2.53, 4.59),
        ("2 g citric", 2.0, &[], 0.0, 2.36, 3.54),
        ("5 g citric, 5 g dried leaf", 5.0, &[("dried_leaf", 5.0)], 0.0, 2.14, 3.72),
        ("15 g citric, 5 g dried leaf", 15.0, &[("dried_leaf", 5.0)], 0.0, 1.89, 2.83),
        ("15 g citric, 20 g dried leaf", 15.0, &[("dried_leaf", 20.0)], 0.0, 1.89, 3.66),
        ("15 g citric, 40 g dried leaf", 15.0, &[("dried_leaf", 40.0)], 0.0, 1.89, 4.68),
        ("30 g citric, 50 g fresh peel", 30.0, &[("fresh_plant", 50.0)], 0.0, 1.74, 2.64),
        ("10 g citric, 5 g bicarbonate", 10.0, &[], 5.0, 1.98, 4.27),
        ("10 g citric, 15 g bicarbonate", 10.0, &[], 15.0, 1.98, 12.67),
    ];
    for (what, citric, no_minerals, bicarbonate, low, up) in table {
        let of_ash: f64 = no_minerals.iter().map(|(kind, g)| g * ash(kind)).sum::<f64>() + 550.0 * ash("white_sugar");
        let most = 0.65 * bounds::TAP_WATER_EQ_PER_KG + of_ash * bounds::ASH_EQ_PER_GRAM + bicarbonate * 0.011904;
        let acids = [(&CITRIC, citric / CITRIC.molar_mass / 0.65)];
        let beside = Beside { sugar: grams_per_litre(550.0), abv: Abv::new(0.0).unwrap() };
        let found = bounds::bounds(&acids, (0.0, most / 0.65), beside, celsius(25.0)).unwrap();
        for (got, expected) in [(found.low, low), (found.up, up)] {
            assert!(got.is_some_and(|got| (got - expected).abs() <= 0.02), "{what}: {got:?} for {expected}");
        }
    }
}

#[test]
fn classes_are_earned_as_in_the_rows() {
    for row in rows("dates-worked.csv") {
        let mut got: Vec<&str> = class::earned(&product(&row)).into_iter().map(|class| class.word()).collect();
        got.sort_unstable();
        assert_eq!(got.join("+"), row.text("classes_by_composition"), "{} {}", row.text("id"), row.text("product"));
    }
}

#[test]
fn readings_count_as_in_the_rows() {
    for row in rows("dates-worked.csv") {
        let Some((value, by)) = read(&row) else { continue };
        let given = PhBounds { low: row.maybe("ph_low"), up: None };
        let (_, said) = with_reading(given, value, by.doubt(0.0, row.number("brix"), row.number("abv")), by);
        let expected = match row.text("ph_said") {
            "accepted" => PhSaid::Accepted,
            "a strip counts only up to 4.0" => PhSaid::StripTooHigh,
            other if other.starts_with("rejected") => PhSaid::Impossible,
            other => panic!("{other}"),
        };
        assert_eq!(said, expected, "{}", row.text("id"));
    }
}
