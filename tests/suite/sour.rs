//! Sour, measured and put right: readings of an acid, what they do to a card, and what stays unknown.

use std::path::Path;

use proptest::prelude::*;
use stillroom::card::TargetKind;
use stillroom::larder::Larder;
use stillroom::mixture::acidity::ph;
use stillroom::mixture::{Component, Mixture};
use stillroom::solver::Options;
use stillroom::units::{celsius, in_kg_per_m3};
use stillroom::vocabulary::{Evidence, Tag};

use crate::generated::check;
use crate::kitchen::{Kitchen, close, run_in};
use crate::table::{Largest, rows};

/// The card of the demo house.
const LIME_CORDIAL: &str = include_str!("../../formulas/lime-cordial.toml");

fn density_g_per_ml(of: &Mixture) -> f64 {
    in_kg_per_m3(of.density(celsius(20.0)).unwrap().value) / 1000.0
}

fn ph_of(mixture: &Mixture) -> f64 {
    ph::estimate(mixture, celsius(25.0)).unwrap().value.get()
}

/// The rows of the check table as entries of a larder: base by analysis, then a house's readings over it.
#[test]
fn a_titration_and_a_ph_calibrate_an_ingredient() {
    let (mut acids, mut cations) = (Largest::of("total acid, g/100 g"), Largest::of("cations, eq/kg of water"));
    let (mut reading, mut after) = (Largest::of("pH read"), Largest::of("pH after"));
    for row in rows("acid-calibrate") {
        let (total, water) = (row.number("acid_total_g_per_100g"), row.number("water_pct"));
        // The solution of pure citric acid is printed as 95.0 + 5.028 in 100.
        let water = water.min(100.0 - total);
        let mut grams = vec![(Component::Water, water)];
        for kind in row.text("acid_kinds_mass_share").split('+') {
            let (acid, share) = kind.split_once(':').unwrap();
            grams.push((Component::from_key(acid).unwrap(), total * share.parse::<f64>().unwrap()));
        }
        grams.push((Component::Sucrose, 100.0 - water - total));
        let (ta, read) = (row.number("ta_g_per_100g_as_citric"), row.number("ph_measured"));
        let g_l = 10.0 * ta * density_g_per_ml(&Mixture::of(&grams));
        let per_100g: Vec<String> = grams.iter().map(|(c, g)| format!("{} = {g:.6}", c.key())).collect();
        let kitchen = Kitchen::new(&format!(
            "[ingredient.\"a base\"]\nper_100g = {{ {} }}\n[ingredient.\"today's\"]\nlike = \"a base\"\nacid = \"{g_l:.6} g/L\"\nph = {read}\n",
            per_100g.join(", ")
        ));
        let made = kitchen.makes("name = \"C\"\nmakes = \"1 L\"\n[parts]\n\"today's\" = \"1 L\"\n");
        let found = made.part("today's").feed.per_gram * 100.0;
        let case = row.text("case");
        let [low, middle, high] = found.bound_cations_eq.map(|eq| eq / (found.grams_of(Component::Water) / 1000.0));
        assert!(low == middle && middle == high, "{case}");
        acids.within(found.grams_of_all(&Component::ACIDS), total, 0.005, case);
        cations.within(middle, row.number("strong_cation_eq_per_kg_water"), 0.0005, case);
        reading.within(ph_of(&found), read, 0.02, case);
        let thinned = found + Mixture::of(&[(Component::Water, found.grams_of(Component::Water))]);
        after.within(ph_of(&thinned), row.number("ph_half_strength"), 0.02, case);
        let soured = found + Mixture::of(&[(Component::Citric, 5.0)]);
        after.within(ph_of(&soured), row.number("ph_plus_5g_citric_per_100g"), 0.02, case);
        // What is read is what is there, but for the last proton of citric acid that pH 8.1 does not reach.
        close(found.titratable_acid_grams() / ta, 1.0, 0.01);
    }
}

const TODAYS: &str = "[ingredient.\"today's limes\"]\nlike = \"lime juice\"\n";

fn lime(larder: &str) -> (Kitchen, crate::kitchen::Made) {
    let kitchen = Kitchen::new(&format!("{TODAYS}{larder}"));
    let made = kitchen.solve(&LIME_CORDIAL.replace("\"lime juice\"", "\"today's limes\""), &Options::default());
    (kitchen, made)
}

#[test]
fn a_cordial_takes_as_much_more_acid_as_the_limes_have_less() {
    let book = lime("").1;
    for (g_l, ph) in [(50.0, 2.35), (58.0, 2.3), (66.0, 2.2)] {
        let today = lime(&format!("acid = \"{g_l} g/L\"\nph = {ph}\n")).1;
        let brought = |made: &crate::kitchen::Made| {
            let juice = made.part("today's limes");
            juice.feed.per_gram.titratable_acid_grams() * juice.mass_g
        };
        let less = brought(&book) - brought(&today);
        close(today.grams("citric acid") - book.grams("citric acid"), less, 0.15);
        close(today.is(TargetKind::Acid), 30.0, 1e-6);
        close(brought(&today) / 0.35, g_l, 0.01 * g_l);
    }
}

#[test]
fn both_readings_take_the_doubt_of_a_table_away() {
    let of = |larder: &str| {
        let made = lime(larder).1;
        let juice = made.part("today's limes").feed.per_gram;
        let found = ph::estimate(&juice, celsius(25.0)).unwrap();
        (found.error, found.low.get(), found.value.get(), found.high.get())
    };
    // What it is like lends it no acid that a pH could rest on.
    let lent = lime("").1.part("today's limes").feed.per_gram;
    assert_eq!(ph::estimate(&lent, celsius(25.0)), Err(ph::NoPh::Unaccounted));
    let (acid_alone, low, _, high) = of("acid = \"58 g/L\"\n");
    assert!(high - low > 2.0 * acid_alone, "the band of the minerals is kept");
    let (both, low, value, high) = of("acid = \"58 g/L\"\nph = 2.3\n");
    close(acid_alone, 0.4, 1e-9);
    close(both, 0.1, 1e-9);
    close(value, 2.3, 0.001);
    close(low, 2.2, 0.001);
    close(high, 2.4, 0.001);
}

#[test]
fn what_was_read_says_so_and_a_ph_alone_says_what_it_lacks() {
    let kitchen = Kitchen::new(&format!("{TODAYS}acid = \"58 g/L\"\nph = 2.3\n"));
    let (house, found) = stillroom::house::House::find(kitchen.folder());
    assert!(found.is_empty(), "{found:?}");
    let limes = house.larder.find("today's limes").unwrap();
    assert_eq!(limes.status.evidence, Evidence::MeasuredByTheHouse);
    assert!(limes.stated.acid && limes.stated.acid_and_ph && !limes.stated.brix);
    assert!(limes.tags.contains(&Tag::RawJuice.into()));

    let made = lime("ph = 2.3\n").1;
    assert!(made.plain().contains("the pH of `today's limes` alone changes nothing"), "{}", made.plain());
    close(made.grams("citric acid"), lime("").1.grams("citric acid"), 1e-12);
}

#[test]
fn a_reading_that_cannot_be_is_refused_where_it_stands() {
    let made = lime("acid = \"58 g/L\"\nph = 0.8\n").1;
    assert!(made.solved.is_none());
    assert!(made.plain().contains("the pH is lower than so much of these acids can give"), "{}", made.plain());
}

#[test]
fn a_reading_for_one_run_answers_to_every_name() {
    let house = Larder::built_in();
    let from = "--measured".into();
    let read = house.measured("fresh lime juice: acid=58 g/L, ph=2.3", &from).unwrap();
    let over = house.clone().overlay(vec![read]);
    for name in ["lime juice", "Fresh lime juice", "freshly squeezed lime juice", "lime-juice"] {
        assert_eq!(over.find(name).unwrap().status.evidence, Evidence::MeasuredByTheHouse, "{name}");
    }
    // The same as an entry of the house's own file.
    let entry = lime("acid = \"58 g/L\"\nph = 2.3\n").1;
    assert_eq!(over.find("lime juice").unwrap().per_gram, entry.part("today's limes").feed.per_gram);

    for (written, says) in [
        ("lime juice", "is not a name, a colon, and readings"),
        ("lime juice: 58", "is not a name, a colon, and readings"),
        ("lime juice: acid=58 g/L, acid=60 g/L", "given twice"),
        ("lime juice: acidity=58 g/L", "is not a reading"),
        ("lime juice: acid=58", "no unit"),
        ("lime juice: ph=23", "is not possible"),
        ("lime juise: ph=2.3", "is not in the larder"),
        ("lime juice: acid=58 g/L, ph=2,3", "is not a name, a colon, and readings"),
    ] {
        let why = house.measured(written, &from).unwrap_err();
        assert!(why[0].title.contains(says), "{written}: {why:?}");
    }
}

/// One measured orange, 0.8 % acid as citric.
const ORANGE: &str = "[ingredient.\"today's orange\"]\nlike = \"orange juice\"\nacid = \"8 g/L\"\nph = 3.6\n";

/// A litre of it and powder, 3.2 citric to 2 malic by weight: `rest` says how much.
fn orange(citric: &str, malic: &str, rest: &str) -> crate::kitchen::Made {
    Kitchen::new(ORANGE).makes(&format!(
        "name = \"Lime-strength orange\"\n{rest}[parts]\n\"today's orange\" = \"1 L\"\n\"citric acid\" = \"{citric}\"\n\"malic acid\" = \"{malic}\"\n"
    ))
}

/// Grams of acid as weighed in each litre, the trade's "percent" ten times: the orange's own as it was read.
fn as_weighed(made: &crate::kitchen::Made) -> f64 {
    (8.0 + made.grams("citric acid") + made.grams("malic acid")) / made.millilitres() * 1000.0
}

/// Lime strength in the trade is 6 g of acid as weighed in 100 ml, citric and malic alike. A target speaks of titratable
/// acid as citric, and a gram of malic acid counts for 0.955 g of it: 6 % as weighed is 59.1 g/L as citric.
#[test]
fn an_orange_is_brought_to_the_strength_of_a_lime() {
    let made = orange("3.2 parts by weight", "2 parts by weight", "[target]\nacid = \"59.1 g/L\"\n");
    close(made.grams("citric acid"), 33.2, 0.3);
    close(made.grams("malic acid"), 20.8, 0.3);
    close(as_weighed(&made), 60.0, 0.3);
    close(made.is(TargetKind::Acid), 59.1, 1e-6);
    println!("powder {:.2} + {:.2} g", made.grams("citric acid"), made.grams("malic acid"));

    // The same number read as citric asks for more powder, and is above 6 % as weighed.
    let as_citric = orange("3.2 parts by weight", "2 parts by weight", "[target]\nacid = \"60 g/L\"\n");
    let powder = |made: &crate::kitchen::Made| made.grams("citric acid") + made.grams("malic acid");
    close(powder(&as_citric) - powder(&made), 0.95, 0.1);
    assert!(as_weighed(&as_citric) > 60.5);
}

#[test]
fn the_rule_of_the_trade_lands_at_five_point_eight() {
    let made = orange("32 g", "20 g", "");
    println!("by the rule of the trade {:.2} %", as_weighed(&made) / 10.0);
    close(as_weighed(&made) / 10.0, 5.8, 0.05);
    assert!(made.is(TargetKind::Acid) < as_weighed(&made));
}

/// One to one by weight with water, and nothing sour: what no table can tell has no pH, and is dated as the worst.
#[test]
fn no_ph_where_too_little_is_known_and_then_the_worst_is_taken() {
    let kitchen = Kitchen::new("");
    for sweet in ["honey", "maple syrup", "whole milk", "dark muscovado sugar", "demerara sugar", "white sugar"] {
        let made = kitchen.makes(&format!(
            "name = \"S\"\nmakes = \"1 L\"\nclass = \"plain syrup\"\n[parts]\n\"{sweet}\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n"
        ));
        let sheet = made.sheet();
        assert_eq!((sheet.properties.ph, sheet.properties.ph_high), (None, None), "{sweet}");
        let screen = sheet.screen.unwrap();
        assert_eq!(screen.class, stillroom::shelf_life::screen::ScreenClass::Pa, "{sweet}");
    }
}

#[test]
fn a_ph_is_shown_with_its_edges_and_near_a_limit_it_is_to_be_measured() {
    let kitchen = Kitchen::new(ORANGE);
    let text = |parts: &str| kitchen.makes(&format!("name = \"S\"\nmakes = \"1 L\"\n[parts]\n{parts}")).text();
    let sour = text("\"lime juice\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n");
    let line = |text: &str| text.lines().find(|l| l.trim_start().starts_with("pH ")).unwrap().to_owned();
    let made = kitchen.makes(
        "name = \"S\"\nmakes = \"1 L\"\n[parts]\n\"lime juice\" = \"1 part by weight\"\nwater = \"1 part by weight\"\n",
    );
    let p = made.sheet().as_weighed.properties;
    let shown: Vec<f64> =
        line(&sour).split(|c: char| !c.is_ascii_digit() && c != '.').filter_map(|w| w.parse().ok()).collect();
    let [value, low, high] = shown[..] else { panic!("{sour}") };
    close(value, p.ph.unwrap(), 0.05);
    assert!(low <= p.ph_low.unwrap() && high >= p.ph_high.unwrap(), "{shown:?}");
    assert!(low > p.ph_low.unwrap() - 0.1 && high < p.ph_high.unwrap() + 0.1, "{shown:?}");
    assert!(!line(&sour).contains("measure it"), "{sour}");
    let mild = text("\"today's orange\" = \"1 part by weight\"\n\"orange juice\" = \"4 parts by weight\"\n");
    assert!(line(&mild).contains("near 4.2, measure it"), "{mild}");
}

/// A card in a house without files.
fn solved(parts: &str) -> stillroom::solver::Solved {
    let text = format!("name = \"S\"\n[parts]\n{parts}");
    let (card, found) = stillroom::card::read("card.toml".into(), text.as_str().into());
    assert!(!stillroom::diagnostic::any_error(&found), "{text}\n{found:?}");
    let house = stillroom::house::House::default();
    stillroom::solver::solve(&card.unwrap(), &house, &Options::default()).solved.unwrap()
}

fn juices() -> impl Strategy<Value = (usize, f64, f64, f64)> {
    (0..JUICES.len(), 50.0..900.0f64, 0.0..900.0f64, 10.0..900.0f64)
}

const JUICES: [&str; 5] = ["lime juice", "lemon juice", "orange juice", "grapefruit juice", "pineapple juice"];

#[test]
fn more_acid_never_raises_the_ph_of_a_card() {
    let powders = ["citric acid", "malic acid", "tartaric acid"];
    let compared = std::cell::Cell::new(0);
    check(
        600,
        (juices(), 0..powders.len(), 0.1..60.0f64, 0.1..60.0f64),
        |((juice, g, sugar, water), powder, some, more)| {
            let ph = |acid: f64| {
                let made = solved(&format!(
                    "\"{}\" = \"{g:.4} g\"\n\"white sugar\" = \"{sugar:.4} g\"\nwater = \"{water:.4} g\"\n\"{}\" = \"{acid:.4} g\"\n",
                    JUICES[juice], powders[powder]
                ));
                ph::estimate(made.bottled(), celsius(20.0)).ok().map(|ph| ph.value.get())
            };
            if let (Some(less), Some(now)) = (ph(some), ph(some + more)) {
                prop_assert!(now <= less + 1e-9, "{less} became {now}");
                compared.set(compared.get() + 1);
            }
            Ok(())
        },
    );
    println!("a pH on both sides in {} of 600", compared.get());
    assert!(compared.get() > 400, "{}", compared.get());
}

#[test]
fn more_water_never_raises_the_brix_of_a_card() {
    check(600, (juices(), 0.1..500.0f64), |((juice, g, sugar, water), more)| {
        let brix = |water: f64| {
            let made = solved(&format!(
                "\"{}\" = \"{g:.4} g\"\n\"white sugar\" = \"{sugar:.4} g\"\nwater = \"{water:.4} g\"\n",
                JUICES[juice]
            ));
            stillroom::properties::value_of(TargetKind::Brix, made.bottled()).unwrap()
        };
        prop_assert!(brix(water + more) < brix(water));
        Ok(())
    });
}

#[test]
fn the_verbs_take_a_reading_for_one_run() {
    let card = "formulas/lime-cordial.toml";
    let json = |measured: &[&str]| -> serde_json::Value {
        let arguments = [&["solve", card, "--made", "2026-11-25", "--json"], measured].concat();
        serde_json::from_str(&run_in(Path::new("."), &arguments).1).unwrap()
    };
    let grams = |solved: &serde_json::Value| -> f64 {
        let parts = solved["parts"].as_array().unwrap();
        parts.iter().find(|p| p["of"] == "citric acid").unwrap()["mass_g"].as_f64().unwrap()
    };
    let (book, sharp) = (json(&[]), json(&["--measured", "lime juice: acid=66 g/L, ph=2.2"]));
    let mild = json(&["--measured", "lime juice: acid=58 g/L, ph=2.3"]);
    // A titration stops at pH 8.1, before the last proton of citric acid; a target counts that proton too. So the juice
    // brings 0.6 to 0.9 % more than was titrated, the sourer the more: 0.1 g between these two.
    close(grams(&mild) - grams(&sharp), 0.35 * (66.0 * 1.009 - 58.0 * 1.006), 0.02);
    assert!(sharp["doubt"]["acid_g_l"]["half_width"].as_f64() < Some(1.0));
    assert!(book["doubt"]["acid_g_l"]["half_width"].as_f64() > Some(3.0));

    let (code, out, err) = run_in(Path::new("."), &["solve", card, "--measured", "lime jice: ph=2.2"]);
    assert_eq!((code, out.as_str()), (Some(2), ""));
    assert!(err.contains("--measured") && err.contains("did you mean `lime juice`?"), "{err}");
    assert_eq!(
        run_in(Path::new("."), &["date", card, "--made", "2026-11-25", "--measured", "lime juice: acid=9 t"]).0,
        Some(2)
    );
}
