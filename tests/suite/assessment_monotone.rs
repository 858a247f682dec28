//! What makes a product worse never makes its verdict milder, whatever the card: a fixed seed, hundreds of cards.

use crate::kitchen::{Kitchen, at};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use stillroom::assessment::Assessment;
use stillroom::safety::Level;
use stillroom::shelf_life::screen::ScreenClass;
use stillroom::solver::Options;

/// A card as the numbers that it is written from.
#[derive(Clone, Debug)]
struct Card {
    sugar_g: f64,
    water_g: f64,
    spirit_g: f64,
    ph: f64,
    abv_read: Option<f64>,
    store_c: f64,
    heated: Option<(f64, f64)>,
    hot: bool,
    closed: bool,
    class: &'static str,
    also: Option<&'static str>,
}

const LARDER: &str = "[ingredient.verjus]\nper_100g = { water = 99, sucrose = 1 }\nform = \"liquid\"\n\
    [ingredient.\"pure sucrose\"]\nper_100g = { sucrose = 100 }\n[ingredient.\"pure spirit\"]\nabv = 96\n\
    [ingredient.\"carrot juice\"]\nper_100g = { sucrose = 10, water = 90 }\nform = \"liquid\"\n\
    [ingredient.cream]\nper_100g = { water = 60, fat = 40 }\nform = \"liquid\"\n\
    [ingredient.\"egg yolk\"]\nper_100g = { water = 60, fat = 40 }\nform = \"liquid\"\n\
    [ingredient.\"almond paste\"]\nper_100g = { insoluble = 50, fat = 50 }\n\
    [ingredient.\"peanut paste\"]\nper_100g = { insoluble = 50, fat = 50 }\n\
    [ingredient.basil]\nper_100g = { insoluble = 10, water = 90 }\nform = \"solid\"\n";
const CLASSES: &[&str] = &[
    "plain syrup",
    "rich syrup",
    "cordial",
    "liqueur",
    "juice",
    "shrub",
    "nut syrup",
    "fruit syrup",
    "infused spirit",
];
const WORSE: &[&str] = &["carrot juice", "cream", "egg yolk", "almond paste", "peanut paste", "basil"];

impl Card {
    fn text(&self, name: &str) -> String {
        let heated =
            self.heated.map_or_else(String::new, |(c, min)| format!("heated = \"{c:.2} °C for {min:.3} min\"\n"));
        let spirit =
            if self.spirit_g > 0.0 { format!("\"pure spirit\" = \"{:.4} g\"\n", self.spirit_g) } else { String::new() };
        let also = self.also.map_or_else(String::new, |part| format!("\"{part}\" = \"1 g\"\n"));
        let abv = self.abv_read.map_or_else(String::new, |abv| format!("abv = {abv:.3}\n"));
        format!(
            "name = \"{name}\"\nclass = \"{}\"\n{heated}[parts]\n\"pure sucrose\" = \"{:.4} g\"\nwater = \"{:.4} \
             g\"\n{spirit}{also}verjus = \"3 g\"\n[measured]\nph = {:.3}\nph_by = \"laboratory\"\n{abv}[keep]\nfill = \"{}\"\nclosed = {}\nin = \"plastic\"\nstore = \
             \"here\"\n",
            self.class,
            self.sugar_g,
            self.water_g,
            self.ph,
            if self.hot { "hot" } else { "cold" },
            self.closed
        )
    }

    fn dated(&self) -> Assessment {
        let kitchen = Kitchen::new(LARDER);
        kitchen.write("house.toml", &format!("[stores]\nhere = \"{:.3} °C\"\n", self.store_c));
        kitchen.solve(&self.text("Card"), &Options::default()).dated(60)
    }
}

fn cards() -> impl Strategy<Value = Card> {
    let stuff = (200.0..1100.0f64, 300.0..1200.0f64, prop_oneof![Just(0.0), 10.0..400.0f64]);
    let kept = (2.0..6.9f64, prop_oneof![1.0..5.0f64, 5.01..28.0f64], any::<bool>(), any::<bool>());
    let heat = prop_oneof![Just(None), (55.0..99.0f64, 0.1..20.0f64).prop_map(Some)];
    (stuff, kept, heat, proptest::sample::select(CLASSES)).prop_map(
        |((sugar_g, water_g, spirit_g), (ph, store_c, hot, closed), heated, class)| Card {
            sugar_g,
            water_g,
            spirit_g,
            ph,
            abv_read: None,
            store_c,
            heated,
            hot,
            closed,
            class,
            also: None,
        },
    )
}

/// Stops that speak of growth.
fn stops(dated: &Assessment) -> Vec<&'static str> {
    const GROWTH: &[&str] = &["sealed_low_acid", "rop_ambient", "oil_infusion"];
    let certain = dated.cautions.iter().filter(|c| c.severity == Level::Stop && c.is_certain());
    certain.map(|c| c.code).filter(|code| GROWTH.contains(code)).collect()
}

fn no_milder(before: &Card, after: &Card) -> Result<(), TestCaseError> {
    let (was, is) = (before.dated(), after.dated());
    // No date is the least of all.
    let days = |d: &Assessment| at(d, "here").days.map_or(-1, i64::from);
    let said = || format!("{before:?}\n{after:?}\n{:?}\n{:?}", at(&was, "here"), at(&is, "here"));
    // a day or 3 % may be lost to the draws
    let slack = if days(&was) < 0 { 0 } else { 1.max(days(&was) * 3 / 100) };
    prop_assert!(days(&is) <= days(&was) + slack, "{} to {} days\n{}", days(&was), days(&is), said());
    let class = |d: &Assessment| Some(d.hurdles.by_table);
    prop_assert!(class(&was) != Some(ScreenClass::Pa) || class(&is) == Some(ScreenClass::Pa), "{}", said());
    prop_assert!(stops(&was).iter().all(|stop| stops(&is).contains(stop)), "{}", said());
    Ok(())
}

fn always<S: Strategy>(cases: u32, cards: S, holds: impl Fn(S::Value) -> Result<(), TestCaseError>) {
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    TestRunner::new_with_rng(config, rng).run(&cards, holds).unwrap();
}

#[test]
fn a_higher_ph() {
    always(300, (cards(), 0.0..3.0f64), |(card, more)| {
        let worse = Card { ph: (card.ph + more).min(6.95), ..card.clone() };
        no_milder(&card, &worse)
    });
}

#[test]
fn more_water() {
    always(300, (cards(), 1.0..2.0f64), |(card, times)| {
        let card = Card { abv_read: Some(0.0), spirit_g: 0.0, ..card };
        let worse = Card { water_g: card.water_g * times, ..card.clone() };
        // a pH is easier to read below 40 °Bx: that is a better reading, not a better product
        let thick = |card: &Card| card.sugar_g / (card.sugar_g + card.water_g + 3.0) > 0.4;
        if thick(&card) != thick(&worse) {
            return Ok(());
        }
        no_milder(&card, &worse)
    });
}

#[test]
fn a_warmer_store() {
    always(300, (cards(), 0.0..20.0f64), |(card, more)| {
        let worse = Card { store_c: (card.store_c + more).min(29.9), ..card.clone() };
        no_milder(&card, &worse)
    });
}

#[test]
fn less_alcohol() {
    always(300, (cards(), 0.0..40.0f64, 0.0..1.0f64), |(card, abv, share)| {
        let card = Card { spirit_g: 150.0, heated: None, abv_read: Some(abv), ..card };
        let worse = Card { abv_read: Some(abv * share), ..card.clone() };
        no_milder(&card, &worse)
    });
}

#[test]
fn raw_and_allergenic_parts() {
    always(300, (cards(), proptest::sample::select(WORSE)), |(card, part)| {
        let worse = Card { also: Some(part), ..card.clone() };
        no_milder(&card, &worse)
    });
}

#[test]
fn less_heat() {
    always(300, (cards(), 50.0..99.0f64, 0.2..20.0f64, 0.0..1.0f64, any::<bool>()), |(card, c, min, share, raw)| {
        let also = raw.then_some("carrot juice");
        let card = Card { heated: Some((c, min)), also, spirit_g: 0.0, ..card };
        let shorter = Card { heated: Some((c, (min * share).max(0.05))), ..card.clone() };
        no_milder(&card, &shorter)
    });
}

#[test]
fn a_card_around_it() {
    always(200, (cards(), cards(), 0.05..0.9f64), |(inner, outer, share)| {
        let kitchen = Kitchen::new(LARDER);
        kitchen.write("house.toml", "[stores]\nhere = \"4 °C\"\nroom = \"20 °C\"\n");
        let inside = kitchen.solve(&inner.text("Inner"), &Options::default()).dated(60);
        kitchen.write("inner.toml", &inner.text("Inner"));
        let part = format!("[parts]\nInner = \"{:.2} g\"\n", 1000.0 * share);
        let around = kitchen.solve(&outer.text("Outer").replace("[parts]\n", &part), &Options::default()).dated(60);
        for store in ["here", "room"] {
            let (i, o) = (at(&inside, store), at(&around, store));
            // What a part is passes on; where it stands and its days do not.
            let by_nature = i.verdict.as_ref().is_some_and(|v| !v.refused_by_nature.is_empty());
            prop_assert!(!by_nature || o.days.is_none(), "{:?} in {:?}", i.refused, o.days);
            let carried = inside.cautions.iter().filter(|c| c.severity == Level::Stop);
            prop_assert!(carried.into_iter().all(|c| around.cautions.iter().any(|o| o.code == c.code)));
            prop_assert!(inside.allergens.iter().all(|a| around.allergens.contains(a)));
        }
        Ok(())
    });
}
