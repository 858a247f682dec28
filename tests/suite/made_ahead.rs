//! What meets the ice and what comes behind it; what of a drink is bottled, and how full.

use serde_json::Value;

use crate::kitchen::{Kitchen, number};

fn house(cards: &[(&str, &str)]) -> Kitchen {
    let house = "[stores]\nfridge = \"4 °C\"\nfreezer = \"-18 °C\"\n";
    Kitchen::new("").with(&[("house", house)]).with(cards)
}

/// By hand: 45 g and 51 g, so 48 g in the middle; a glass that pours as much has it too, a tenth of it less to as much more at
/// least. Forty glasses in bottles have 40 x 48 g. A glass in a glass has the water that it has by itself.
#[test]
fn weighings_of_drinks_made_alike_set_the_water() {
    let weighed = |name: &str, grams: u32| {
        format!("name = {name:?}\nhow = \"shaken\"\nwater = \"{grams} g\"\n[parts]\nvodka = \"100 g\"\n")
    };
    let own = "name = \"Own\"\nhow = \"shaken\"\n[parts]\nvodka = \"100 g\"\n";
    let outer = "name = \"Outer\"\nhow = \"built\"\nwater = \"0 g\"\n[parts]\nOwn = \"148 g\"\n";
    let kitchen = house(&[("a", &weighed("A", 45)), ("b", &weighed("B", 51)), ("own", own), ("outer", outer)]);
    let served = kitchen.json(&["serve", "own.toml"]);
    let water = &served["ice_water"];
    assert!((number(&water["grams"]) - 48.0).abs() < 1e-6, "{water}");
    assert!(
        (number(&water["least_g"]) - 43.2).abs() < 1e-6 && (number(&water["most_g"]) - 52.8).abs() < 1e-6,
        "{water}"
    );
    let (outer, own) = (kitchen.json(&["serve", "outer.toml"]), number(&served["abv_pct"]));
    assert!((number(&outer["abv_pct"]) - own).abs() < 1e-9, "{outer}");
    let ahead = kitchen.json(&["serve", "own.toml", "--make", "40"]);
    assert!((number(&ahead["water_g_per_glass"]) - 48.0).abs() < 1e-6, "{ahead}");
    let water = ahead["lines"].as_array().unwrap().iter().find(|line| line["of"].as_str().unwrap().contains("water"));
    assert!((number(&water.unwrap()["mass_g"]) - 1920.0).abs() < 0.1, "{ahead}");
    kitchen.write("menu.toml", "[drink.Own]\n");
    let menu = kitchen.json(&["menu", "."]);
    assert!((number(&menu["drinks"][0]["mass_g"]) - 148.0).abs() < 1e-6, "{menu}");
}

/// What was weighed lies below what the balance of heat allows: that is said. What is far from it nobody learns from.
#[test]
fn weighings_that_lie_outside_the_balance_are_said_to() {
    let own = "name = \"Own\"\nhow = \"shaken\"\n[parts]\nvodka = \"100 g\"\n";
    let served = |grams: f64| {
        let weighed = format!("name = \"A\"\nhow = \"shaken\"\nwater = \"{grams} g\"\n[parts]\nvodka = \"100 g\"\n");
        let kitchen = house(&[("a", &weighed), ("own", own)]);
        let said = kitchen.run(&["serve", "a.toml"]).2;
        (kitchen.json(&["serve", "own.toml"])["ice_water"].clone(), kitchen.run(&["serve", "own.toml"]).1, said)
    };
    let least = number(&served(0.5).0["least_g"]);
    let (water, page, said) = served(0.8 * least);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("outside") && page.contains("balance of heat"), "{page}");
    assert_eq!(water["house_weighed"]["drinks"], 1);
    assert!(!said.contains("reading-differs"), "{said}");
    let (water, _, said) = served(0.1 * least);
    assert!(water["house_weighed"].is_null() && said.contains("reading-differs"), "{water}: {said}");
}

const FIZZ: &str =
    "name = \"Fizz\"\nhow = \"built\"\n[ice]\ngrams = \"100 g\"\n[parts]\ngin = \"40 ml\"\nprosecco = \"80 ml\"\n";

/// What sparkles is opened for the guest, whatever the larder calls it.
#[test]
fn what_sparkles_is_never_bottled_ahead() {
    for wine in ["prosecco", "champagne", "cava", "sparkling wine", "soda water", "house prosecco"] {
        let larder = "[ingredient.\"house prosecco\"]\nabv = 11\nallergens = [\"sulphites\"]\n";
        let kitchen = house(&[("fizz", &FIZZ.replace("prosecco", &format!("{wine:?}")))]);
        kitchen.write("larder.toml", larder);
        let ahead = kitchen.json(&["serve", "fizz.toml", "--make", "10", "--store", "freezer"]);
        let of = |key: &str| {
            ahead[key].as_array().unwrap().iter().map(|l| l["of"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(of("at_service"), [wine], "{ahead}");
        assert_eq!(of("lines"), ["gin"]);
    }
}

/// A batch of water alone, and of what is all added for the guest, is no batch.
#[test]
fn a_batch_of_which_nothing_keeps_is_refused() {
    for parts in
        ["\"lime juice\" = \"20 ml\"\nprosecco = \"80 ml\"\n", "\"lime juice\" = \"20 ml\"\nwater = \"50 ml\"\n"]
    {
        let card = format!("name = \"Fresh\"\nhow = \"shaken\"\n[parts]\n{parts}");
        let (code, page, said) = house(&[("fresh", &card)]).run(&["serve", "fresh.toml", "--make", "10"]);
        assert_eq!(code, Some(1), "{page}{said}");
        assert!(said.contains("nothing of this drink keeps"), "{said}");
    }
}

/// By hand: ice takes 1/0.917 of the room of its water, so a bottle of 700 ml that may freeze gets nine tenths, 630 ml; 3.5 L of a
/// drink too weak for the freezer are then five bottles and a sixth begun, not five.
#[test]
fn a_bottle_in_which_ice_forms_is_not_filled_to_the_brim() {
    let card = "name = \"Weak\"\nhow = \"shaken\"\nwater = \"20 g\"\n[parts]\nvodka = \"20 ml\"\n\"simple syrup\" = \"30 ml\"\n";
    let kitchen = house(&[("weak", card)]);
    let in_store = |store| kitchen.json(&["serve", "weak.toml", "--make", "50", "--store", store]);
    for (store, filled) in [("fridge", 700.0), ("freezer", 630.0)] {
        let ahead = in_store(store);
        let ml = number(&ahead["yield"]["volume_ml"]);
        assert_eq!(number(&ahead["filled_ml"]), filled, "{ahead}");
        assert_eq!(number(&ahead["full_bottles"]), (ml / filled).floor(), "{ahead}");
        let grams = number(&ahead["yield"]["mass_g"]);
        assert!((number(&ahead["bottle_g"]) - grams * filled / ml).abs() < 1e-6, "{ahead}");
    }
}

/// What fizzes is never shaken, and a float never stirred: a shaken drink with soda takes the water of the drink without it.
#[test]
fn what_goes_in_after_the_ice_meets_none() {
    let short = "name = \"Short\"\nhow = \"shaken\"\n[parts]\ngin = \"50 ml\"\n\"lime juice\" = \"25 ml\"\n";
    let long = "name = \"Long\"\nhow = \"shaken\"\n[parts]\ngin = \"50 ml\"\n\"lime juice\" = \"25 ml\"\n\"soda water\" = \"100 ml\"\n";
    let float = "name = \"Float\"\nhow = \"shaken\"\n[parts]\ngin = \"50 ml\"\n\"lime juice\" = \"25 ml\"\n\
                 \"red wine\" = { amount = \"15 ml\", after = \"ice\" }\n";
    let kitchen = house(&[("short", short), ("long", long), ("float", float)]);
    let water = |card: &str| {
        let of = kitchen.json(&["serve", card]);
        let ice = &of["ice_water"];
        let after: Vec<bool> =
            of["lines"].as_array().unwrap().iter().map(|l| l["after_ice"].as_bool().unwrap()).collect();
        (["least_g", "grams", "most_g"].map(|key| number(&ice[key])), after)
    };
    let (alone, _) = water("short.toml");
    for card in ["long.toml", "float.toml"] {
        let (of, after) = water(card);
        assert_eq!(after, [false, false, true]);
        assert!(of.iter().zip(alone).all(|(a, b)| (a - b).abs() < 1e-9), "{card}: {of:?} {alone:?}");
    }
    let (_, page, _) = kitchen.run(&["serve", "float.toml"]);
    assert!(page.contains("red wine, after the ice"), "{page}");
    let ahead = kitchen.json(&["serve", "float.toml", "--make", "10"]);
    assert_eq!(ahead["at_service"].as_array().unwrap().len(), 2, "{ahead}");
    let syrup = "name = \"Syrup\"\nmakes = \"1 L\"\n[parts]\n\"white sugar\" = \"500 g\"\nwater = { amount = \"500 g\", after = \"ice\" }\n";
    let (code, _, said) = house(&[("syrup", syrup)]).run(&["solve", "syrup.toml"]);
    assert!(code == Some(1) && said.contains("no drink"), "{said}");
}

/// A drink that weighs less than was poured, or gains more water than there was ice, or ice of 5 °C, was not weighed.
#[test]
fn weighings_and_ice_that_cannot_be_are_refused() {
    let with = |keys: &str| format!("name = \"Sour\"\nhow = \"shaken\"\n{keys}\n[parts]\nvodka = \"100 g\"\n");
    for keys in [
        "[ice]\nbefore = \"60 g\"\nafter = \"90 g\"",
        "[ice]\ngrams = \"20 g\"\nbefore = \"100 g\"\nafter = \"130 g\"",
        "water = \"130 g\"\n[ice]\ngrams = \"100 g\"",
        "[ice]\nat = \"5 °C\"",
        "[ice]\ngrams = \"0 g\"",
    ] {
        let (code, page, said) = house(&[("sour", &with(keys))]).run(&["serve", "sour.toml"]);
        assert_eq!(code, Some(1), "{keys}: {page}{said}");
    }
    for keys in [
        "[ice]\nbefore = \"102 g\"\nafter = \"130 g\"",
        "[ice]\nbefore = \"400 g\"\nafter = \"428 g\"",
        "[ice]\ngrams = \"200 g\"\nat = \"-18 °C\"",
        "water = \"0 g\"",
    ] {
        let (code, page, said) = house(&[("sour", &with(keys))]).run(&["serve", "sour.toml"]);
        assert_eq!(code, Some(0), "{keys}: {page}{said}");
    }
}

/// What stands behind the range is named, the vessel and the water on the ice with it.
#[test]
fn what_was_taken_for_granted_names_vessel_and_wet_ice() {
    let card = "name = \"Sour\"\nhow = \"shaken\"\n[parts]\nvodka = \"100 g\"\n";
    let (_, page, _) = house(&[("sour", card)]).run(&["serve", "sour.toml", "--full"]);
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    // a cube of 32 mm under a film of 0.1 to 0.2 mm: 6 x 0.1 / (32 x 0.917) = 2.0 % and 4.1 %
    assert!(page.contains("2 to 4 % of it water on its surface"), "{page}");
    assert!(page.contains("0.05 to 0.2 kJ for each degree") && page.contains("21 °C"), "{page}");
}

/// By hand, over the sum of squares of what is told apart. Ethanol weighs 0.789 g/ml, vodka and white rum are of 40 %: for 50 ml of rum
/// 20 ml of spirit of 96 % hold 0.789 x (19.2 - 20) = 0.63 g less in 30 ml less (0.40 + 9.0), 22.5 ml 1.26 g more in 27.5 ml less
/// (1.59 + 7.6), 25 ml 3.2 g more (10 + 6.3). The egg white is no filler. With 60 ml of soda water in the glass that makes it up: 75 ml
/// of it and 22.5 ml of spirit are 1.26 g over in 12.5 ml less, with six steps (1.59 + 1.56 + 1.5).
#[test]
fn only_the_new_part_and_plain_water_are_moved() {
    let swap = |parts: &str, old: &str, new: &str| {
        let sour = format!("name = \"Sour\"\nhow = \"built\"\n[parts]\n\"white rum\" = \"50 ml\"\n{parts}");
        let swap = house(&[("sour", &sour)]).json(&["swap", "sour.toml", "--old", old, "--new", new]);
        let lines = swap["lines"].as_array().unwrap_or_else(|| panic!("{swap}")).iter();
        lines.map(|line| number(&line["nearest_ml"]).round()).collect::<Vec<_>>()
    };
    assert_eq!(swap("\"egg white\" = \"20 ml\"\n", "white rum", "neutral spirit 96 %"), [23.0, 20.0]);
    let longer = swap("\"egg white\" = \"20 ml\"\n\"soda water\" = \"60 ml\"\n", "white rum", "neutral spirit 96 %");
    assert!((20.0..=23.0).contains(&longer[0]) && longer[1] == 20.0 && longer[2] > 70.0, "{longer:?}");
    // one mixer for another fills the glass as that did
    assert_eq!(swap("\"soda water\" = \"100 ml\"\n", "soda water", "tonic water"), [50.0, 100.0]);
}

/// What is left out of the bottles is named with why, and what is done with it at the bar is not lost: egg is shaken, a swizzle has its
/// ice, boiling water is poured hot.
#[test]
fn what_is_not_bottled_is_said_and_what_is_done_for_the_guest() {
    let ahead = |how: &str, parts: &str| {
        let card =
            format!("name = \"Sour\"\n{how}\n[parts]\nvodka = \"50 ml\"\n\"elderflower liqueur\" = \"10 ml\"\n{parts}");
        let kitchen = house(&[("sour", &card)]);
        let (_, page, said) = kitchen.run(&["serve", "sour.toml", "--make", "40", "--store", "fridge"]);
        let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(page.contains("for a guest"), "{page}{said}");
        page
    };
    let egg = ahead("how = \"shaken\"", "\"lemon juice\" = \"25 ml\"\n\"egg white\" = \"20 ml\"\n");
    assert!(egg.contains("not bottled: lemon juice (fresh juice), egg white (egg)"), "{egg}");
    assert!(egg.contains("20 ml egg white, shake hard without ice"), "{egg}");
    let swizzle = "how = \"swizzled\"\n[ice]\ngrams = \"250 g\"\nkind = \"crushed\"";
    let swizzle = ahead(swizzle, "\"lemon juice\" = \"25 ml\"\n");
    assert!(swizzle.contains("25 ml lemon juice, swizzle with 250 g of crushed ice"), "{swizzle}");
    let hot = ahead("how = \"built\"", "\"boiling water\" = \"120 ml\"\n");
    assert!(hot.contains("not bottled: boiling water (hot)") && hot.contains("add 120 ml boiling water"), "{hot}");
    for water in
        ["kochendes Wasser", "heißes Wasser", "eau bouillante", "agua caliente", "acqua calda", "just-boiled water"]
    {
        let hot = ahead("how = \"built\"", &format!("\"{water}\" = \"120 ml\"\n"));
        assert!(hot.contains(&format!("{water} (hot)")), "{hot}");
    }
}

/// Water can be added and not taken out: where nobody weighed the ice the bottles have the least that it may give, and both ends of the
/// strength are told.
#[test]
fn an_unweighed_batch_begins_at_its_dry_end() {
    let card = "name = \"Sour\"\nhow = \"stirred\"\n[parts]\nvodka = \"60 ml\"\nsherry = \"15 ml\"\n";
    let kitchen = house(&[("sour", card)]);
    let glass = kitchen.json(&["serve", "sour.toml"]);
    let ahead = kitchen.json(&["serve", "sour.toml", "--make", "40", "--store", "fridge"]);
    let least = number(&glass["ice_water"]["least_g"]);
    assert!((number(&ahead["water_g_per_glass"]) - least).abs() < 1e-6, "{ahead}");
    // the glass with the most water is as strong as the weak end of the bottle
    let (strong, weak) = (number(&ahead["abv_pct"]), number(&ahead["abv_with_most_water_pct"]));
    assert!((strong - number(&glass["with_least_water"]["abv_pct"])).abs() < 0.05, "{strong}");
    assert!((weak - number(&glass["with_most_water"]["abv_pct"])).abs() < 0.05, "{weak}");
    let (_, page, _) = kitchen.run(&["serve", "sour.toml", "--make", "40", "--store", "fridge"]);
    assert!(page.contains(&format!("{strong:.1} down to")), "{page}");
}

/// A nought too many in one glass is asked about; four doubles of a bowl drink are not.
#[test]
fn a_glass_for_a_table_is_asked_about() {
    for (amount, asked) in [("500 ml", true), ("160 ml", false)] {
        let card = format!("name = \"Sour\"\nhow = \"built\"\n[parts]\nvodka = \"{amount}\"\n");
        let (code, _, said) = house(&[("sour", &card)]).run(&["serve", "sour.toml"]);
        assert_eq!(said.contains("more than one guest's glass"), asked, "{said}");
        assert_eq!(code, Some(0), "it is asked, and served");
    }
}

/// What would be too thick for its store is filled with so much less of its water that it pours, and each glass gets the rest of it.
#[test]
fn what_would_be_too_thick_is_filled_so_that_it_pours() {
    let of = |water: u32, store: &str| {
        let card = format!("name = \"Sour\"\nhow = \"stirred\"\nwater = \"{water} g\"\n[parts]\nvodka = \"60 ml\"\n");
        house(&[("sour", &card)]).json(&["serve", "sour.toml", "--make", "40", "--store", store])
    };
    let cold = of(60, "freezer");
    let less = number(&cold["water_left_out_g_per_glass"]);
    assert!(cold["slush"] == "pours" && less > 0.0, "{cold}");
    assert_eq!(number(&cold["water_g_per_glass"]), 60.0 - less, "{cold}");
    // a gram more in the bottle is too much, and what is less needs nothing
    assert_eq!(number(&of(61 - less as u32, "freezer")["water_left_out_g_per_glass"]), 1.0);
    let (pours, fridge) = (of(60 - less as u32, "freezer"), of(60, "fridge"));
    assert!(pours["water_left_out_g_per_glass"].is_null() && fridge["water_left_out_g_per_glass"].is_null());
    // the glass is the same drink
    let pour = |of: &Value| number(&of["pour"]["mass_g"]);
    assert!((pour(&cold) + less - pour(&fridge)).abs() < 0.01, "{cold}");
    let guest = cold["for_a_guest"].as_str().unwrap();
    assert!(guest.contains(&format!(", add {less:.0} ml cold water, ")), "{guest}");
    // and the bottle is another one than one with all its water
    let name = |of: &Value| of["card"].as_str().unwrap().lines().next().unwrap().to_owned();
    assert_eq!(
        (name(&cold), name(&fridge)),
        ("name   = \"Sour, for the freezer\"".into(), "name   = \"Sour, batch\"".into())
    );
}

/// What pours out of no such store whatever is left out is not written, and the command for one that it pours out of is ready.
#[test]
fn what_does_not_pour_gets_no_card() {
    let weak = "name = \"Weak\"\nhow = \"stirred\"\nwater = \"5 g\"\n[parts]\nvodka = \"20 ml\"\nwater = \"80 ml\"\n";
    let kitchen = house(&[("weak", weak)]);
    let (code, page, said) =
        kitchen.run(&["serve", "weak.toml", "--make", "10", "--store", "freezer", "-o", "ahead.toml"]);
    assert_eq!(code, Some(1), "{page}{said}");
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("ahead.toml is not written: out of the freezer it does not pour"), "{said}");
    let command = "stillroom serve \"weak.toml\" --make 10 --store \"fridge\" -o \"ahead.toml\"";
    assert!(said.contains(command), "{said}");
    assert!(!kitchen.folder().join("ahead.toml").exists());
    let written = kitchen.json(&["serve", "weak.toml", "--make", "10", "--store", "fridge", "-o", "ahead.toml"]);
    assert_eq!(written["written"], "ahead.toml", "{written}");
}

/// Milk that a spirit was washed with is strained off with its curd: the spirit is bottled with the rest.
#[test]
fn a_spirit_washed_with_milk_is_bottled() {
    let washed = "name = \"Soft vodka\"\nwashed = \"milk\"\n[parts]\nvodka = \"700 ml\"\n\"whole milk\" = { amount = \"250 ml\", strained = true, holds = 0.3 }\n";
    let drink = "name = \"Sail\"\nhow = \"shaken\"\n[parts]\n\"Soft vodka\" = \"40 ml\"\n\"whole milk\" = \"20 ml\"\n";
    let ahead = house(&[("soft", washed), ("sail", drink)]).json(&["serve", "sail.toml", "--make", "40"]);
    let of = |key: &str| ahead[key].as_array().unwrap_or_else(|| panic!("{ahead}"))[0]["of"].clone();
    assert_eq!((of("lines"), of("at_service")), ("Soft vodka".into(), "whole milk".into()));
}

/// A house that has weighed no such drink, so that the ice gives a range; `card` without the name.
fn shaken(card: &str) -> Kitchen {
    house(&[("flip", &format!("name = \"Flip\"\nhow = \"shaken\"\n{card}"))])
}

const FLIP: &str = "[ice]\ngrams = \"200 g\"\n[parts]\nbrandy = \"45 ml\"\nhoney = \"20 g\"\negg = \"1 each\"\n";

/// The bottle has the least water and the sheet says to taste for more: the date holds with the most of it, and the card that is
/// written keeps that date. With the water weighed nothing more goes in.
#[test]
fn the_date_holds_with_all_the_water_that_may_still_go_in() {
    let kitchen = shaken(FLIP);
    let ahead = kitchen.json(&["serve", "flip.toml", "--make", "20", "--made", "2026-12-01", "-o", "batch.toml"]);
    let (weak, filled) = (&ahead["store"], &ahead["store_as_filled"]);
    assert!(number(&weak["days"]) < number(&filled["days"]), "{weak} against {filled}");
    // the same drink with the most of the range weighed in is dated as the bottle that may become it
    let most = number(&ahead["water_range_g_per_glass"][1]);
    let wet = FLIP.replace("[ice]", &format!("water = \"{most:.2} g\"\n[ice]"));
    kitchen.write("wet.toml", &format!("name = \"Wet\"\nhow = \"shaken\"\n{wet}"));
    let weighed = kitchen.json(&["serve", "wet.toml", "--make", "20", "--made", "2026-12-01"]);
    assert_eq!((&weighed["store"]["date"], &weighed["store_as_filled"]), (&weak["date"], &Value::Null), "{weighed}");
    assert!(!weighed["card"].as_str().unwrap().contains("more_water"), "{weighed}");
    let dated = kitchen.json(&["date", "batch.toml", "--made", "2026-12-01"]);
    let fridge = dated["stores"].as_array().unwrap().iter().find(|store| store["store"] == "fridge").unwrap();
    assert_eq!(fridge["date"], weak["date"], "{dated}");
    assert!(fridge["notes"].to_string().contains("water that may still go in"), "{dated}");
    // no question that holds up a label
    assert_eq!(dated["assumed"], serde_json::json!([]), "{dated}");
    // without the key the bottle is what was filled
    let card = std::fs::read_to_string(kitchen.folder().join("batch.toml")).unwrap();
    let kept: Vec<&str> = card.lines().filter(|line| !line.starts_with("more_water")).collect();
    kitchen.write("batch.toml", &kept.join("\n"));
    let dated = kitchen.json(&["date", "batch.toml", "--made", "2026-12-01"]);
    let fridge = dated["stores"].as_array().unwrap().iter().find(|store| store["store"] == "fridge").unwrap();
    assert_eq!(fridge["date"], filled["date"], "{dated}");
}

#[test]
fn water_that_may_still_go_in_is_a_share() {
    let card = |written: &str| format!("name = \"x\"\n[parts]\nvodka = \"1 L\"\n[keep]\nmore_water = {written}\n");
    for wrong in ["\"-5 %\"", "\"300 %\"", "\"20 g\"", "20"] {
        let (code, _, said) = house(&[("x", &card(wrong))]).run(&["solve", "x.toml"]);
        assert!(code != Some(0) && said.contains("more_water"), "{wrong}: {said}");
    }
}

/// Cream that goes in for the guest, and the water of chickpeas in the bottle, are shaken for the guest; what goes in behind the ice
/// comes after that.
#[test]
fn what_is_shaken_for_its_foam_is_shaken_for_the_guest() {
    for (part, end) in [
        ("\"double cream\" = \"30 ml\"", "add 30 ml double cream, shake hard without ice, add 10 ml port"),
        (
            "aquafaba = \"20 ml\"\n\"lemon juice\" = \"20 ml\"",
            "add 20 ml aquafaba, 20 ml lemon juice, shake hard without ice, add 10 ml port",
        ),
        ("\"lemon juice\" = \"20 ml\"", "add 20 ml lemon juice, shake without ice, add 10 ml port"),
    ] {
        let card = format!(
            "water = \"30 g\"\n[parts]\nbrandy = \"45 ml\"\n{part}\nport = {{ amount = \"10 ml\", after = \"ice\" }}\n"
        );
        let ahead = shaken(&card).json(&["serve", "flip.toml", "--make", "10"]);
        assert!(ahead["for_a_guest"].as_str().unwrap().ends_with(&format!("{end}, serve it cold, no ice")), "{ahead}");
    }
}

/// What is less than a bottle is all in the one: no column is headed with what it does not hold.
#[test]
fn less_than_a_bottle_has_no_column_of_its_own() {
    let card = "water = \"30 g\"\n[parts]\nbrandy = \"45 ml\"\n\"white sugar\" = \"5 g\"\n";
    for (glasses, has) in [("5", false), ("20", true)] {
        let (_, page, _) = shaken(card).run(&["serve", "flip.toml", "--make", glasses]);
        assert_eq!(page.contains("g in 700 ml"), has, "{page}");
    }
}

/// What spoils as milk does is not bottled, however strong the rest of it is: plant milks, the water of chickpeas, coffee.
#[test]
fn what_spoils_goes_in_for_the_guest() {
    for part in ["coconut milk", "oat milk", "aquafaba", "espresso"] {
        let card =
            format!("water = \"30 g\"\n[parts]\nbrandy = \"45 ml\"\n\"white sugar\" = \"5 g\"\n{part:?} = \"30 ml\"\n");
        let ahead = shaken(&card).json(&["serve", "flip.toml", "--make", "10"]);
        let added = &ahead["at_service"];
        assert_eq!((&added[0]["of"], &added[0]["why"]), (&part.into(), &"perishable".into()), "{ahead}");
        assert_eq!(ahead["lines"].as_array().unwrap().len(), 3, "{ahead}");
    }
}

/// A bottle that may still be watered goes into another card, or into the freezer: neither has the life of the dry end.
#[test]
fn water_that_may_still_go_in_counts_wherever_the_bottle_goes() {
    let bottle = "name = \"Lift\"\n[parts]\ngin = \"500 g\"\n\"earl grey\" = \"300 g\"\n\"white sugar\" = \"60 g\"\n[keep]\nmore_water = \"60 %\"\n";
    let dry = bottle.replace("[keep]\nmore_water = \"60 %\"\n", "");
    let cup = "name = \"Cup\"\n[parts]\nLift = \"500 g\"\nwater = \"20 g\"\n";
    let days = |bottle: &str, card: &str, store: &str| {
        let kitchen = house(&[("lift", bottle), ("cup", cup)]);
        let dated = kitchen.json(&["date", card]);
        let of = dated["stores"].as_array().unwrap().iter().find(|of| of["store"] == store).unwrap().clone();
        (of["days"].as_u64(), of["frozen"].as_bool().unwrap())
    };
    for card in ["lift.toml", "cup.toml"] {
        let (wet, dry) = (days(bottle, card, "fridge").0.unwrap(), days(&dry, card, "fridge").0.unwrap());
        assert!(wet < dry / 2, "{card}: {wet} of {dry} days");
    }
    // what is too strong to freeze may freeze with its water
    let (spirit, watered) = (days(&dry, "lift.toml", "freezer"), days(bottle, "lift.toml", "freezer"));
    assert!(!spirit.1 && watered.1, "{spirit:?} {watered:?}");
}

/// A drink that goes into another brings its own doubt: with the least water of both it is strongest, with the most of both weakest.
#[test]
fn a_drink_in_a_drink_has_the_range_of_both() {
    let inner = "name = \"Inner\"\nhow = \"shaken\"\n[parts]\nvodka = \"50 ml\"\n\"lime juice\" = \"20 ml\"\n";
    let outer =
        "name = \"Outer\"\nhow = \"built\"\nwater = \"0 g\"\n[parts]\nInner = \"60 ml\"\n\"soda water\" = \"60 ml\"\n";
    let kitchen = house(&[("inner", inner), ("outer", outer)]);
    let ends = |card: &str| {
        let served = kitchen.json(&["serve", card]);
        [&served["with_least_water"]["abv_pct"], &served["with_most_water"]["abv_pct"]].map(number)
    };
    let (inner, outer) = (ends("inner.toml"), ends("outer.toml"));
    assert!(inner[0] > inner[1] + 1.0, "{inner:?}");
    // 60 ml of 120, but for what the volumes do not add up to
    for (inner, outer) in inner.into_iter().zip(outer) {
        assert!((outer - inner / 2.0).abs() < 0.1, "{inner} and {outer}");
    }
}

/// No more water comes from the ice than there is ice, whatever other drinks got from theirs.
#[test]
fn the_ice_is_the_most_that_melts() {
    let weighed =
        "name = \"A\"\nhow = \"shaken\"\nwater = \"60 g\"\n[parts]\nvodka = \"100 g\"\n[ice]\ngrams = \"300 g\"\n";
    let own = "name = \"Own\"\nhow = \"shaken\"\n[parts]\nvodka = \"100 g\"\n[ice]\ngrams = \"20 g\"\n";
    let water = house(&[("a", weighed), ("own", own)]).json(&["serve", "own.toml"])["ice_water"].clone();
    assert_eq!(water["house_weighed"]["drinks"], 1);
    assert!(number(&water["most_g"]) <= 20.0 && number(&water["grams"]) <= number(&water["most_g"]), "{water}");
}

/// No lot is kept of a drink: what is bottled of a drink with a drink in it is weighed by what both are made of.
#[test]
fn a_drink_in_a_drink_is_poured_out_into_its_parts() {
    let inner = "name = \"Inner\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\ngin = \"50 g\"\nTonic = \"30 g\"\n";
    let outer = "name = \"Outer\"\nhow = \"stirred\"\nwater = \"10 g\"\n[parts]\nInner = \"50 g\"\ngin = \"5 g\"\n";
    let tonic = "name = \"Tonic\"\n[parts]\n\"white sugar\" = \"50 g\"\nwater = \"50 g\"\n";
    let kitchen = house(&[("inner", inner), ("outer", outer), ("tonic", tonic)]);
    let ahead = kitchen.json(&["serve", "outer.toml", "--make", "10"]);
    let g = |of: &str| {
        let lines = ahead["lines"].as_array().unwrap();
        number(&lines.iter().find(|line| line["of"] == of).unwrap_or_else(|| panic!("{of}: {ahead}"))["mass_g"])
    };
    // half of 50 + 30 + 20 g in each of ten glasses
    for (of, hand) in [("gin", 300.0), ("Tonic", 150.0), ("water, in place of the ice inside", 100.0)] {
        assert!((g(of) - hand).abs() < 0.1, "{of}: {ahead}");
    }
    assert!((g("water, in place of ice") - 100.0).abs() < 0.1);
}

/// By hand: 60 g of rum a glass and nothing of its ice, 100 times that in the bottles; each glass is stirred on its ice.
#[test]
fn undiluted_bottles_hold_no_water_of_the_ice() {
    let stir = "name = \"Stir\"\nhow = \"stirred\"\nwater = \"20 g\"\n[ice]\ngrams = \"150 g\"\nkind = \"cubes\"\n[parts]\nvodka = \"60 g\"\ngin = \"2 sprays\"\n";
    let kitchen = house(&[("stir", stir)]);
    let ahead = kitchen.json(&["serve", "stir.toml", "--make", "100", "--undiluted"]);
    let lines: Vec<(&str, f64)> =
        ahead["lines"].as_array().unwrap().iter().map(|l| (l["of"].as_str().unwrap(), number(&l["mass_g"]))).collect();
    assert_eq!(lines, [("vodka", 6000.0)], "{ahead}");
    let guest = ahead["for_a_guest"].as_str().unwrap();
    assert!(guest.ends_with("stir with 150 g of ice cubes, strain, add 2 sprays of gin"), "{guest}");
    let with_it = kitchen.json(&["serve", "stir.toml", "--make", "100"]);
    assert!(with_it["lines"].to_string().contains("2000.0"), "{with_it}");
    assert!(
        with_it["for_a_guest"].as_str().unwrap().ends_with("(80 g), add 2 sprays of gin, serve it cold, no ice"),
        "{with_it}"
    );
}

/// Rum and syrup of a sour inside keep, its juice does not, and what the card pours of the same juice is added with it. By hand: half a
/// sour of 60 g of rum, 20 g of juice and 20 g of water hold 30, 10 and 10; 15 g of juice more are 25.
#[test]
fn of_a_drink_inside_what_keeps_is_bottled() {
    let sour =
        "name = \"Sour\"\nhow = \"shaken\"\nwater = \"20 g\"\n[parts]\nvodka = \"60 g\"\n\"lime juice\" = \"20 g\"\n";
    let long = "name = \"Long\"\nhow = \"built\"\n[parts]\nSour = \"50 g\"\n\"lime juice\" = \"15 g\"\n\"soda water\" = \"100 g\"\n";
    let kitchen = house(&[("sour", sour), ("long", long)]);
    let ahead = kitchen.json(&["serve", "long.toml", "--make", "10"]);
    let grams: Vec<f64> = ahead["lines"].as_array().unwrap().iter().map(|l| number(&l["mass_g"])).collect();
    assert!(grams.len() == 2 && (grams[0] - 300.0).abs() < 0.1 && (grams[1] - 100.0).abs() < 0.1, "{ahead}");
    let added = ahead["at_service"].as_array().unwrap();
    let of = |name: &str| added.iter().filter(|a| a["of"] == name).map(|a| number(&a["mass_g"])).collect::<Vec<_>>();
    assert!(of("lime juice").len() == 1 && (of("lime juice")[0] - 25.0).abs() < 1e-6, "{ahead}");
    assert_eq!(of("soda water"), [100.0], "{ahead}");
    // gas of a drink inside is not shaken, and a float is none of the bottle
    let fizz = "name = \"Fizz\"\nhow = \"shaken\"\nwater = \"20 g\"\n[parts]\nLong = \"80 g\"\ngin = \"30 g\"\n\"egg white\" = \"15 g\"\nFloat = { amount = \"10 g\", after = \"ice\" }\n";
    let float = "name = \"Float\"\nhow = \"built\"\n[parts]\nvodka = \"5 g\"\n\"lime juice\" = \"5 g\"\n";
    let kitchen = house(&[("sour", sour), ("long", long), ("fizz", fizz), ("float", float)]);
    let guest = kitchen.json(&["serve", "fizz.toml", "--make", "10"])["for_a_guest"].as_str().unwrap().to_owned();
    let shaken = guest.find("shake hard").unwrap_or_else(|| panic!("{guest}"));
    assert!(guest.find("Long") > Some(shaken) && guest.find("Float") > Some(shaken), "{guest}");
}

#[test]
fn water_that_is_added_hot_says_so() {
    let cup = "name = \"Cup\"\nhow = \"built\"\n[parts]\nvodka = \"50 ml\"\nwater = { amount = \"120 ml\", at = \"92 °C\" }\n";
    let ahead = house(&[("cup", cup)]).json(&["serve", "cup.toml", "--make", "30"]);
    assert!(ahead["for_a_guest"].as_str().unwrap().ends_with("add 120 ml water at 92 °C"), "{ahead}");
}
