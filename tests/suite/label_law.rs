//! What a label must say by the law of its market, and what is put on a glass: each read from the card that it hangs on.

use crate::bar::Bar;
use crate::kitchen::{Kitchen, close};
use stillroom::solver::Options;

fn house(market: &str) -> String {
    let market = if market.is_empty() { String::new() } else { format!("market = [{market}]\n") };
    format!("[house]\nname = \"Ours\"\n{market}[stores]\nfridge = \"4 °C\"\n")
}

/// The words of the label of a card in a house of these markets.
fn label(market: &str, card: &str) -> String {
    let bar = Bar::new(&house(market), "");
    bar.kitchen.write("x.toml", card);
    let out = bar.run(&["label", "x.toml", "--fresh", "--in", "fridge", "--size", "large"]);
    let said = String::from_utf8(out.stdout).unwrap().replace("\n  ", " ");
    assert!(out.status.success(), "{said}{}", String::from_utf8_lossy(&out.stderr));
    said
}

const JUICE: &str = "\"lime juice\" = \"300 g\"";
const SPIRIT: &str = "vodka = \"300 ml\"";

/// A WARNING for each statement of the law.
#[test]
fn each_warning_is_asked_in_its_market_alone() {
    let count = |market, parts: &str, keep: &str| {
        let card = format!(
            "name = \"Mix\"\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"100 g\"\n{parts}\n[keep]\nclosed = true\n{keep}"
        );
        label(market, &card).matches("WARNING").count()
    };
    let both = format!("{JUICE}\n{SPIRIT}");
    let (sold, kept) = ("for_sale = true\n", "for_sale = false\n");
    assert_eq!(count("\"US\"", JUICE, ""), 1);
    assert_eq!(count("\"US\"", &both, sold), 2);
    assert_eq!(count("\"US\"", &both, kept), 0);
    assert_eq!(count("\"US\"", SPIRIT, ""), 0);
    assert_eq!(count("\"UK\"", &both, sold), 0);
}

/// 60 g of root of 10 % in 0.7 L are 8.6 g/L; 0.02 g/L ask for the name alone (Regulation (EU) No 1169/2011, Annex III).
#[test]
fn liquorice_is_named_where_the_law_wants_it() {
    let said = |market, grams: &str| {
        let root = format!("\"liquorice root\" = {{ amount = \"{grams}\", strained = true, holds = 1 }}");
        label(market, &format!("name = \"Mix\"\n[parts]\n\"white sugar\" = \"400 g\"\nwater = \"500 g\"\n{root}\n"))
    };
    let much = said("\"UK\"", "60 g");
    assert!(much.contains("contains liquorice – people suffering from hypertension"), "{much}");
    let little = said("\"EU\"", "0.15 g");
    assert!(little.contains("contains liquorice") && !little.contains("hypertension"), "{little}");
    assert!(!said("\"EU\"", "0.05 g").contains("liquorice"));
    assert!(!said("\"US\"", "60 g").contains("liquorice"));
}

/// What each statement is of, in its market alone; the words are those of the laws (see `warnings.csv`).
#[test]
fn what_the_law_or_the_habit_wants_said_of_what_is_in_it_is_on_the_label() {
    const ENTRIES: &str = "[ingredient.tartrazine]\nlike = \"salt\"\nfood = \"food grade, label\"\nallergens = []\n\
        [ingredient.aspartame]\nlike = \"salt\"\nfood = \"food grade, label\"\nallergens = []\n\
        [ingredient.\"quinine sulphate\"]\nlike = \"salt\"\nfood = \"food grade, label\"\nallergens = []\n\
        [ingredient.\"guarana powder\"]\nlike = \"salt\"\nfood = \"food grade, label\"\nallergens = []\n";
    let said = |market: &str, name: &str, parts: &str| {
        let bar = Bar::new(&house(market), ENTRIES);
        let card = format!(
            "name = \"{name}\"\n[parts]\n\"white sugar\" = \"400 g\"\nwater = \"500 g\"\n\"citric acid\" = \"10 g\"\n{parts}\n"
        );
        bar.kitchen.write("x.toml", &card);
        let out = bar.run(&["label", "x.toml", "--fresh", "--in", "fridge", "--size", "large"]);
        String::from_utf8(out.stdout).unwrap().replace("\n  ", " ")
    };
    let colour = "tartrazine = \"0.1 g\"";
    assert!(
        said("\"EU\"", "Mix", colour)
            .contains("tartrazine: may have an adverse effect on activity and attention in children")
    );
    assert!(!said("\"US\"", "Mix", colour).contains("adverse"));
    assert!(!said("\"EU\"", "Mix", &format!("{colour}\nvodka = \"200 ml\"")).contains("adverse"));
    let sweet = "aspartame = \"1 g\"";
    assert!(said("\"UK\"", "Mix", sweet).contains("contains aspartame (a source of phenylalanine)"));
    assert!(said("\"US\"", "Mix", sweet).contains("PHENYLKETONURICS: CONTAINS PHENYLALANINE"));
    assert!(said("\"EU\"", "Mix", "xylitol = \"150 g\"").contains("laxative effects"));
    assert!(!said("\"EU\"", "Mix", "xylitol = \"50 g\"").contains("laxative"));
    let bitter = "\"quinine sulphate\" = \"0.04 g\"";
    assert!(
        said("\"US\"", "Mix", bitter).contains("contains quinine")
            && said("\"EU\"", "Mix", bitter).contains("contains quinine")
    );
    // 5 g of 50 mg/g in about 0.8 L
    let seeds = "\"guarana powder\" = \"5 g\"";
    assert!(said("\"EU\"", "Mix", seeds).contains("High caffeine content"), "{}", said("\"EU\"", "Mix", seeds));
    assert!(!said("\"EU\"", "Guarana tea", seeds).contains("High caffeine"));
    assert!(!said("\"EU\"", "Mix", &seeds.replace("5 g", "2 g")).contains("High caffeine"));
    assert!(said("\"US\"", "Mix", "honey = \"100 g\"").contains("not for children under 12 months"));
    assert!(said("", "Mix", "\"grapefruit juice\" = \"100 ml\"").contains("it may change how a medicine acts"));
    let peel = "\"dried bitter orange peel\" = \"10 g\"";
    assert!(said("", "Mix", peel).contains("with Seville orange"), "{}", said("", "Mix", peel));
}

/// From above 1.2 % vol in the EU, from 0.5 % vol where no figure is known.
#[test]
fn strength_is_stated_where_a_law_wants_it_or_nobody_knows() {
    let stated = |market, abv: f64| {
        let card = format!(
            "name = \"Mix\"\nmakes = \"1 L\"\n[target]\nabv = {abv}\nbrix = 66\n[parts]\nvodka = \"as needed\"\n\
             \"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[keep]\nclosed = true\n"
        );
        label(market, &card).contains("% vol")
    };
    assert!(stated("\"EU\"", 1.25) && !stated("\"EU\"", 1.15));
    assert!(stated("\"US\"", 0.55) && !stated("\"US\"", 0.45));
    assert!(stated("", 0.6) && !stated("\"UK\", \"EU\"", 0.6));
}

/// By how many points the strength may be off, of a spirit with or without its fruit in the bottle.
#[test]
fn tolerances_by_class() {
    let points = |market: &str, fruit: &str| {
        let kitchen = Kitchen::new("");
        kitchen.write("house.toml", &house(market));
        kitchen.write("x.toml", &format!("name = \"Mix\"\n[parts]\nvodka = \"1 L\"\n{fruit}\n"));
        let told = kitchen.json(&["solve", "x.toml"]);
        let grades = told["label_tolerance"].as_array().unwrap_or_else(|| panic!("{told}")).clone();
        grades.first().map(|grade| grade["points"].as_f64().unwrap())
    };
    let fruit = "raspberries = \"500 g\"";
    assert_eq!(points("\"EU\"", fruit), Some(1.5));
    assert_eq!(points("\"UK\"", ""), Some(0.3));
    assert_eq!(points("\"US\"", fruit), Some(0.3));
    assert_eq!(points("\"CA\"", ""), None);
}

/// What is said to go on a glass of vodka and not to be stated, as it is written.
fn put_on(line: &str) -> Vec<String> {
    let kitchen = Kitchen::new("");
    let card = format!("name = \"x\"\nhow = \"shaken\"\n{line}\n[parts]\nvodka = \"50 ml\"\n");
    let made = kitchen.solve(&card, &Options::default());
    close(made.grams("vodka"), 47.5, 1.0);
    let open = made.dated(1).allergens_open;
    let said = open.iter().filter_map(|said| said.strip_prefix("what goes on it (`")?.strip_suffix("`)"));
    said.map(str::to_owned).collect()
}

#[test]
fn what_is_put_on_is_read_by_where_it_stands() {
    for (line, said) in [
        ("garnish = \"lime wheel, zorbo\"", "zorbo"),
        ("garnish = \"zarbo, zorbo\"", "zarbo; zorbo"),
        ("garnish = \"3 sprays of bitters\"", "3 sprays of bitters"),
        ("garnish = \"wedge, 3, fresh\"", ""),
        ("glass = \"coupe with a zorbo\"", "a zorbo"),
        ("glass = \"coupe, zorbo rim\"", "zorbo rim"),
        ("glass = \"the blue one\"", ""),
        ("steps = \"Strain. Dust with zorbo over the foam.\"", "with zorbo"),
        ("steps = \"Rim the glass with zorbo\"", "the glass with zorbo"),
        ("steps = \"Shake with gusto\"", ""),
    ] {
        assert_eq!(put_on(line).join("; "), said, "{line}");
    }
}
