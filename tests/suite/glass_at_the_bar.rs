//! What a bar reads of its drinks: the ice in cost and menu, fruit on the order list, ounces, what a bottle is finished with.

use serde_json::Value;
use stillroom::units::jigger::in_ounces;
use stillroom::vocabulary::MeasureSystem;

use crate::kitchen::Kitchen;

/// Its lines put together again.
fn told(kitchen: &Kitchen, arguments: &[&str]) -> String {
    kitchen.run(arguments).1.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn row<'a>(rows: &'a Value, of: &str) -> &'a Value {
    rows.as_array().unwrap().iter().find(|row| row["of"] == of).unwrap_or_else(|| panic!("{of}: {rows}"))
}

const LARDER: &str = "[ingredient.\"house rum\"]\nabv = 40\nprice = \"20.00 GBP / 700 ml\"\nallergens = []\n\
                      [ingredient.\"shell rum\"]\nabv = 40\nallergens = [\"molluscs\"]\n\
                      [ingredient.\"lime juice\"]\nlike = \"lime juice\"\nprice = \"3.00 GBP / pack of 12\"\npiece = \"26 g\"\n";
const SYRUP: &str = "name = \"Half syrup\"\n[parts]\n\"white sugar\" = \"50 g\"\nwater = \"50 g\"\n\
                     [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

fn house(settings: &str, cards: &[(&str, &str)]) -> Kitchen {
    let house = format!("[house]\ncurrency = \"GBP\"\n{settings}");
    Kitchen::new(LARDER).with(&[("house", &house), ("syrup", SYRUP)]).with(cards)
}

/// By hand: 20 g of a syrup that is half water has 10 g of it, and the ice gave 30 g more.
#[test]
fn water_of_a_syrup_is_not_water_from_ice() {
    let sour = "name = \"Sour\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\n\"house rum\" = \"50 g\"\n\"Half syrup\" = \"20 g\"\n";
    let cost = house("", &[("sour", sour)]).json(&["cost", "sour.toml"]);
    let grams = |of| row(&cost["lines"], of)["mass_g"].as_f64().unwrap();
    assert!((grams("water from ice") - 30.0).abs() < 1e-6 && (grams("water") - 10.0).abs() < 1e-6, "{cost}");
}

/// Without ice no drink that meets it is made, and one that meets none is.
#[test]
fn a_menu_without_ice_loses_what_meets_it() {
    let card = |name: &str, how: &str| format!("name = {name:?}\nhow = {how:?}\n[parts]\n\"house rum\" = \"50 ml\"\n");
    let kitchen = house("", &[("cold", &card("Cold", "stirred")), ("warm", &card("Warm", "built"))]);
    kitchen.write("menu.toml", "[drink.Cold]\n[drink.Warm]\n");
    let menu = kitchen.json(&["menu", ".", "--without", "ice"]);
    let gone = menu["without"][0]["drinks"].as_array().unwrap();
    assert!(gone.len() == 1 && gone[0]["of"] == "Cold", "{menu}");
}

/// By hand: 12 glasses take 12 limes in wheels and 12 x 26 g of juice, a lime each: 24 limes are 2 packs of 12 at 3.00. Sold by the
/// glass, nobody weighs the fruit.
#[test]
fn limes_stand_on_one_line_of_the_order() {
    let sour = "name = \"Sour\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\n\"house rum\" = \"50 ml\"\nlime = \"1 each\"\n\"lime juice\" = \"26 g\"\n";
    let kitchen = house("", &[("sour", sour)]);
    kitchen.write("plan.toml", "[plan]\nfrom = 2026-11-30\ndays = 7\n");
    kitchen.write("menu.toml", "[drink.Sour]\nprice = \"9 GBP\"\nsold = 12\n");
    let plan = kitchen.json(&["plan", "."]);
    let lime = row(&plan["orders"], "lime");
    assert_eq!((&lime["need"], &lime["packs"], &lime["unit"]), (&24.0.into(), &2.into(), &"each".into()), "{plan}");
    assert_eq!(lime["cost"], "6.00", "{plan}");
    assert_eq!(plan["orders"].as_array().unwrap().len(), 2, "limes and rum: {plan}");
}

/// 3/4 of an imperial fluid ounce of 28.413 ml is 21.31 ml; jiggers have no sixths.
#[test]
fn ounces_are_those_of_the_house_and_of_a_jigger() {
    let imperial = Some(MeasureSystem::Imperial);
    assert_eq!(in_ounces(0.75 * 28.413_062_5, imperial).unwrap(), "3/4 oz");
    assert_eq!(in_ounces(22.5, imperial), None);
    assert_eq!(in_ounces(25.0, None).unwrap(), "3/4 oz + 1/2 bsp");
    assert_eq!(in_ounces(35.0, None).unwrap(), "1 oz + 1 bsp");
    assert_eq!(in_ounces(33.0, None), None);
    let sour = "name = \"Sour\"\nhow = \"shaken\"\n[parts]\n\"house rum\" = \"0.75 jigger oz\"\n\"Half syrup\" = \"1/2 fl oz\"\n";
    let metric = house("measures = \"metric\"\n", &[("sour", &sour.replace("1/2 fl oz", "15 ml"))])
        .json(&["serve", "sour.toml"]);
    let rum = row(&metric["lines"], "house rum");
    assert!(rum["in_ounces"] == "3/4 oz" && rum["counted"].is_null(), "{metric}");
    let imperial = house("measures = \"imperial\"\n", &[("sour", sour)]).json(&["serve", "sour.toml"]);
    assert_eq!(row(&imperial["lines"], "Half syrup")["in_ounces"], "1/2 oz", "{imperial}");
}

/// The card of a batch, its sheet and its label say what the bottle is finished with; a blended glass says its ice.
#[test]
fn a_batch_keeps_what_is_added_for_a_guest() {
    let slush = "name = \"Slush\"\nhow = \"blended\"\n[ice]\ngrams = \"200 g\"\n[parts]\n\"house rum\" = \"50 ml\"\n\"lime juice\" = \"22.5 ml\"\n";
    let kitchen = house("", &[("slush", slush)]);
    let ahead = kitchen.json(&["serve", "slush.toml", "--make", "1", "-o", "batch.toml"]);
    let guest = "add 22.5 ml lime juice, blend with 200 g of ice";
    assert!(ahead["for_a_guest"].as_str().unwrap().ends_with(guest), "{ahead}");
    assert_eq!(ahead["blended_with_g"], serde_json::json!([200.0, 200.0]), "{ahead}");
    let page = told(&kitchen, &["serve", "slush.toml", "--make", "1"]);
    assert!(page.contains("1 glass ahead") && !page.contains("1 glasses") && page.contains(guest), "{page}");
    let card = std::fs::read_to_string(kitchen.folder().join("batch.toml")).unwrap();
    assert!(card.contains(guest), "{card}");
    for arguments in [&["solve", "batch.toml", "--full"][..], &["label", "batch.toml"]] {
        let page = told(&kitchen, arguments);
        assert!(page.contains(guest), "{arguments:?}: {page}{}", kitchen.run(arguments).2);
    }
    // what a maker notes is the maker's
    kitchen.write("batch.toml", &card.replacen("class ", "notes  = \"cost too much\"\nclass ", 1));
    assert!(!told(&kitchen, &["label", "batch.toml"]).contains("cost too much"));
}

/// Milk in the glass and milk in the syrup of it are one sentence for the drink, and one for the card of the syrup.
#[test]
fn check_says_once_that_a_card_has_allergens() {
    let milk = "name = \"Milk syrup\"\n[parts]\nmilk = \"50 g\"\n\"white sugar\" = \"50 g\"\n";
    let drink = "name = \"Milk drink\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\n\"house rum\" = \"50 ml\"\n\"Milk syrup\" = \"20 ml\"\nmilk = \"20 ml\"\n";
    let (_, _, said) = house("", &[("milk", milk), ("drink", drink)]).run(&["check", "drink.toml"]);
    assert_eq!(said.matches("Milk drink: Contains allergens").count(), 1, "{said}");
    assert!(!said.contains("from Milk syrup: Contains allergens"), "{said}");
}

/// A glass is one serving: 0.1 g of tonka has at most 3.5 mg of coumarin, 0.3 g has 10.5 mg, and 6 mg are the most of a day for 60 kg.
/// Of a syrup somebody has to say how much of it is served.
#[test]
fn a_glass_is_one_serving_of_tonka() {
    let of = |head: &str, grams: &str| {
        let card =
            format!("name = \"Tonka\"\n{head}\n[parts]\n\"house rum\" = \"50 ml\"\n\"tonka bean\" = \"{grams} g\"\n");
        let kitchen = house("", &[("tonka", &card)]);
        kitchen.run(&["check", "tonka.toml"]).2
    };
    let drink = "how = \"built\"";
    assert!(!of(drink, "0.1").contains("how much is served"), "{}", of(drink, "0.1"));
    assert!(
        !of(drink, "0.1").contains("passes the tolerable daily")
            && of(drink, "0.3").contains("passes the tolerable daily")
    );
    assert!(of("", "0.1").contains("how much is served"), "{}", of("", "0.1"));
}

/// What is swapped for itself leaves nothing different; what is swapped for another tastes of it.
#[test]
fn what_is_swapped_for_itself_tastes_the_same() {
    let drink = "name = \"Rum\"\nhow = \"built\"\n[parts]\n\"house rum\" = \"50 ml\"\n";
    let kitchen = house("", &[("rum", drink)]);
    let swap = |new: &str| told(&kitchen, &["swap", "rum.toml", "--old", "house rum", "--new", new]);
    assert!(swap("House rum").contains("still different: nothing"), "{}", swap("House rum"));
    assert!(swap("vodka").contains("flavour and colour"), "{}", swap("vodka"));
}

/// "wheat" of the US list and "wheat and triticale" of the Canadian one are one row of the page, "crustaceans" and "crustaceans and
/// molluscs" where no drink tells them apart; the JSON keeps each.
#[test]
fn the_rows_of_two_markets_are_not_said_twice() {
    let drink = |part: &str| format!("name = \"Rum\"\nhow = \"built\"\n[parts]\n\"house rum\" = \"50 ml\"\n{part}");
    let page = |part: &str| {
        let kitchen = house("market = [\"CA\", \"US\"]\n", &[("rum", &drink(part))]);
        kitchen.write("menu.toml", "[drink.Rum]\nprice = \"9 GBP\"\n");
        let rows = kitchen.json(&["menu", "."])["drinks"][0]["matrix"].as_array().unwrap().len();
        (kitchen.run(&["menu", "."]).1, rows)
    };
    let starts = |page: &str, with: &str| page.lines().filter(|line| line.trim_start().starts_with(with)).count();
    let (plain, rows) = page("");
    assert_eq!((starts(&plain, "wheat"), starts(&plain, "crustaceans")), (1, 1), "{plain}");
    let (oyster, same) = page("\"shell rum\" = \"5 ml\"\n");
    assert!(starts(&oyster, "crustaceans") == 2 && rows == same, "{oyster}");
}

/// What is put down as weighed can have been: less than is poured is another drink.
#[test]
fn weighings_that_cannot_be_are_refused() {
    let rum =
        |ice: &str| format!("name = \"Rum\"\nhow = \"stirred\"\n[parts]\n\"house rum\" = \"50 ml\"\n[ice]\n{ice}");
    for ice in [
        "grams = \"50 g\"\nbefore = \"10 g\"\nafter = \"200 g\"",
        "before = \"10 g\"\nafter = \"40 g\"",
        "grams = \"0 g\"",
        "at = \"5 °C\"",
    ] {
        let (_, page, said) = house("", &[("rum", &rum(ice))]).run(&["serve", "rum.toml"]);
        assert!(page.is_empty() && said.contains("error["), "{ice}: {page}{said}");
    }
}

/// By hand: 60 g of an inner drink with 10 to 60 g of water in 110 to 160 g of it hold 13.6 to 9.4 ml of alcohol.
#[test]
fn a_drink_in_a_drink_has_two_ends_of_units() {
    let inner = "name = \"Inner\"\nhow = \"shaken\"\n[parts]\n\"house rum\" = \"50 ml\"\n[ice]\ngrams = \"300 g\"\n";
    let outer = "name = \"Outer\"\nhow = \"built\"\nwater = \"0 g\"\n[parts]\nInner = \"60 ml\"\n";
    let kitchen = house("", &[("inner", inner), ("outer", outer)]);
    kitchen.write("menu.toml", "[drink.Inner]\n[drink.Outer]\n");
    let page = kitchen.json(&["serve", "outer.toml"]);
    let ends = |what: &str| ["with_least_water", "with_most_water"].map(|end| page[end][what].as_f64().unwrap());
    let [dry, wet] = ends("uk_units");
    let [strong, weak] = ends("abv_pct");
    assert!(dry > wet * 1.1 && (dry / strong - wet / weak).abs() < 1e-3 * dry / strong, "{page}");
    assert!(told(&kitchen, &["serve", "outer.toml"]).contains(&format!("= {wet:.2} to {dry:.2} UK units")));
    assert!(told(&kitchen, &["card", "print", "outer.toml"]).contains(&format!("= {wet:.2} to {dry:.2} UK units")));
    let menu = kitchen.json(&["menu", "."]);
    let units = |of| row(&menu["drinks"], of)["uk_units_range"].clone();
    assert_eq!(units("Outer"), serde_json::json!([wet, dry]));
    let [low, high] = [0, 1].map(|end| units("Inner")[end].as_f64().unwrap());
    assert!(high - low < 1e-9, "the ice of a drink takes no alcohol away: {menu}");
    assert!(told(&kitchen, &["menu", "."]).contains(&format!("{wet:.2} to {dry:.2}")), "{menu}");
}

/// What is asked wrongly is all that is wrong: the syrup in it is chosen by its own aim.
#[test]
fn a_wrong_question_finds_no_fault_in_what_is_chosen() {
    let cordial = "name = \"Cordial\"\n[parts]\n\"lime juice\" = \"400 g\"\n\"white sugar\" = \"as needed\"\nwater = \"100 g\"\n\
                   [target]\nbrix = \"at least 40 °Bx\"\n[aim]\nleast = \"waste\"\n";
    let gimlet = "name = \"Gimlet\"\nhow = \"shaken\"\n[parts]\n\"house rum\" = \"50 ml\"\nCordial = \"20 ml\"\n";
    let kitchen = house("", &[("cordial", cordial), ("gimlet", gimlet)]);
    let (_, _, said) = kitchen.run(&["serve", "gimlet.toml", "--make", "0"]);
    assert_eq!(said.matches("error[").count(), 1, "{said}");
}

/// What hangs at the bar is poured by the jigger: no scale, no pan, and the water of the ice is nothing to weigh in.
#[test]
fn the_printed_card_of_a_drink_is_a_glass() {
    let sour = "name = \"Sour\"\nhow = \"shaken\"\nglass = \"coupe\"\ngarnish = \"a strip of lime zest\"\nsteps = [\"Shake hard.\"]\n\
                [parts]\n\"house rum\" = \"45 ml\"\n\"Half syrup\" = \"15 ml\"\nmilk = \"10 ml\"\n";
    let kitchen = house("", &[("sour", sour)]);
    let card = told(&kitchen, &["card", "print", "sour.toml"]);
    for said in [
        "one glass, shaken, coupe",
        "[ ] 45 ml (1 1/2 oz) house rum",
        "[ ] garnish: a strip of lime zest",
        "[ ] Shake hard.",
        "ALLERGENS: milk",
    ] {
        assert!(card.contains(said), "{said}: {card}");
    }
    assert!(!card.contains("scale") && !card.contains("pan now") && !card.contains("melts"), "{card}");
    assert!(card.contains("in the glass") && !card.contains("costs"), "{card}");
    assert!(told(&kitchen, &["card", "print", "sour.toml", "--cost"]).contains("Cost:"));
    for file in ["sour.pdf", "sour.html", "sour.svg"] {
        let (_, _, said) = kitchen.run(&["card", "print", "sour.toml", "-o", file]);
        assert!(std::fs::metadata(kitchen.folder().join(file)).is_ok_and(|file| file.len() > 500), "{file}: {said}");
    }
    let (_, _, said) = kitchen.run(&["card", "print", "sour.toml", "--make", "2 L"]);
    assert!(said.contains("one guest's glass"), "{said}");
}

/// Two glasses in one tin weigh twice what is poured, and give twice the water: it is asked, and no other drink learns it. With the tin
/// on the scale the difference is right.
#[test]
fn two_glasses_in_one_tin_are_asked() {
    let rum = |name: &str, ice: &str| {
        format!(
            "name = {name:?}\nhow = \"stirred\"\n[parts]\n\"house rum\" = \"100 g\"\n[ice]\ngrams = \"300 g\"\n{ice}"
        )
    };
    let other = rum("Other", "");
    let said = |before: u32, after: u32| {
        let weighed = rum("Rum", &format!("before = \"{before} g\"\nafter = \"{after} g\"\n"));
        let kitchen = house("", &[("rum", &weighed), ("other", &other)]);
        let learned = !kitchen.json(&["serve", "other.toml"])["ice_water"]["house_weighed"].is_null();
        (kitchen.run(&["serve", "rum.toml"]).2.contains("2 times what is poured"), learned)
    };
    assert_eq!(said(200, 270), (true, false));
    assert_eq!((said(100, 140), said(350, 390)), ((false, true), (false, true)));
}

/// Nobody has stated the milk of what came in, so none is said to be gone; and what had no alcohol is said to have it.
#[test]
fn a_swap_takes_no_allergen_out_that_nobody_has_denied() {
    let cream = "name = \"Cream\"\nhow = \"shaken\"\nwater = \"20 g\"\n[parts]\n\"heavy cream\" = \"30 ml\"\n\"lime juice\" = \"20 ml\"\n";
    let kitchen = house("", &[("cream", cream)]);
    let swap = |new: &str| {
        let (_, page, said) = kitchen.run(&["swap", "cream.toml", "--old", "heavy cream", "--new", new]);
        format!("{page}{said}").split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let vermouth = swap("vermouth");
    assert!(vermouth.contains("milk: no longer named, and not stated for Sweet red vermouth"), "{vermouth}");
    let rum = swap("house rum");
    assert!(rum.contains("no longer in it: milk") && rum.contains("it was free of alcohol"), "{rum}");
    assert!(!swap("whole milk").contains("free of alcohol"));
}

/// What is added for a guest is drunk with the bottle: as long as nobody has stated its allergens there is no label.
#[test]
fn what_is_added_for_a_guest_counts_for_the_label() {
    let fizz = "name = \"Fizz\"\nhow = \"shaken\"\nwater = \"20 g\"\n[parts]\n\"house rum\" = \"50 ml\"\nvermouth = { amount = \"20 ml\", after = \"ice\" }\n\"coconut cream\" = \"10 ml\"\n";
    let kitchen = house("", &[("fizz", fizz)]);
    kitchen.run(&["serve", "fizz.toml", "--make", "4", "-o", "batch.toml"]);
    let (_, page, said) = kitchen.run(&["label", "batch.toml"]);
    assert!(page.is_empty() && said.contains("what is added for a guest are not stated"), "{page}{said}");
    // a product of the house that is sprayed on it brings what it is made of
    let drops = "name = \"Drops\"\n[parts]\n\"house rum\" = \"100 g\"\n\"celery seed\" = { amount = \"5 g\", strained = true }\n\"dried bitter orange peel\" = { amount = \"5 g\", strained = true }\n";
    let rum = "name = \"Rum\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\n\"house rum\" = \"50 ml\"\nDrops = \"2 sprays\"\n";
    let kitchen = house("", &[("drops", drops), ("rum", rum)]);
    kitchen.run(&["serve", "rum.toml", "--make", "4", "-o", "batch.toml"]);
    let page = told(&kitchen, &["label", "batch.toml", "--fresh"]);
    assert!(page.contains("with Seville orange: it may change how a medicine acts"), "{page}");
    assert!(page.contains("for a guest also celery"), "{page}{}", kitchen.run(&["label", "batch.toml", "--fresh"]).2);
}

/// A garnish that is eaten, an oil that is sprayed and the very fruit that the caution names are in no line and in the glass.
#[test]
fn what_changes_medicines_is_named_from_a_garnish_and_a_step() {
    let card = |rest: &str| {
        format!("name = \"Cup\"\nhow = \"shaken\"\nwater = \"30 g\"\n{rest}[parts]\n\"house rum\" = \"50 ml\"\n")
    };
    let speaks = |rest: &str| {
        let menu = house("", &[("cup", &card(rest))]).json(&["serve", "cup.toml"]);
        menu["cautions"].as_array().unwrap().iter().any(|caution| caution["code"] == "grapefruit")
    };
    for named in [
        "garnish = \"a wedge of grapefruit\"\n",
        "garnish = \"a rim of Seville orange zest\"\n",
        "glass = \"tumbler with a grapefruit salt rim\"\n",
        "steps = [\"Shake.\", \"Express a grapefruit peel over it.\"]\n",
    ] {
        assert!(speaks(named), "{named}");
    }
    for other in [
        "garnish = \"orange zest\"\n",
        "notes = \"The rum tastes of grapefruit.\"\n",
        "steps = [\"Use no grapefruit.\"]\n",
    ] {
        assert!(!speaks(other), "{other}");
    }
}

/// Fire is fire whichever spirit burns; a stove that is lit is not asked about.
#[test]
fn a_spirit_that_is_lit_is_asked_about_by_any_name() {
    let asks = |step: &str| {
        let card = format!(
            "name = \"Cup\"\nhow = \"built\"\nsteps = [{step:?}]\n[parts]\n\"house rum\" = \"50 ml\"\nwater = \"30 ml\"\n"
        );
        told(&house("", &[("cup", &card)]), &["serve", "cup.toml"]).contains("whether it is set alight")
    };
    for lit in [
        "Light the absinthe in the glass.",
        "Light the gin.",
        "Flame the glass with absinthe.",
        "Zünde den Absinth an.",
        "Allumer l'absinthe.",
        "Enciende la absenta.",
        "Accendi il rum.",
    ] {
        assert!(asks(lit), "{lit}");
    }
    for other in ["Light the hob and warm the water.", "Keep it from light the whole day.", "Zünde den Herd an."] {
        assert!(!asks(other), "{other}");
    }
}

/// What comes out of a jar or a tub holds what its maker put in: mustard in a pickle's brine, sulphites in the cherry's, anything in sprinkles.
#[test]
fn what_comes_out_of_a_jar_is_not_stated() {
    let said = |rest: &str, part: &str| {
        let card = format!(
            "name = \"Cup\"\nhow = \"shaken\"\nwater = \"30 g\"\n{rest}[parts]\n\"house rum\" = \"50 ml\"\n{part}"
        );
        let glass = house("", &[("cup", &card)]).json(&["serve", "cup.toml"]);
        glass["allergens_say"].as_str().unwrap().to_owned()
    };
    for part in ["gherkin brine", "pickle brine", "olive brine"] {
        let said = said("", &format!("{part:?} = \"10 ml\"\n"));
        assert!(said.contains("not stated"), "{part}: {said}");
    }
    for garnish in ["a pickle", "sprinkles", "Rainbow sprinkles on top", "an amarena", "bacon", "popcorn"] {
        let said = said(&format!("garnish = {garnish:?}\n"), "");
        assert!(said.contains("not stated"), "{garnish}: {said}");
    }
    for garnish in ["a sprinkle of cinnamon", "cucumber", "an olive"] {
        assert_eq!(said(&format!("garnish = {garnish:?}\n"), ""), "no allergen named", "{garnish}");
    }
}

/// A glass of 25 % keeps no carton of cream, and a bottle of a drink is filled from bottles: nobody pours the spirit that its liqueur was
/// made with.
#[test]
fn what_is_told_of_a_glass_is_told_of_what_it_is_poured_from() {
    let codes = |page: &Value| -> Vec<String> {
        page["cautions"].as_array().unwrap().iter().map(|of| of["code"].as_str().unwrap().to_owned()).collect()
    };
    let cup = |cream: &str| {
        format!("name = \"Cup\"\nhow = \"stirred\"\nwater = \"5 g\"\n[parts]\n\"house rum\" = \"60 ml\"\n{cream}")
    };
    let with_cream = house("", &[("cup", &cup("\"heavy cream\" = \"30 ml\"\n"))]);
    let glass = with_cream.json(&["serve", "cup.toml"]);
    assert!(glass["abv_pct"].as_f64().unwrap() > 20.0 && codes(&glass).contains(&"dairy_egg".into()), "{glass}");
    assert!(codes(&with_cream.json(&["serve", "cup.toml", "--make", "10"])).contains(&"dairy_egg".into()));
    let liqueur = "name = \"Cherry\"\n[parts]\n\"neutral spirit 96%\" = \"200 ml\"\nwater = \"600 ml\"\n\"white sugar\" = \"200 g\"\n";
    let kitchen = house("", &[("cup", &cup("Cherry = \"30 ml\"\n")), ("cherry", liqueur)]);
    let ahead = kitchen.json(&["serve", "cup.toml", "--make", "10", "-o", "ahead.toml"]);
    let sheet = kitchen.json(&["solve", "ahead.toml"]);
    assert!(
        !codes(&ahead).contains(&"spirit_vapour".into()) && !codes(&sheet).contains(&"spirit_vapour".into()),
        "{sheet}"
    );
    assert!(codes(&kitchen.json(&["solve", "cherry.toml"])).contains(&"spirit_vapour".into()));
}

/// A drink that is made into another is made for the same guest: what its steps leave open is open there too.
#[test]
fn what_a_drink_inside_asks_is_asked_outside() {
    let inner = "name = \"Torch\"\nhow = \"shaken\"\nwater = \"30 g\"\nsteps = [\"Shake.\", \"Light the rum.\"]\n[parts]\n\"house rum\" = \"50 ml\"\n";
    let outer = "name = \"Tall\"\nhow = \"built\"\n[parts]\nTorch = \"60 ml\"\n\"soda water\" = \"60 ml\"\n";
    let kitchen = house("", &[("torch", inner), ("tall", outer)]);
    for card in ["torch.toml", "tall.toml"] {
        let page = told(&kitchen, &["serve", card]);
        assert!(page.contains("whether it is set alight"), "{card}: {page}");
    }
}
