//! Amounts that are counted or dosed by hand, and what the house and the card settle, from the card to its sheet.

use crate::kitchen::{Kitchen, Made, close};
use stillroom::card::Makes;
use stillroom::diagnostic::{Code, Severity};
use stillroom::solver::weighing::{self, Weighing};
use stillroom::solver::{BatchSize, Options};
use stillroom::units::{grams, millilitres};

/// What a piece weighs is stated here, so that these tests are not about the larder.
const LARDER: &str = "
[ingredient.clove]
like = \"clove\"
piece = \"0.07 g\"
[ingredient.\"cassia cinnamon\"]
like = \"cassia cinnamon\"
piece = \"4 g\"
[ingredient.\"lime juice\"]
like = \"lime juice\"
piece = \"28 g\"
[ingredient.\"egg white\"]
like = \"egg white\"
piece = \"30 g\"
[ingredient.\"tonic bitters\"]
abv = 45
";

fn kitchen() -> Kitchen {
    let kitchen = Kitchen::new(LARDER);
    kitchen.write("house.toml", "[instruments]\nscale = \"1 g up to 5 kg\"\n");
    kitchen
}

/// A card with this line beside a litre of spirit.
fn with(line: &str) -> Made {
    kitchen().makes(&format!("name = \"x\"\n[parts]\n\"vodka 40 %\" = \"1 L\"\n{line}\n"))
}

fn sheet_names(made: &Made) -> Vec<String> {
    let lines = made.sheet().stages.into_iter().flat_map(|stage| stage.lines);
    lines.map(|line| line.by_hand.unwrap_or(line.of)).collect()
}

#[test]
fn pieces_are_weighed_by_the_larder_and_stay_pieces_on_the_sheet() {
    let all = [
        ("\"vanilla pods\" = \"2\"", "vanilla pods", 6.0, "vanilla pods, 2 pieces"),
        ("cloves = \"20 each\"", "cloves", 1.4, "cloves, 20 pieces"),
        ("cloves = \"20 cloves\"", "cloves", 1.4, "20 cloves"),
        ("cloves = \"20 cloves, crushed\"", "cloves", 1.4, "20 cloves"),
        ("\"cassia cinnamon\" = \"2 sticks\"", "cassia cinnamon", 8.0, "cassia cinnamon, 2 sticks"),
        ("\"cassia cinnamon\" = \"2 cinnamon sticks\"", "cassia cinnamon", 8.0, "cassia cinnamon, 2 sticks"),
        ("\"cassia cinnamon\" = \"1 stick\"", "cassia cinnamon", 4.0, "cassia cinnamon, 1 stick"),
        ("\"lime juice\" = \"juice of 2 limes\"", "lime juice", 56.0, "lime juice, juice of 2 limes"),
        ("lime = \"juice of 2\"", "lime", 56.0, "lime, juice of 2"),
        ("limes = \"the juice of half a lime\"", "limes", 14.0, "limes, juice of 0.5 limes"),
        ("\"egg white\" = \"1 egg white\"", "egg white", 30.0, "1 egg white"),
        ("\"egg white\" = \"two egg whites\"", "egg white", 60.0, "2 egg whites"),
    ];
    for (line, label, grams, said) in all {
        let made = with(line);
        close(made.grams(label), grams, 1e-9);
        // Above the least that the scale weighs truly it is weighed, and still counted on the sheet.
        assert!(sheet_names(&made).contains(&said.to_owned()), "{line}: {:?}", sheet_names(&made));
    }
}

#[test]
fn what_is_taken_of_a_fruit_decides_what_it_is() {
    let made = with("lime = \"juice of 2\"");
    assert_eq!(made.part("lime").of, "lime juice");
    // The same numbers as the juice by its own name, and its dangers.
    let own = with("\"lime juice\" = \"56 g\"");
    close(made.millilitres(), own.millilitres(), 1e-9);
    assert_eq!(made.dated(0).cautions.len(), own.dated(0).cautions.len());
}

#[test]
fn a_batch_twice_the_size_counts_twice_as_many() {
    let options = Options { size: Some(BatchSize::Makes(Makes::Mass(grams(2.0 * 951.0)))), ..Options::default() };
    let card = "name = \"x\"\nmakes = \"951 g\"\n[parts]\n\"vodka 40 %\" = \"1 L\"\ncloves = \"20 cloves\"\n";
    let made = kitchen().solve(card, &options);
    let line = made.sheet().stages.remove(0).lines.remove(1);
    close(line.pieces.unwrap(), line.mass_g / 0.07, 1e-9);
    close(line.pieces.unwrap(), 40.0, 0.5);
    assert_eq!(line.by_hand.as_deref(), Some("40 cloves"));
}

#[test]
fn a_dash_is_a_dash_on_the_sheet_and_never_a_stock() {
    for line in ["\"tonic bitters\" = \"2 dashes\"", "\"tonic bitters\" = \"12 drops\"", "cloves = \"11 cloves\""] {
        let made = with(line);
        let hows = weighing::ways(made.solved(), &made.house.settings.instruments);
        assert_eq!(hows[0][1].by, Weighing::ByHand, "{line}");
        assert!(!hows[0][1].unsure && !made.text().contains("dissolve"), "{line}");
    }
    // By weight a bitters is weighed, or said to be too little: what thins it is another drink.
    let made = with("\"tonic bitters\" = \"2 g\"\nwater = \"1 L\"");
    let hows = weighing::ways(made.solved(), &made.house.settings.instruments);
    assert!(hows[0][1].unsure && !matches!(hows[0][1].by, Weighing::Stock(_)), "{:?}", hows[0][1]);
}

#[test]
fn dashes_in_another_batch_are_asked_of_once() {
    let card =
        "name = \"x\"\n[parts]\n\"vodka 40 %\" = \"60 ml\"\n\"tonic bitters\" = \"2 dashes\"\nsalt = \"1 pinch\"\n";
    let asked = |ml| {
        let size = Some(BatchSize::Makes(Makes::Volume(millilitres(ml))));
        let made = kitchen().solve(card, &Options { size, ..Options::default() });
        let asked = made.found.iter().filter(|d| d.code == Code::Understood && d.severity == Severity::Warning);
        asked.map(|d| (d.title.clone(), d.labels.len())).collect::<Vec<_>>()
    };
    let found = asked(620.0);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].0.contains("20 dashes") && found[0].1 == 2, "{found:?}");
    assert_eq!(asked(120.0), []);
    assert_eq!(asked(10.0).len(), 1);
}

#[test]
fn the_measures_of_the_house_settle_ounces_and_cups_and_are_echoed() {
    let house = |measures: &str| {
        let kitchen = kitchen();
        kitchen.write("house.toml", &format!("[house]\nmeasures = \"{measures}\"\nbottle = \"70 cl\"\n"));
        kitchen
    };
    let card = "name = \"x\"\n[parts]\nwater = \"1 cup\"\n\"lime juice\" = \"8 oz\"\n\"white sugar\" = \"8 oz\"\n";
    let us = house("US").makes(card);
    // Half of a US pint of water at 20 °C, 998.2 g/L; eight avoirdupois ounces of sugar.
    close(us.grams("water"), 236.5882365 * 0.9982, 0.02);
    close(us.grams("white sugar"), 8.0 * 28.349523125, 1e-9);
    close(us.part("lime juice").volume_ml().unwrap(), 8.0 * 29.5735295625, 1e-6);
    assert!(
        us.text().contains("US measures: 1 cup = 236.6 ml, 1 oz = 29.57 ml poured, 28.35 g weighed"),
        "{}",
        us.text()
    );
    let imperial = house("imperial").makes(card);
    close(imperial.grams("water"), 284.130625 * 0.9982, 0.02);
    let bottle = house("metric").makes("name = \"x\"\n[parts]\n\"vodka 40 %\" = \"1 bottle\"\n");
    close(bottle.part("vodka 40 %").volume_ml().unwrap(), 700.0, 1e-6);
    let own = "name = \"x\"\nbottle = \"1 L\"\n[parts]\n\"vodka 40 %\" = \"1 bottle\"\n";
    close(house("metric").makes(own).part("vodka 40 %").volume_ml().unwrap(), 1000.0, 1e-6);
    // which ounces is one question, wherever they stand
    assert_eq!(kitchen().solve(card, &Options::default()).codes(), [Code::AmbiguousUnit; 2]);
}

#[test]
fn a_basis_told_once_holds_for_the_ratio() {
    for told in ["\"2 parts by weight\"\nwater = \"1 part\"", "\"2 parts\"\nwater = \"1 part by weight\""] {
        let made = kitchen().makes(&format!("name = \"x\"\nmakes = \"900 g\"\n[parts]\n\"white sugar\" = {told}\n"));
        close(made.grams("white sugar"), 600.0, 1e-6);
    }
    let by_key = "name = \"x\"\nmakes = \"900 g\"\nratio = \"by weight\"\n[parts]\n\"white sugar\" = \"2 parts\"\nwater = \"1 part\"\n";
    close(kitchen().makes(by_key).grams("white sugar"), 600.0, 1e-6);
}

#[test]
fn our_own_thousands_are_read_back_where_the_card_shows_what_its_commas_are() {
    let card = |other: &str| format!("name = \"x\"\n[parts]\n\"white sugar\" = \"1,307 g\"\nwater = \"{other}\"\n");
    close(kitchen().makes(&card("700.5 g")).grams("white sugar"), 1307.0, 0.0);
    close(kitchen().makes(&card("700,5 g")).grams("white sugar"), 1.307, 0.0);
    assert_eq!(kitchen().solve(&card("700 g"), &Options::default()).codes(), [Code::AmbiguousNumber]);
}

#[test]
fn a_yield_within_what_its_pieces_may_be_off_is_a_note_and_the_title_says_what_is_made() {
    let card = |makes: &str| {
        format!(
            "name = \"Sour\"\nmakes = \"{makes}\"\n[parts]\n\"vodka 40 %\" = \"200 ml\"\n\"lime juice\" = \"juice of 18 limes\"\n"
        )
    };
    // 18 limes of 28 g each, 20 % over the root of 18: 24 g of 694 g, 3.4 %.
    let made = kitchen().makes(&card("710 ml"));
    assert!(
        made.found.iter().any(|d| d.code == Code::YieldImpossible && d.severity == Severity::Note),
        "{}",
        made.plain()
    );
    let title = made.text().lines().find(|line| line.contains("asked for")).unwrap_or_default().to_owned();
    assert!(title.contains("makes 68"), "{title}");
    // a tenth more is what people write of what they poured together; a third more they never saw
    let hopeful = kitchen().solve(&card("760 ml"), &Options::default());
    assert!(hopeful.found.iter().any(|d| d.code == Code::YieldImpossible && d.severity == Severity::Warning));
    kitchen().refuses(&card("920 ml"));
    let bottles = kitchen().solve(&card("6 x 125 ml"), &Options::default()).sheet().fill.unwrap();
    assert_eq!(bottles.full, 5.0);
}
