//! How long it takes from a card to its sheet, without files and without printing.

use std::hint::black_box;
use std::path::Path;

use chrono::NaiveDate;
use divan::Bencher;
use stillroom::card::{self, Card};
use stillroom::house::House;
use stillroom::properties::Properties;
use stillroom::render;
use stillroom::report::Report;
use stillroom::report::solve::SolveView;
use stillroom::solver::{Options, Solved, solve};
use stillroom::units::celsius;

fn main() {
    divan::main();
}

/// Twelve parts in two stages, three targets and a yield, doses, a share, strained spice.
const CARD: &str = r#"
name = "Twelve parts"
makes = "8 x 700 ml"
[[stage]]
name = "maceration"
[stage.parts]
"overproof rum 63 %" = "1 L"
clove = { amount = "12 g", strained = true }
"allspice (whole berries)" = { amount = "8 g", strained = true }
"cassia cinnamon (stick)" = { amount = "6 g", strained = true }
"lime peel" = { amount = "60 g", strained = true }
[target]
abv = 18
sugar = "250 g/L"
acid = "4 g/L"
[parts]
maceration = "as needed"
"white sugar" = "as needed"
"citric acid" = "as needed"
honey = "30 g/L"
"glycerol 99.5 %" = "1 %"
"lime juice" = "20 ml/L"
water = "as needed"
[loss]
left_behind = "2 %"
"#;

fn kitchen() -> (House, Card) {
    let (card, found) = card::read("card.toml".into(), CARD.into());
    assert!(!stillroom::diagnostic::any_error(&found), "{found:?}");
    (House::default(), card.expect("the card reads"))
}

fn solved(house: &House, card: &Card) -> Solved {
    let outcome = solve(card, house, &Options::default());
    outcome.solved.unwrap_or_else(|| panic!("{:?}", outcome.diagnostics))
}

fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).unwrap_or_default()
}

#[divan::bench]
fn reads_a_card(bencher: Bencher) {
    bencher.bench(|| card::read("card.toml".into(), black_box(CARD).into()));
}

#[divan::bench]
fn solves_twelve_parts(bencher: Bencher) {
    let (house, card) = kitchen();
    bencher.bench(|| solved(&house, black_box(&card)));
}

/// Twelve parts, four ranges, bounds: the choice alone, then solved as any card.
#[divan::bench]
fn lands_twelve_parts_with_four_ranges(bencher: Bencher) {
    let (house, _) = kitchen();
    let targets = "abv = \"18 to 20 %\"\nsugar = \"220 to 260 g/L\"\nacid = \"3.5 to 4.5 g/L\"\nbrix = \"20 to 32\"\n";
    let text = CARD.replace("abv = 18\nsugar = \"250 g/L\"\nacid = \"4 g/L\"\n", targets).replace(
        "water = \"as needed\"",
        "\"vodka\" = { amount = \"as needed\", at_most = \"400 ml\" }\nwater = \"as needed\"\n[aim]\nleast = \"waste\"",
    );
    let (card, found) = card::read("card.toml".into(), text.into());
    assert!(!stillroom::diagnostic::any_error(&found), "{found:?}");
    let card = card.expect("the card reads");
    bencher.bench(|| {
        let mut found = Vec::new();
        let chosen = stillroom::aim::chosen(black_box(&card), &house, &Options::default(), &mut found);
        chosen.unwrap_or_else(|| panic!("{found:?}")).card.landed.is_some()
    });
}

#[divan::bench]
fn gives_every_property(bencher: Bencher) {
    let (house, card) = kitchen();
    let made = solved(&house, &card);
    bencher.bench(|| {
        Properties::of_mixture(black_box(made.bottled()), celsius(20.0), house.settings.altitude.unwrap_or_default())
    });
}

#[divan::bench]
fn puts_the_sheet_together(bencher: Bencher) {
    let (house, card) = kitchen();
    let made = solved(&house, &card);
    let makes = Options::default().asked(&card);
    bencher.bench(|| SolveView::new(&card, black_box(&made), &house, makes, celsius(20.0), day()));
}

#[divan::bench]
fn prints_the_sheet(bencher: Bencher) {
    let (house, card) = kitchen();
    let makes = Options::default().asked(&card);
    let (sheet, _) = SolveView::new(&card, &solved(&house, &card), &house, makes, celsius(20.0), day());
    let report = Report::new(Some(sheet), &[], |_| None);
    bencher.bench(|| render::text::solve(black_box(&report), render::text::Page::default()));
}

#[divan::bench]
fn finds_the_demo_house(bencher: Bencher) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    bencher.bench(|| House::find(black_box(&folder)));
}
