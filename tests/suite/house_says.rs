//! What a house states of its bottles, its menu and what it puts on a glass counts; what it does not is asked, and said to be.

use serde_json::Value;

use crate::kitchen::Kitchen;

/// A house of one drink of 50 ml of a bottle, with what stands above its parts.
fn bar(market: &str, bottle: &str, above: &str, larder: &str) -> Kitchen {
    let house = format!("[house]\nmarket = [\"{market}\"]\n");
    let drink =
        format!("name = \"Old\"\nhow = \"stirred\"\nwater = \"30 g\"\n{above}\n[parts]\n{bottle:?} = \"50 ml\"\n");
    Kitchen::unstated(larder).with(&[("house", &house), ("old", &drink), ("menu", "[drink.Old]\n")])
}

fn mark(menu: &Value, allergen: &str) -> String {
    let rows = menu["drinks"][0]["matrix"].as_array().unwrap_or_else(|| panic!("{menu}"));
    let row = rows.iter().find(|row| row["allergen"] == allergen).unwrap_or_else(|| panic!("{menu}"));
    row["mark"].as_str().unwrap().to_owned()
}

/// Regulation (EU) No 1169/2011 Annex II exempts cereals used for distillates, and the house has read the label. What is weaker
/// than a spirit, what nobody has stated, a nut, and wheat by the list of the United States are not exempt.
#[test]
fn a_stated_distillate_brings_no_cereal_by_its_name() {
    let entry = |name: &str, abv: u32, stated: &str| {
        format!("[ingredient.{name:?}]\nfood = \"sold as food, label\"\nabv = {abv}\n{stated}\n")
    };
    for (market, name, abv, stated, allergen, expected) in [
        ("UK", "hill rye", 45, "allergens = []", "gluten_cereals", "none"),
        ("EU", "barley malt distillate", 46, "allergens = []", "gluten_cereals", "none"),
        // the larder has it as a whiskey
        ("CA", "rye", 50, "allergens = []", "gluten_cereals", "none"),
        ("CA", "rye", 5, "allergens = []", "gluten_cereals", "contains"),
        ("UK", "hill rye", 45, "", "gluten_cereals", "contains"),
        ("UK", "hill rye", 5, "allergens = []", "gluten_cereals", "contains"),
        ("UK", "hill rye", 45, "allergens = [\"rye\"]", "gluten_cereals", "contains"),
        ("UK", "almond distillate", 45, "allergens = []", "tree_nuts", "contains"),
        ("US", "hill wheat", 45, "allergens = []", "wheat", "contains"),
    ] {
        let menu = bar(market, name, "", &entry(name, abv, stated)).json(&["menu", "."]);
        assert_eq!(mark(&menu, allergen), expected, "{market} {name} {abv} {stated}: {menu}");
    }
}

/// What may be anything is named where its marks are open.
#[test]
fn a_bottle_that_may_be_anything_is_named_with_the_allergens() {
    let larder = "[ingredient.\"still zorbo\"]\nlike = \"neutral spirit 96 %\"\nallergens = []\n";
    let menu = bar("UK", "still zorbo", "", larder).json(&["menu", "."]);
    let drink = &menu["drinks"][0];
    assert_eq!(mark(&menu, "milk"), "not_stated", "{drink}");
    assert_eq!(drink["allergens_not_stated_for"], serde_json::json!(["still zorbo"]), "{drink}");
    assert!(drink["allergens_say"].as_str().unwrap().contains("not stated for still zorbo"), "{drink}");
}

fn garnished(garnish: &str) -> Value {
    bar("UK", "vodka", &format!("garnish = {garnish:?}"), "").json(&["menu", "."])
}

/// Words of how it is cut are no food, and plain pepper is known.
#[test]
fn a_plain_garnish_is_read() {
    for garnish in [
        "a clove studded lemon slice",
        "clove-studded orange",
        "salt and pepper rim",
        "a twist of lemon, expressed and thrown away",
    ] {
        assert_eq!(mark(&garnished(garnish), "milk"), "none", "{garnish}");
    }
}

/// A drizzle of caramel has butter in it as a rule; what is only a picture may be anything.
#[test]
fn a_garnish_that_may_be_another_thing_is_asked() {
    for (garnish, milk, peanut) in [("caramel drizzle", "not_stated", "none"), ("🥜", "not_stated", "not_stated")] {
        let menu = garnished(garnish);
        assert_eq!((mark(&menu, "milk").as_str(), mark(&menu, "peanut").as_str()), (milk, peanut), "{garnish}");
    }
}

/// A mist of a house product brings what is in it, through the products in that.
#[test]
fn a_product_that_is_put_on_a_glass_brings_what_it_is_made_of() {
    let kitchen = bar("UK", "vodka", "garnish = \"a mist of Belfry liqueur\"", "");
    let syrup = "name = \"Seed syrup\"\n[[stage]]\nname = \"milk\"\n[stage.parts]\n\"sesame seeds\" = { amount = \"100 g\", strained = true, holds = 1 }\n\
                 water = \"1 kg\"\n[parts]\nmilk = \"1 kg\"\n\"white sugar\" = \"1 kg\"\n";
    kitchen.write("syrup.toml", syrup);
    kitchen.write("belfry.toml", "name = \"Belfry liqueur\"\n[parts]\nvodka = \"1 L\"\n\"Seed syrup\" = \"300 g\"\n");
    let menu = kitchen.json(&["menu", "."]);
    assert_eq!([mark(&menu, "sesame"), mark(&menu, "milk")], ["contains", "none"], "{menu}");
}

const GIN: &str = "[ingredient.\"field gin\"]\nfood = \"sold as food, label\"\nabv = 43\nallergens = []\n\
                   [ingredient.\"hill zorbo\"]\nfood = \"sold as food, label\"\nabv = 45\nallergens = []\n";

/// A general name of a bottle that the house has under one of its own is asked, and is no all-clear.
#[test]
fn without_a_general_name_asks_for_the_bottle_of_the_house() {
    let kitchen = bar("UK", "field gin", "", GIN);
    for (written, meant) in [("gin", "field gin"), ("whisky", "")] {
        let (code, page, said) = kitchen.run(&["menu", ".", "--without", written]);
        if meant.is_empty() {
            // nothing here is called whisky, but of the bottle only its strength is stated
            assert!(code == Some(2) && said.contains("field gin"), "{page}{said}");
        } else {
            assert!(code == Some(2) && said.contains(&format!("--without \"{meant}\"")), "{page}{said}");
        }
        assert!(!page.contains("nothing on the menu is made with it"), "{page}");
    }
    let gone = kitchen.json(&["menu", ".", "--without", "field gin"]);
    assert_eq!(gone["without"][0]["drinks"][0]["of"], "Old", "{gone}");
    let none = kitchen.json(&["menu", ".", "--without", "honey"]);
    assert_eq!(none["without"][0]["drinks"], serde_json::json!([]), "{none}");
}

/// What is only on a glass by that name, or goes in under a name of its own, is no all-clear either.
#[test]
fn without_a_kind_asks_for_what_is_of_it() {
    let kitchen = bar("UK", "vodka", "garnish = \"a slice of lemon\"", "");
    kitchen.write(
        "vane.toml",
        "name = \"Vane bitters\"\n[parts]\nvodka = \"100 ml\"\ngentian = { amount = \"2 g\", strained = true }\n",
    );
    kitchen.write("old.toml", "name = \"Old\"\nhow = \"built\"\n[parts]\nvodka = \"40 ml\"\n\"Vane bitters\" = \"2 ml\"\nstout = \"100 ml\"\n");
    for (written, meant) in [("bitters", "Vane bitters"), ("beer", "tout")] {
        let (code, page, said) = kitchen.run(&["menu", ".", "--without", written]);
        assert!(code == Some(2) && said.contains(meant), "{written}: {page}{said}");
    }
}

/// What an aim leaves out of a product is not missed by the drinks of it.
#[test]
fn what_an_aim_leaves_out_takes_no_drink_down() {
    let kitchen = bar(
        "UK",
        "Liqueur",
        "",
        "[ingredient.honey]\nlike = \"honey\"\nprice = \"9 EUR / 1 kg\"\n[ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1 EUR / 1 kg\"\n",
    );
    kitchen.write("liqueur.toml", "name = \"Liqueur\"\nmakes = \"1 L\"\n[target]\nsugar = \"200 g/L\"\n[parts]\nvodka = \"500 ml\"\nhoney = \"as needed\"\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[aim]\nleast = \"cost\"\n");
    let fallen =
        |name: &str| kitchen.json(&["menu", ".", "--without", name])["without"][0]["drinks"].as_array().unwrap().len();
    assert_eq!((fallen("honey"), fallen("white sugar")), (0, 1));
}

/// A drink that is given away is on the menu all the same.
#[test]
fn a_drink_for_nothing_is_on_the_menu() {
    let kitchen = bar("UK", "vodka", "", "");
    kitchen.write("menu.toml", "[drink.Old]\nprice = \"0 GBP\"\n");
    let menu = kitchen.json(&["menu", "."]);
    assert_eq!(menu["drinks"][0]["price"], "0.00", "{menu}");
    assert_eq!(menu["drinks"][0]["pour_cost"], Value::Null);
}

/// Two days of which nobody says where: the sheet says what that took, and what the fridge would give.
#[test]
fn a_stage_that_stood_warm_says_so_and_what_the_fridge_would_buy() {
    let kitchen = Kitchen::new("");
    let shrub = |at: &str| {
        format!(
            "name = \"Shrub\"\n[[stage]]\nname = \"berry vinegar\"\ntakes = \"2 days\"\n{at}[stage.parts]\nraspberries = {{ amount = \"400 g\", strained = true, holds = -0.5 }}\n\
             \"malt vinegar\" = \"400 ml\"\n[parts]\n\"berry vinegar\" = \"all\"\n\"white sugar\" = \"450 g\"\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n"
        )
    };
    kitchen.write("shrub.toml", &shrub(""));
    let dated = kitchen.json(&["date", "shrub.toml"]);
    let said = dated.to_string();
    assert!(said.contains("it stood warm before it was bottled") && said.contains("the day it goes in"), "{said}");
    let change = dated["what_if"]
        .as_array()
        .unwrap()
        .iter()
        .find(|change| change["change"].as_str().unwrap().contains("at = \"4 °C\""));
    let fridge = |buys: &Value| buys["days"].as_f64();
    let bought = fridge(&change.unwrap_or_else(|| panic!("{said}"))["buys"][0]);
    kitchen.write("shrub.toml", &shrub("at = \"4 °C\"\n"));
    let cold = kitchen.json(&["date", "shrub.toml"]);
    assert_eq!(cold["stores"].as_array().unwrap().iter().find_map(fridge), bought, "{cold}");
    assert!(!cold.to_string().contains("it stood warm"), "{cold}");
}

/// Milk that clears a drink leaves its curd in the strainer: where no line says so, that is asked.
#[test]
fn a_milk_punch_is_asked_for_its_curd() {
    let asked = |above: &str, milk: &str| {
        let kitchen = Kitchen::new("");
        let card =
            format!("{above}\n[parts]\nvodka = \"500 ml\"\n\"lemon juice\" = \"100 ml\"\n\"whole milk\" = {milk}\n");
        kitchen.write("punch.toml", &card);
        kitchen.run(&["date", "punch.toml"]).2.contains("the curd of `whole milk`")
    };
    let strained = "{ amount = \"200 ml\", strained = true, holds = -0.6 }";
    for above in [
        "name = \"x\"\nwashed = \"milk\"",
        "name = \"Clarified punch\"",
        "name = \"Milchpunsch\"",
        "name = \"x\"\nclass = \"milk punch\"",
    ] {
        assert!(asked(above, "\"200 ml\"") && !asked(above, strained), "{above}");
    }
    assert!(!asked("name = \"White lady\"", "\"200 ml\""));
}

/// Half of sesame is oil, as of almonds: what is made of either turns rancid alike.
#[test]
fn oily_seeds_turn_rancid_as_nuts_do() {
    let days = |seed: &str| {
        let kitchen = Kitchen::new("");
        let card = format!(
            "name = \"Liqueur\"\n[[stage]]\nname = \"ground\"\ntakes = \"4 h\"\nat = \"4 °C\"\n[stage.parts]\n{seed} = {{ amount = \"150 g\", strained = true, holds = 1 }}\n\
             water = \"1 kg\"\n[target]\nabv = 19\n[parts]\nground = \"500 g\"\nvodka = \"as needed\"\n\"white sugar\" = \"300 g\"\n[keep]\nclosed = true\n"
        );
        kitchen.write("liqueur.toml", &card);
        let dated = kitchen.json(&["date", "liqueur.toml"]);
        dated["stores"].as_array().unwrap().iter().map(|store| store["days"].clone()).collect::<Vec<_>>()
    };
    let almonds = days("almonds");
    assert!(almonds.iter().any(Value::is_number), "{almonds:?}");
    assert_eq!(days("\"sesame seeds\""), almonds);
    assert_ne!(days("\"fennel seeds\""), almonds);
}

/// A fifth of canned coconut milk is oil: a batida is no clear liqueur that keeps for years. Coconut water has none of it.
#[test]
fn the_oil_of_a_plant_milk_turns_rancid_and_coconut_water_has_none() {
    let days = |milk: &str| {
        let kitchen = Kitchen::new("");
        let card = format!(
            "name = \"Batida\"\n[parts]\n\"white rum 40 %\" = \"500 ml\"\n\"{milk}\" = \"300 ml\"\n\"white sugar\" = \"200 g\"\n[keep]\nclosed = true\n"
        );
        kitchen.write("batida.toml", &card);
        kitchen.json(&["date", "batida.toml"])["stores"][0]["days"].as_f64().unwrap()
    };
    assert!(days("coconut milk") <= 60.0);
    assert!(days("oat drink") <= 60.0);
    assert!(days("coconut water") > 60.0);
}

/// Less than a step of the jigger is dashed in alike, and what is weighed keeps its grams on the page.
#[test]
fn a_swap_leaves_what_is_dashed_and_weighed_as_it_is() {
    let kitchen = bar("UK", "vodka", "", "");
    let drink = "name = \"Old\"\nhow = \"stirred\"\nwater = \"30 g\"\n[parts]\nvodka = \"50 ml\"\n\"worcestershire sauce\" = \"2 dashes\"\n\"celery salt\" = \"a pinch\"\n";
    kitchen.write("old.toml", drink);
    let swap = kitchen.json(&["swap", "old.toml", "--old", "worcestershire sauce", "--new", "soy sauce"]);
    let line = |of: &str| swap["lines"].as_array().unwrap().iter().find(|line| line["of"] == of).unwrap().clone();
    let ml = |key: &str| line("soy sauce")[key].as_f64().unwrap();
    assert!((ml("before_ml") - ml("nearest_ml")).abs() < 1e-9, "{swap}");
    assert!(line("celery salt")["weighed_g"].as_f64().unwrap() > 0.0, "{swap}");
}

/// What the house has under a longer name, another strength or another language is what a card means by its everyday name: with its
/// price, and said. Scotch is no Irish whiskey, and 50 % is another bottle.
#[test]
fn what_the_house_has_of_the_same_thing_is_meant() {
    let larder = "[ingredient.\"white rum 40 %\"]\nabv = 40\nallergens = []\nprice = \"20 GBP / 700 ml\"\n\
                  [ingredient.\"white sugar\"]\nlike = \"white sugar\"\nprice = \"1 GBP / 1 kg\"\n\
                  [ingredient.\"irish whiskey\"]\nabv = 40\nallergens = []\n";
    let taken = |name: &str, larder: &str| {
        let kitchen = Kitchen::unstated(larder);
        let card = format!("name = \"x\"\n[parts]\n{name:?} = \"100 ml\"\nwater = \"1 l\"\n");
        kitchen.write("x.toml", &card);
        let (made, said) = (kitchen.json(&["solve", "x.toml"]), kitchen.run(&["solve", "x.toml"]));
        (made["assumed"].to_string(), said)
    };
    for (name, entry) in [
        ("white rum", "white rum 40 %"),
        ("light rum", "white rum 40 %"),
        ("rum", "white rum 40 %"),
        ("weißer Rum", "white rum 40 %"),
        ("caster sugar", "white sugar"),
        ("Zucker", "white sugar"),
    ] {
        let (assumed, _) = taken(name, larder);
        assert!(assumed.contains(&format!("{name} is taken as {entry}, which larder.toml has")), "{name}: {assumed}");
    }
    for name in ["scotch", "white rum 50 %", "gold rum", "white rum 40 %"] {
        let (assumed, _) = taken(name, larder);
        assert!(!assumed.contains("which larder.toml has"), "{name}: {assumed}");
    }
    let two = format!("{larder}[ingredient.\"white rum 37.5 %\"]\nabv = 37.5\nallergens = []\n");
    let (assumed, said) = taken("white rum", &two);
    assert!(!assumed.contains("which larder.toml has"), "{assumed}");
    let said = format!("{said:?}");
    assert!(said.contains("may be several of the house's own") && said.contains("white rum 37.5 %"), "{said}");
    // an overproof one is named as one
    let strong = "[ingredient.\"white rum 63 %\"]\nabv = 63\nallergens = []\n";
    assert!(!taken("white rum", strong).0.contains("which larder.toml has"));
}
