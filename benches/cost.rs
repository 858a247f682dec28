//! How long a cost takes: a card of twelve parts with a card of the house inside (below 50 µs).

use std::sync::Arc;

use divan::{Bencher, black_box};
use stillroom::cost::{CostAsked, cost_of};
use stillroom::house::{House, settings};
use stillroom::larder::{Larder, house_file};
use stillroom::solver::resolve::{FoundPart, Material};
use stillroom::solver::{InnerCard, Options, Solved, solve};

fn main() {
    divan::main();
}

const NAMES: [&str; 11] = [
    "white sugar",
    "demerara sugar",
    "dark muscovado sugar",
    "citric acid",
    "malic acid",
    "salt",
    "gum arabic",
    "lime juice",
    "clove",
    "cardamom",
    "honey",
];

fn house() -> House {
    let mut found = Vec::new();
    let mut house = House::default();
    let costs = "[house]\ncurrency = \"GBP\"\n[costs]\nlabour = \"14 GBP / h\"\nenergy = \"0.28 GBP / kWh\"\n";
    house.settings = settings::read(costs, &Arc::from("house.toml"), &mut found);
    let larder: String = NAMES
        .iter()
        .map(|n| {
            format!(
                "[ingredient.\"{n}\"]\nlike = \"{n}\"\nprice = \"9.20 GBP / 1 kg incl. 20 % VAT\"\nusable = \"90 %\"\n"
            )
        })
        .collect();
    house.larder = Larder::built_in().clone().overlay(house_file::read(&larder, &Arc::from("larder.toml"), &mut found));
    assert!(found.is_empty(), "{found:?}");
    house
}

fn solved(house: &House, parts: &str) -> Solved {
    let text = format!("name = \"Bench\"\nlabour = \"20 min\"\nheated = \"85 °C\"\n[parts]\nwater = \"2 kg\"\n{parts}");
    let card = stillroom::card::read("bench.toml".into(), text.into()).0.expect("a card");
    solve(&card, house, &Options::default()).solved.expect("a batch")
}

#[divan::bench]
fn twelve_parts_and_a_card_inside(bencher: Bencher) {
    let house = house();
    let parts: String = NAMES.iter().map(|n| format!("\"{n}\" = \"100 g\"\n")).collect();
    let mut outer = solved(&house, &parts);
    let inner = solved(&house, &parts);
    let mut inside = outer.stages[0].parts[0].clone();
    inside.found = FoundPart::liquid(Material::Card(0), inner.bottled());
    outer.stages[0].parts.push(inside);
    outer.inner.push(InnerCard { card: inner.into(), grams: 100.0 });
    outer.index = 1;
    let asked = CostAsked::default();
    let (costing, found) = cost_of(&outer, &house, &asked);
    assert!(costing.is_some_and(|c| c.complete) && found.is_empty());
    bencher.bench(|| cost_of(black_box(&outer), &house, &asked));
}
