//! Cans, jars and tubs: what one holds, and whose ounces those of a thing are that is sold by weight.

use crate::kitchen::{Kitchen, Made, close};
use stillroom::diagnostic::Code;
use stillroom::solver::Options;

fn house(settings: &str) -> Kitchen {
    let kitchen = Kitchen::new("");
    kitchen.write("house.toml", settings);
    kitchen
}

fn card(line: &str) -> String {
    format!("name = \"x\"\n[parts]\nwater = \"500 ml\"\n{line}\n")
}

fn of(settings: &str, line: &str) -> Made {
    house(settings).makes(&card(line))
}

/// The sheet for the bench.
fn sheet(settings: &str, line: &str) -> String {
    let kitchen = house(settings);
    kitchen.write("card.toml", &card(line));
    let (code, sheet, said) = kitchen.run(&["solve", "card.toml"]);
    assert_eq!(code, Some(0), "{said}");
    sheet
}

const US: &str = "[house]\nmeasures = \"US\"\n";
const METRIC: &str = "[house]\nmeasures = \"metric\"\n";

#[test]
fn ounces_of_whole_cans_are_those_of_the_label() {
    for (line, name, grams) in [
        ("\"condensed milk\" = \"14 oz\"", "condensed milk", 397.0),
        ("\"sweetened condensed milk\" = \"28 oz\"", "sweetened condensed milk", 794.0),
        ("\"cream of coconut\" = \"15 oz\"", "cream of coconut", 425.0),
        ("\"pumpkin puree\" = \"15 oz\"", "pumpkin puree", 425.0),
    ] {
        let made = of(US, line);
        close(made.grams(name), grams, 0.6);
        let sheet = sheet(US, line);
        let words = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains("by weight, as the can says") && words.contains(" oz wt"), "{sheet}");
    }
    // a can of it says fluid ounces
    let made = of(US, "\"evaporated milk\" = \"12 oz\"");
    close(made.part("evaporated milk").volume_ml().unwrap(), 12.0 * 29.5735295625, 1e-6);
}

#[test]
fn ounces_that_no_can_holds_are_asked_and_those_of_a_jigger_are_poured() {
    for line in ["honey = \"12 oz\"", "honey = \"8 oz\"", "\"condensed milk\" = \"9 oz\""] {
        let made = house(US).solve(&card(line), &Options::default());
        assert_eq!(made.codes(), [Code::AmbiguousUnit], "{line}");
    }
    let made = house(US).solve(&card("honey = \"12 oz\""), &Options::default());
    let help = made.found.iter().find_map(|found| found.help.clone()).unwrap();
    assert!(help.contains("\"12 oz wt\"") && help.contains("340 g") && help.contains("506 g"), "{help}");
    close(of(US, "honey = \"12 oz wt\"").grams("honey"), 340.2, 0.1);
    let jigger = of(US, "honey = \"2 oz\"").part("honey").volume_ml().unwrap();
    close(jigger, 2.0 * 29.5735295625, 1e-6);
    let said = of(US, "honey = \"12 fl oz\"").part("honey").volume_ml().unwrap();
    close(said, 12.0 * 29.5735295625, 1e-6);
}

#[test]
fn one_can_holds_what_it_holds_where_it_was_bought() {
    for (settings, line, name, ml) in [
        (US, "\"club soda\" = \"1 can\"", "club soda", 12.0 * 29.5735295625),
        (METRIC, "\"club soda\" = \"1 can\"", "club soda", 330.0),
        (US, "\"coconut milk\" = \"1 can\"", "coconut milk", 13.5 * 29.5735295625),
        (METRIC, "Kokosmilch = \"1 Dose\"", "Kokosmilch", 400.0),
        (METRIC, "\"leche de coco\" = \"2 latas\"", "leche de coco", 800.0),
    ] {
        close(of(settings, line).part(name).volume_ml().unwrap(), ml, 0.01);
    }
    close(of(METRIC, "\"condensed milk\" = \"1 tin\"").grams("condensed milk"), 397.0, 1e-9);
    // where nobody says in which country, both are in the doubt
    let made = of("", "\"club soda\" = \"1 can\"");
    close(made.part("club soda").volume_ml().unwrap(), 330.0, 0.01);
    assert!(made.text().contains("one is taken as 330 g (330 to 354 g; a can of 330 ml"), "{}", made.text());
}

#[test]
fn a_jar_is_asked_with_the_sizes_that_are_usual() {
    for (line, size) in [
        ("honey = \"1 jar\"", "340 g"),
        ("\"coconut milk\" = \"1 carton\"", "250 ml"),
        ("rum = \"1 can\"", "330 ml"),
        ("strawberries = \"1 punnet\"", "400 g"),
        ("raspberries = \"1 basket\"", "150 g"),
    ] {
        let made = house(METRIC).solve(&card(line), &Options::default());
        assert_eq!(made.codes(), [Code::PieceUnknown], "{line}");
        let found = made.found.iter().find(|found| found.code == Code::PieceUnknown).unwrap();
        assert!(found.title.contains("holds is not known"), "{}", found.title);
        assert!(found.help.as_ref().unwrap().contains(size), "{line}: {:?}", found.help);
    }
}

/// Neither a long name nor a line by spoon takes the ounces from a sheet of a house that works by them.
#[test]
fn a_sheet_of_us_measures_keeps_its_ounces() {
    let text = sheet(
        US,
        "\"rye whiskey\" = \"18 oz\"\n\"aromatic bitters\" = \"18 dashes\"\n\"ground cinnamon\" = \"1/2 tsp\"\nsugar = \"2 lb\"",
    );
    assert!(text.lines().any(|line| line.contains("rye whiskey") && line.contains("18 fl")), "{text}");
    assert!(text.lines().any(|line| line.contains("sugar") && line.contains("32 wt")), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 60), "{text}");
}

/// The bottle of a house is that of its spirits: wine comes in 750 ml, and beer in more than one size.
#[test]
fn a_bottle_of_wine_is_no_bottle_of_spirit() {
    let kitchen = Kitchen::unstated("");
    kitchen.write("house.toml", "[house]\nbottle = \"700 ml\"\n");
    let card = |part: &str, keys: &str| format!("name = \"T\"\n{keys}[parts]\n{part} = \"1 bottle\"\n");
    for (part, ml) in [("gin", 700.0), ("white wine", 750.0), ("prosecco", 750.0), ("sweet vermouth", 750.0)] {
        let made = kitchen.makes(&card(&format!("{part:?}"), ""));
        close(made.part(part).volume_ml().unwrap(), ml, 0.01);
        let text = made.text();
        assert!(text.contains(&format!("1 bottle of {part}: {ml} ml each")), "{text}");
    }
    close(kitchen.makes(&card("prosecco", "bottle = \"375 ml\"\n")).part("prosecco").volume_ml().unwrap(), 375.0, 0.01);
    for part in ["lager", "cola"] {
        let text = kitchen.refuses(&card(part, "")).plain();
        assert!(text.contains("1 bottle (330 ml)"), "{text}");
    }
    close(
        kitchen.makes("name = \"T\"\n[parts]\nlager = \"1 bottle (330 ml)\"\n").part("lager").volume_ml().unwrap(),
        330.0,
        0.01,
    );
}

/// Where no house says what its bottle holds, wine is 750 ml, spirit 700 ml and in the US 750 ml (27 CFR 4.72 and 5.203, Directive
/// 2007/45/EC); what comes in too many sizes is asked.
#[test]
fn a_bottle_of_which_nobody_says_the_size_is_the_usual_one() {
    let card = |part: &str, amount: &str| format!("name = \"T\"\n[parts]\n{part:?} = {amount:?}\n");
    let us = Kitchen::unstated("");
    us.write("house.toml", "[house]\nmeasures = \"US\"\n");
    for (part, amount, ml, in_us) in [
        ("red wine 13 %", "3 bottles", 2250.0, 2250.0),
        ("vino tinto", "2 botellas", 1500.0, 1500.0),
        ("Weißwein", "1 Flasche", 750.0, 750.0),
        ("prosecco", "1 bottiglia", 750.0, 750.0),
        ("vin blanc", "1 bouteille", 750.0, 750.0),
        ("sweet vermouth", "1 bottle", 750.0, 750.0),
        ("gin", "half a bottle", 350.0, 375.0),
        ("vodka", "2 bottles", 1400.0, 1500.0),
    ] {
        let made = Kitchen::unstated("").makes(&card(part, amount));
        close(made.part(part).volume_ml().unwrap(), ml, 0.01);
        assert!(made.text().contains("ml each"), "{}", made.text());
        close(us.makes(&card(part, amount)).part(part).volume_ml().unwrap(), in_us, 0.01);
    }
    for part in ["lager", "cola", "honey", "lime juice", "aromatic bitters"] {
        let text = Kitchen::unstated("").refuses(&card(part, "1 bottle")).plain();
        assert!(text.contains("write what its label says"), "{part}: {text}");
    }
}

/// What the strength hangs on is on the sheet, and how much more is assumed is said beside it however long the first is.
#[test]
fn the_strength_that_was_taken_stands_first() {
    let card = "name = \"T\"\n[parts]\n\"damsons\" = { amount = \"500 g\", strained = true }\n\"overproof rum\" = \"500 ml\"\n\
                \"allspice berries\" = { amount = \"40 g\", strained = true }\nsugar = \"300 g\"\n";
    let kitchen = Kitchen::unstated("");
    kitchen.write("t.toml", card);
    let (_, sheet, _) = kitchen.run(&["solve", "t.toml"]);
    let assumed = sheet.split("Assumed:").nth(1).unwrap().split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(assumed.starts_with("overproof rum is taken as Overproof rum 63 %"), "{assumed}");
    assert!(assumed.contains(" more"), "{assumed}");
}
