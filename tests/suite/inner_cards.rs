//! Cards inside cards: by whatever spelling they are named, however often they go in.

use std::sync::Arc;

use crate::kitchen::{Kitchen, close};
use stillroom::diagnostic::Code;
use stillroom::solver::{InnerCard, Options};

const SYRUP: &str = "name = \"Plain syrup\"\nmakes = \"1 kg\"\n[parts]\n\"white sugar\" = \"1 part by weight\"\n\
                     water = \"1 part by weight\"\n";

fn card(name: &str, parts: &str) -> String {
    format!("name = \"{name}\"\nmakes = \"1 kg\"\n[parts]\n{parts}")
}

#[test]
fn a_card_is_no_part_of_itself_however_it_is_spelt() {
    for part in ["plain-syrup", "Plain Syrups", "plain, syrup"] {
        let own = card("Plain syrup", &format!("\"{part}\" = \"100 g\"\nwater = \"900 g\"\n"));
        let kitchen = Kitchen::new("");
        kitchen.write("plain.toml", &own);
        assert_eq!(kitchen.refuses(&own).codes().last(), Some(&Code::OwnPart), "{part}");
    }
}

#[test]
fn a_ring_is_closed_by_a_plural_too() {
    let kitchen = Kitchen::new("");
    kitchen.write("a.toml", &card("Spice syrup", "\"honey-syrups\" = \"500 g\"\nwater = \"500 g\"\n"));
    let made = kitchen.refuses(&card("Honey syrup", "\"spice syrups\" = \"500 g\"\nwater = \"500 g\"\n"));
    assert!(made.codes().contains(&Code::CardCycle), "{}", made.plain());
    assert!(made.plain().contains("Honey syrup -> spice syrups -> honey-syrups"), "{}", made.plain());
}

#[test]
fn a_stage_is_found_by_a_plural() {
    let kitchen = Kitchen::new("");
    let made = kitchen.makes(
        "name = \"x\"\n[[stage]]\nname = \"Spiced water\"\n[stage.parts]\nwater = \"500 g\"\n[parts]\n\
         \"spiced-waters\" = \"500 g\"\n\"white sugar\" = \"500 g\"\n",
    );
    close(made.total_grams(), 1000.0, 1e-9);
}

#[test]
fn a_card_that_goes_in_twice_is_made_once() {
    let kitchen = Kitchen::new("");
    kitchen.write("syrup.toml", SYRUP);
    let twice = "first = { amount = \"300 g\", of = \"plain syrup\" }\nsecond = { amount = \"200 g\", of = \"Plain-syrup\" }\n\
                 water = \"500 g\"\n";
    let made = kitchen.makes(&card("Twice", twice));
    let [InnerCard { card: inner, grams }] = made.solved().inner.as_slice() else {
        panic!("{}", made.solved().inner.len())
    };
    assert_eq!(inner.name, "Plain syrup");
    close(*grams, 500.0, 1e-9);
    let sugar: f64 = made.solved().ingredients().iter().filter(|(i, _)| i.name.contains("sugar")).map(|(_, g)| g).sum();
    close(sugar, 250.0, 1e-9);
}

/// Each card uses the one before it twice: taken apart by branches that would be sixteen million.
#[test]
fn a_tower_of_cards_takes_no_longer_than_its_height() {
    let kitchen = Kitchen::new("");
    kitchen.write("0.toml", &SYRUP.replace("Plain syrup", "step 0"));
    let step = |n: usize| {
        let below = n - 1;
        let twice = format!(
            "left = {{ amount = \"400 g\", of = \"step {below}\" }}\nright = {{ amount = \"400 g\", of = \"step-{below}\" }}\n\
             water = \"200 g\"\n"
        );
        card(&format!("step {n}"), &twice)
    };
    for n in 1..25 {
        kitchen.write(&format!("{n}.toml"), &step(n));
    }
    let made = kitchen.solve(&step(25), &Options::default());
    let solved = made.solved();
    assert_eq!(solved.inner.len(), 1);
    assert_eq!(Arc::strong_count(&solved.inner[0].card), 1);
    let total: f64 = solved.ingredients().iter().map(|(_, g)| g).sum();
    close(total, 1000.0, 1e-6);
    assert!(!made.dated(10).stores.is_empty());
}

#[test]
fn a_chain_without_an_end_is_not_followed() {
    let kitchen = Kitchen::new("");
    let step = |n: usize| card(&format!("step {n}"), &format!("\"step {}\" = \"500 g\"\nwater = \"500 g\"\n", n - 1));
    kitchen.write("0.toml", &SYRUP.replace("Plain syrup", "step 0"));
    for n in 1..200 {
        kitchen.write(&format!("{n}.toml"), &step(n));
    }
    assert!(kitchen.solve(&step(50), &Options::default()).solved.is_some());
    assert_eq!(kitchen.refuses(&step(200)).codes(), [Code::CardDepth]);
}

/// Of a name that the embedded larder has too, the house's own card or entry is meant.
#[test]
fn what_the_house_has_goes_before_a_built_in_name() {
    let sugar = |name: &str, larder: &str, own: Option<&str>| {
        let kitchen = Kitchen::new(larder);
        if let Some(own) = own {
            kitchen.write("own.toml", own);
        }
        let made = kitchen.solve(
            &format!("name = \"Test\"\nmakes = \"1 kg\"\n[parts]\n\"{name}\" = \"100 g\"\nwater = \"900 g\"\n"),
            &Options::default(),
        );
        100.0 * made.solved().bottled().per_gram().sugar_grams()
    };
    for name in ["simple syrup", "grenadine", "lime cordial"] {
        let built_in = sugar(name, "", None);
        assert!(built_in > 2.5, "{name}: {built_in}");
        let parts = "\"white sugar\" = \"1 part by weight\"\nwater = \"9 parts by weight\"\n";
        let own = card(name, parts);
        close(sugar(name, "", Some(&own)), 0.998, 1e-6);
        let entry = format!("[ingredient.\"{name}\"]\nper_100g = {{ sucrose = 20, water = 80 }}\nallergens = []\n");
        close(sugar(name, &entry, None), 2.0, 1e-6);
    }
}

/// What a card is in doubt of is a doubt of what it is poured into: a bottle of nothing but that card keeps no longer.
#[test]
fn a_bottle_of_one_card_is_in_as_much_doubt_as_the_card() {
    let kitchen = Kitchen::new("");
    let liqueur = "name = \"Blackberry liqueur\"\nsteps = [\"Steep the blackberries in the vodka for 3 weeks.\", \"Boil the sugar and water, leave to cool.\", \
                   \"Strain, add the syrup, bottle.\"]\n[parts]\nblackberries = { amount = \"500 g\", strained = true }\n\
                   vodka = \"70cl\"\nsugar = \"250 g\"\nwater = \"200 ml\"\n";
    kitchen.write("liqueur.toml", liqueur);
    kitchen.write("bottle.toml", "name = \"Bottle\"\n[parts]\n\"Blackberry liqueur\" = \"500 g\"\n");
    let told = |card: &str| {
        let (code, sheet, said) = kitchen.run(&["solve", card, "--full"]);
        assert_eq!(code, Some(0), "{said}");
        let strength = sheet.lines().find(|line| line.trim_start().starts_with("ABV")).map(str::to_owned);
        let (_, dated, _) = kitchen.run(&["date", card, "--made", "2026-11-30"]);
        let dates: Vec<String> = dated.lines().filter(|line| line.contains(" before ")).map(str::to_owned).collect();
        (strength.expect("a strength"), dates)
    };
    let (own, inside) = (told("liqueur.toml"), told("bottle.toml"));
    assert_eq!(own, inside);
    assert!(!own.1.is_empty());
}
