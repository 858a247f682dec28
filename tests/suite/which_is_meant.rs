//! Everyday names and amounts that say less than they seem to: dry or brewed, fresh or dried, of what size; and what the sheet then says.

use crate::kitchen::{Kitchen, close};
use stillroom::diagnostic::{Code, Severity};
use stillroom::solver::Options;

fn kitchen() -> Kitchen {
    Kitchen::new("")
}

fn card(lines: &str) -> String {
    format!("name = \"x\"\n[parts]\nwater = \"500 ml\"\n{lines}\n")
}

fn grams(lines: &str, name: &str) -> f64 {
    kitchen().solve(&card(lines), &Options::default()).grams(name)
}

/// Sixty grams of coffee are ground or are a drink: the syrup of the one is 6 °Bx sweeter than that of the other.
#[test]
fn coffee_and_tea_by_weight_or_spoon_are_asked() {
    for line in ["coffee = \"60 g\"", "tea = \"2 tbsp\"", "\"green tea\" = \"20 g\"", "thé = \"20 g\""] {
        let made = kitchen().refuses(&card(line));
        let help = made.found.iter().find_map(|found| found.help.clone()).unwrap_or_default();
        assert!(help.contains("strained = true") && help.contains("brewed"), "{line}: {help}");
    }
    for line in [
        "\"brewed coffee\" = \"60 g\"",
        "\"ground coffee\" = { amount = \"60 g\", strained = true }",
        "coffee = { amount = \"60 g\", strained = true }",
        "coffee = \"200 ml\"",
        "tea = \"400 g\"",
        "\"earl grey\" = \"4 teabags\"",
    ] {
        kitchen().makes(&card(line));
    }
}

/// Chamomile and a sherry have one Spanish name: by weight it is asked, strained it is the flower, by the millilitre the wine.
#[test]
fn a_flower_that_is_called_as_a_wine_is_asked_by_weight() {
    let made = kitchen().refuses(&card("manzanilla = \"5 g\""));
    let help = made.found.iter().find_map(|found| found.help.clone()).unwrap_or_default();
    assert!(help.contains("`manzanilla flor`") && help.contains("`manzanilla sherry`"), "{help}");
    let strained = kitchen().solve(&card("manzanilla = { amount = \"5 g\", strained = true }"), &Options::default());
    assert_eq!(strained.solved.unwrap().last().parts[1].found.called.as_deref(), Some("manzanilla flor"));
    close(grams("manzanilla = \"100 ml\"", "manzanilla"), 98.1, 0.2);
}

#[test]
fn a_chilli_is_fresh_or_dried_and_nobody_guesses() {
    for line in ["chilli = \"3\"", "chili = \"2 each\""] {
        let made = kitchen().refuses(&card(line));
        let asked = made.found.iter().find(|found| found.code == Code::UnknownIngredient);
        let help = asked.and_then(|found| found.help.clone()).unwrap_or_default();
        assert!(help.contains("`fresh chilli`") && help.contains("`dried chilli`"), "{line}: {help}");
    }
}

#[test]
fn spoons_cups_and_packets_weigh_what_is_known_of_them() {
    for (line, name, expected) in [
        // three grams a teaspoon, not the six of table salt
        ("\"kosher salt\" = \"1/2 US cup\"", "kosher salt", 72.0),
        ("\"mint leaves\" = \"1 US cup\"", "mint leaves", 25.0),
        ("\"citric acid\" = \"1/4 US cup\"", "citric acid", 4.6 / 5.0 * 0.25 * 236.588),
        ("yeast = \"1 tsp\"", "yeast", 4.0 / 4.929 * 5.0),
        ("yeast = \"1 packet\"", "yeast", 7.0),
        ("Vanillezucker = \"1 Päckchen\"", "Vanillezucker", 8.0),
        ("\"pineapple peel\" = { amount = \"1 peel\", strained = true }", "pineapple peel", 460.0),
    ] {
        close(grams(line, name), expected, 0.02 * expected);
    }
}

#[test]
fn what_is_taken_of_a_fruit_is_read_in_five_languages() {
    let lemon = grams("\"lemon juice\" = \"juice of 2\"", "lemon juice");
    let peel = grams("\"orange peel\" = \"peel of 1\"", "orange peel");
    for (line, name, expected) in [
        ("Zitronensaft = \"Saft von 2\"", "Zitronensaft", lemon),
        ("\"jus de citron\" = \"jus de 2 citrons\"", "jus de citron", lemon),
        ("\"zumo de limón\" = \"zumo de 2\"", "zumo de limón", lemon),
        ("\"succo di limone\" = \"succo di 2 limoni\"", "succo di limone", lemon),
        ("\"piel de naranja\" = \"piel de 1 naranja\"", "piel de naranja", peel),
        ("\"scorza d'arancia\" = \"scorza di 1 arancia\"", "scorza d'arancia", peel),
        ("Salz = \"eine Prise\"", "Salz", grams("salt = \"1 pinch\"", "salt")),
        ("sel = \"une pincée\"", "sel", grams("salt = \"1 pinch\"", "salt")),
        ("rum = \"mezzo litro\"", "rum", grams("rum = \"500 ml\"", "rum")),
    ] {
        close(grams(line, name), expected, 1e-6);
    }
    // and said again as it was typed
    let kitchen = kitchen();
    kitchen.write("card.toml", &card("\"scorza di limone\" = { amount = \"scorza di 8 limoni\", strained = true }"));
    let (_, sheet, said) = kitchen.run(&["solve", "card.toml"]);
    assert!(sheet.contains("8 limoni ") || sheet.contains("8 limoni\n"), "{sheet}{said}");
}

#[test]
fn a_spirit_is_found_by_its_proof_and_by_its_degrees() {
    let strength = |name: &str| kitchen().makes(&format!("name = \"x\"\n[parts]\n\"{name}\" = \"1 L\"\n")).text();
    assert!(strength("151 proof grain alcohol").contains("75.5 ± "), "{}", strength("151 proof grain alcohol"));
    assert!(strength("alcool puro 95°").contains("95.0 ± "), "{}", strength("alcool puro 95°"));
    let made = kitchen().refuses("name = \"x\"\n[[stage]]\nname = \"aguardiente con café\"\n[stage.parts]\naguardiente = \"700 ml\"\n[parts]\n\"aguardiente con café\" = \"all\"\n");
    let help = made.found.iter().find_map(|found| found.help.clone()).unwrap_or_default();
    assert!(help.contains("which of these") && !help.contains("con café"), "{help}");
}

#[test]
fn the_larder_does_not_pass_one_thing_off_as_another() {
    let kitchen = kitchen();
    let (_, page, said) = kitchen.run(&["larder", "aguardiente"]);
    assert!(said.contains("nothing has this name alone") && said.contains("aguardiente de orujo"), "{said}");
    assert!(!page.contains("100 ml weighs"), "{page}");
    let (_, page, said) = kitchen.run(&["larder", "yeast"]);
    assert!(page.contains("Yeast, dried") && said.is_empty(), "{page}{said}");
}

/// Half a litre is what a bar says of 480 ml, and a little more of what was poured together; a third less is another card.
#[test]
fn a_yield_a_little_short_is_a_warning_and_the_sheet_says_it() {
    let card =
        |makes: &str| format!("name = \"x\"\nmakes = \"{makes}\"\n[parts]\nhoney = \"400 g\"\nwater = \"200 ml\"\n");
    let made = kitchen().solve(&card("500 ml"), &Options::default());
    let said: Vec<_> = made.found.iter().filter(|d| d.code == Code::YieldImpossible).map(|d| d.severity).collect();
    assert_eq!(said, [Severity::Warning]);
    let short = |makes: &str| {
        let kitchen = kitchen();
        kitchen.write("card.toml", &card(makes));
        kitchen.run(&["solve", "card.toml"])
    };
    let (code, sheet, _) = short("500 ml");
    assert_eq!(code, Some(0));
    assert!(sheet.lines().next().unwrap().contains("% less than"), "{sheet}");
    assert_eq!(short("540 ml").0, Some(0));
    assert_eq!(short("640 ml").0, Some(1));
    // far more than asked for
    let (code, sheet, _) = short("400 ml");
    assert_eq!(code, Some(0));
    let words = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("% more than the 400 ml asked for"), "{sheet}");
}

#[test]
fn what_the_bench_needs_stands_on_the_sheet() {
    let sheet = |card: &str| {
        let kitchen = kitchen();
        kitchen.write("card.toml", card);
        let sheet = kitchen.run(&["solve", "card.toml"]).1;
        sheet.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let rich = sheet("name = \"x\"\n[parts]\nsugar = \"660 g\"\nwater = \"340 g\"\n[keep]\nstore = \"fridge\"\n");
    assert!(rich.contains("! sugar crystallises in the fridge"), "{rich}");
    let boiled = sheet("name = \"x\"\nheated = \"100 °C for 20 min\"\n[parts]\nsugar = \"500 g\"\nwater = \"1 L\"\n");
    assert!(boiled.contains("? 20 min at 100 °C take about"), "{boiled}");
    let punch = sheet(
        "name = \"x\"\nwashed = \"milk\"\n[parts]\nrum = \"500 ml\"\n\"lemon juice\" = \"100 ml\"\n\"whole milk\" = \"200 ml\"\n",
    );
    assert!(punch.contains("? no line says that the curd of `whole milk` is strained off"), "{punch}");
}

#[test]
fn a_class_is_read_in_five_languages_and_held_to_its_law() {
    let found = |name: &str, class: &str| {
        let card = format!(
            "name = \"{name}\"\nclass = \"{class}\"\n[parts]\nvodka = \"200 ml\"\nsugar = \"150 g\"\nwater = \"600 ml\"\n"
        );
        let made = kitchen().solve(&card, &Options::default());
        made.codes().into_iter().chain(made.sheet_and_found().1.iter().map(|d| d.code)).collect::<Vec<_>>()
    };
    for class in ["Likör", "licor", "liquore", "crème", "cream liqueur", "Sahnelikör"] {
        let codes = found("x", class);
        assert!(codes.contains(&Code::BelowLegalMinimum) && !codes.contains(&Code::UnknownWord), "{class}: {codes:?}");
    }
    for class in ["Fruchtsirup", "Wermut"] {
        assert!(!found("x", class).contains(&Code::UnknownWord), "{class}");
    }
    assert!(!found("Advocaat", "liqueur").contains(&Code::BelowLegalMinimum));
}
