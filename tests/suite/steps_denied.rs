//! What a step denies, denies twice or only compares, and ordinary words of cold, of empty vessels and of what is boiled behind a steep. The
//! cards are ours; what a person expects of each is beside it.

use crate::kitchen::{Kitchen, at};
use stillroom::assessment::Assessment;
use stillroom::solver::Options;

const HOUSE: &str =
    "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n";
const LIQUEUR: &str = "\"vodka 40 %\" = \"500 ml\"\n\"white sugar\" = \"100 g\"\nwater = \"200 g\"\n\
                       mint = { amount = \"10 g\", strained = true }\n";
const BERRIES: &str =
    "strawberries = { amount = \"500 g\", strained = true }\nsugar = \"500 g\"\n\"lemon juice\" = \"50 ml\"\n";
const GLASS: &str = "[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

fn judged(keys: &str, steps: &str, parts: &str) -> Assessment {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", HOUSE);
    let card = format!("name = \"T\"\n{keys}steps = [\"{steps}\"]\n[parts]\n{parts}{GLASS}");
    kitchen.solve(&card, &Options::default()).dated(100)
}

fn stops(step: &str, parts: &str) -> bool {
    judged("", step, parts).cautions.iter().any(|caution| caution.stops())
}

#[test]
fn what_is_denied_twice_goes_in() {
    for step in [
        "Not without a foxglove leaf.",
        "Never without foxglove.",
        "Nicht ohne Eibennadeln.",
        "Nicht mit Eisenhut geizen.",
        "Non senza digitale.",
        "KCN.",
        "CH3OH.",
        "NaOH.",
        "H2SO4.",
    ] {
        assert!(stops(step, LIQUEUR), "{step}");
    }
    for step in ["Without a foxglove leaf.", "Nie ohne Handschuhe.", "Do not bottle without straining.", "Do not boil."]
    {
        assert!(!stops(step, LIQUEUR), "{step}");
    }
}

#[test]
fn cold_empty_and_compared_heats_and_puts_in_nothing() {
    for step in [
        "Hold at 4 °C.",
        "Auf der Heizung nicht!",
        "Boil the closed empty jars.",
        "Spray the bottle necks with sanitiser and let them dry.",
        "Compare with the smoke of a cigar.",
        "Mit dem Rauch einer Zigarre vergleichen.",
    ] {
        assert!(!stops(step, LIQUEUR), "{step}");
    }
    assert!(judged("", "Mark the level with a felt tip.", LIQUEUR).unidentified.is_empty());
    for step in [
        "Hold at 60 °C for an hour.",
        "Auf der Heizung ziehen lassen.",
        "Boil the closed full jars.",
        "Add a capful of sanitiser to the bottle.",
    ] {
        assert!(stops(step, LIQUEUR), "{step}");
    }
}

/// Fruit in sugar for two days in the warm may work; boiled behind it, or in a fridge by any of its names, it does not.
#[test]
fn what_is_boiled_behind_a_steep_is_not_left_to_ferment() {
    let gas = |step: &str| judged("", step, BERRIES).cautions.iter().any(|caution| caution.code == "gas_burst");
    assert!(gas("Toss the strawberries with the sugar and leave for 2 days. Strain."));
    for step in [
        "Leave for 2 days, stirring now and then, then strain and boil for 5 minutes.",
        "Laisser macérer 48 h au frais. Filtrer, porter à frémissement 5 minutes.",
        "Toss the strawberries with the sugar and leave for 2 days in the cooler. Strain.",
        "Toss the strawberries with the sugar and leave for 2 days in the reach-in. Strain.",
    ] {
        assert!(!gas(step), "{step}");
    }
}

#[test]
fn no_heat_is_not_believed_of_solids_that_simmer() {
    let bitters =
        "gin = \"400 ml\"\n\"dried orange peel\" = { amount = \"60 g\", strained = true }\nwater = \"150 ml\"\n";
    let steps =
        "Steep the peel in the gin for 2 weeks, strain. Simmer the solids in the water 10 minutes, strain, mix.";
    let judged = judged("heated = \"no\"\n", steps, bitters);
    let asked: Vec<&String> = judged.unidentified.iter().map(|open| &open.question).collect();
    assert!(asked.iter().any(|question| question.contains("heated says no")), "{asked:?}");
    assert_eq!(at(&judged, "fridge").days, None);
}
