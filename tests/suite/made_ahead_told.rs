//! What is told of a drink that is made ahead, or poured hot: what its label says once it may be watered, no two orders against
//! each other, what is shaken for its foam, how much ice hot parts melt.

use serde_json::Value;

use crate::kitchen::{Kitchen, number};

fn house(cards: &[(&str, &str)]) -> Kitchen {
    let house = "[house]\nmarket = [\"EU\"]\n[stores]\nfridge = \"4 °C\"\nfreezer = \"-18 °C\"\n";
    Kitchen::new("[ingredient.gin]\nabv = 44\nallergens = []\n").with(&[("house", house)]).with(cards)
}

fn page(kitchen: &Kitchen, arguments: &[&str]) -> String {
    let (_, page, said) = kitchen.run(arguments);
    format!("{page}{said}").split_whitespace().collect::<Vec<_>>().join(" ")
}

const STIRRED: &str = "name = \"Stirred\"\nhow = \"stirred\"\n[ice]\ngrams = \"150 g\"\n[parts]\ngin = \"45 ml\"\n\"white sugar\" = \"8 g\"\nwater = \"40 ml\"\n";

/// The pour with all the water is the pour as filled and what the ice may still give.
#[test]
fn what_may_be_watered_says_its_strength_and_its_pour_as_filled() {
    let kitchen = house(&[("stirred", STIRRED)]);
    let ahead = kitchen.json(&["serve", "stirred.toml", "--make", "20", "--store", "fridge", "-o", "b.toml"]);
    let range = &ahead["water_range_g_per_glass"];
    let most_g = number(&ahead["pour"]["mass_g"]) + number(&range[1]) - number(&range[0]);
    let guest = ahead["for_a_guest"].as_str().unwrap();
    assert!(
        guest.contains(" if no water was added to the bottle, up to ")
            && guest.ends_with(&format!("({most_g:.0} g) if all of it was, serve it cold, no ice")),
        "{guest}"
    );
    let label = kitchen.json(&["label", "b.toml", "--size", "large"]);
    let (full, least) = (number(&label["abv_pct"]), number(&label["abv_with_most_water_pct"]));
    assert!((full - number(&ahead["abv_pct"])).abs() < 0.01, "{label}");
    assert!((least - number(&ahead["abv_with_most_water_pct"])).abs() < 0.05, "{label}");
}

/// A bottle that is too thick to pour is not asked for more water in the same breath.
#[test]
fn what_is_too_thick_is_not_told_to_take_more_water() {
    let kitchen = house(&[("stirred", STIRRED)]);
    let cold = page(&kitchen, &["serve", "stirred.toml", "--make", "20", "--store", "freezer"]);
    assert!(cold.contains("put none more into the bottle") && !cold.contains("and add water"), "{cold}");
    // nor do its card, and with it its date and its label, say that the water goes into the bottle
    assert!(cold.contains(" ml cold water, more to taste, up to") && !cold.contains("with all its water"), "{cold}");
    let ahead = kitchen.json(&["serve", "stirred.toml", "--make", "20", "--store", "freezer"]);
    assert!(!ahead["card"].as_str().unwrap().contains("more_water"), "{ahead}");
    let fridge = page(&kitchen, &["serve", "stirred.toml", "--make", "20", "--store", "fridge"]);
    assert!(
        fridge.contains("and add water, for none can be taken out") && !fridge.contains("put none more"),
        "{fridge}"
    );
}

/// What stands on a drink goes into no bottle: it neither keeps the drink out of one nor dates it.
#[test]
fn the_garnish_of_a_drink_in_a_drink_is_not_bottled() {
    let outer = "name = \"Outer\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\nInner = \"80 ml\"\n\"dry vermouth\" = \"10 ml\"\n";
    let made = |garnish: &str| {
        let inner = format!(
            "name = \"Inner\"\nhow = \"stirred\"\nwater = \"15 g\"\n{garnish}[parts]\ngin = \"40 ml\"\n\"dry vermouth\" = \"20 ml\"\n"
        );
        house(&[("inner", &inner), ("outer", outer)]).json(&["serve", "outer.toml", "--make", "10"])
    };
    let bare = made("");
    for garnish in ["crushed peanuts", "egg white foam", "whipped cream"] {
        let dressed = made(&format!("garnish = \"{garnish}\"\n"));
        assert_eq!(dressed["lines"], bare["lines"], "{garnish}");
        assert_eq!(dressed["store"]["says"], bare["store"]["says"], "{garnish}");
    }
}

/// 40 g of water at 95 °C in place of 17.5 °C: 40 x 4.18 x 77.5 / 333.6 = 38.8 g of ice more, of which the part of the way that is
/// gone melts.
#[test]
fn what_is_poured_hot_melts_more_ice() {
    let drink = |part: &str| {
        let card =
            format!("name = \"Hot\"\nhow = \"shaken\"\n[ice]\ngrams = \"200 g\"\n[parts]\ngin = \"40 ml\"\n{part}\n");
        let water = house(&[("hot", &card)]).json(&["serve", "hot.toml"])["ice_water"].clone();
        (number(&water["least_g"]), number(&water["most_g"]), water["warm"].to_string())
    };
    let cold = drink("water = \"40 ml\"");
    let hot = drink("water = { amount = \"40 ml\", at = \"95 °C\" }");
    let more = 40.0 * 4.18 * (95.0 - 14.0) / 333.6;
    assert!(hot.0 > cold.0 + 0.6 * more && hot.0 < cold.0 + 1.1 * more, "{hot:?} {cold:?}");
    let boiling = drink("\"boiling water\" = \"40 ml\"");
    assert!(boiling.0 > cold.0 + 10.0 && boiling.2.contains("boiling water at 85 to 100 °C"), "{boiling:?}");
    let espresso = drink("espresso = \"40 ml\"");
    assert!(espresso.0 > cold.0 + 10.0 && espresso.2.contains("espresso at 60 to 85 °C"), "{espresso:?}");
    let cooled = drink("espresso = { amount = \"40 ml\", at = \"17.5 °C\" }");
    assert!(cooled.1 < espresso.1 - 10.0 && !cooled.2.contains("espresso"), "{cooled:?}");
    // only a drink is asked how warm its parts are
    let kitchen = house(&[(
        "syrup",
        "name = \"Syrup\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = { amount = \"1 kg\", at = \"95 °C\" }\n",
    )]);
    assert!(page(&kitchen, &["solve", "syrup.toml"]).contains("only a drink is asked how warm its parts are poured"));
}

#[test]
fn what_foams_by_the_shake_is_shaken_and_what_is_hot_is_cooled() {
    for (part, said) in [
        ("espresso = \"30 ml\"", "add 30.0 ml espresso, cooled, shake hard without ice"),
        ("\"cold brew\" = \"30 ml\"", "shake hard without ice"),
        ("\"pineapple juice\" = \"30 ml\"", "shake hard without ice"),
    ] {
        let card = format!(
            "name = \"Foam\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\ngin = \"40 ml\"\n\"white sugar\" = \"8 g\"\n{part}\n"
        );
        let guest = house(&[("foam", &card)]).json(&["serve", "foam.toml", "--make", "10"])["for_a_guest"].to_string();
        assert!(guest.replace("30 ml", "30.0 ml").contains(said), "{part}: {guest}");
    }
}

/// Anything in a range is right; what is beyond is brought to the nearest end with the room that the aim keeps.
#[test]
fn a_reading_inside_a_range_asks_for_nothing() {
    let card = "name = \"Cordial\"\nmakes = \"2 L\"\n[target]\nbrix = \"44 to 50\"\nacid = \"12 to 16 g/L\"\n[aim]\nmost = \"life\"\n[parts]\n\
                \"white sugar\" = \"as needed\"\n\"citric acid\" = \"as needed\"\nwater = \"as needed\"\n";
    let kitchen = house(&[("cordial", card)]);
    let read = |brix: &str| kitchen.json(&["adjust", "cordial.toml", "--have", "2 L", "--brix", brix]);
    let right = read("47");
    assert_eq!(right["add"], serde_json::json!([]), "{right}");
    let sweet = read("52");
    let (end, add) = (number(&sweet["wanted"]["brix"]), &sweet["add"]);
    assert!((49.0..50.0).contains(&end), "{sweet}");
    assert_eq!((add.as_array().unwrap().len(), &add[0]["of"]), (1, &"water".into()), "{sweet}");
    let weak = read("42");
    assert!((44.0..45.0).contains(&number(&weak["wanted"]["brix"])), "{weak}");
    // what is asked for in place of the range is met as it is
    let set = kitchen.json(&["adjust", "cordial.toml", "--have", "2 L", "--brix", "47", "--set", "brix=45"]);
    assert!((number(&set["wanted"]["brix"]) - 45.0).abs() < 1e-9, "{set}");
}

/// Two cases of six bottles are twelve bottles; the ice of a drink in a drink is ice too.
#[test]
fn cases_are_told_in_bottles_and_the_ice_of_a_drink_in_a_drink_is_counted() {
    let inner =
        "name = \"Inner\"\nhow = \"stirred\"\nwater = \"20 g\"\n[ice]\ngrams = \"100 g\"\n[parts]\ngin = \"80 g\"\n";
    let outer = "name = \"Outer\"\nhow = \"built\"\nwater = \"10 g\"\n[ice]\ngrams = \"50 g\"\n[parts]\nInner = \"50 g\"\n\"tonic water\" = \"100 ml\"\n";
    let kitchen = house(&[("inner", inner), ("outer", outer)]);
    kitchen.write("menu.toml", "[drink.Outer]\nsold = { Sat = 100 }\n");
    kitchen.write(
        "plan.toml",
        "[plan]\nfrom = 2026-11-30\ndays = 7\n[ingredient.\"tonic water\"]\npack = \"6 x 750 ml\"\n",
    );
    let plan = kitchen.json(&["plan", "."]);
    // 50 g of a drink of 100 g take half of its ice
    assert!((number(&plan["not_ordered"]["ice_g"]) - 100.0 * (50.0 + 50.0)).abs() < 1e-6, "{}", plan["not_ordered"]);
    let said = page(&kitchen, &["plan", "."]);
    assert!(said.contains("18 x 750 ml (3 cases of 6)"), "{said}");
}

#[test]
fn how_warm_a_part_was_taken_to_be_stands_on_the_sheet() {
    let card = "name = \"Hot\"\nhow = \"shaken\"\n[parts]\ngin = \"40 ml\"\nespresso = \"30 ml\"\n";
    let said = page(&house(&[("hot", card)]), &["serve", "hot.toml"]);
    assert!(said.contains("taken: espresso at 60 to 85 °C (else write at = \"20 °C\" with it)"), "{said}");
}

/// By hand: 30 of the 65 g of the inner drink are in a glass, so 30/65 of its 20 g of water are: 9.23 g, 9.25 ml. Undiluted that water is poured
/// for the guest, and the bottle has another name.
#[test]
fn the_water_of_the_ice_inside_is_left_out_as_well() {
    let inner = "name = \"Inner\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\ngin = \"45 g\"\n";
    let long = "name = \"Long\"\nhow = \"built\"\n[ice]\ngrams = \"150 g\"\n[parts]\nInner = \"30 g\"\ngin = \"20 g\"\n\"soda water\" = \"60 ml\"\n";
    let kitchen = house(&[("inner", inner), ("long", long)]);
    let ahead = |arguments: &[&str]| kitchen.json(&[&["serve", "long.toml", "--make", "20"], arguments].concat());
    let line = |view: &Value, of: &str| {
        let lines = view["lines"].as_array().unwrap();
        lines.iter().find(|line| line["of"] == of).map(|line| number(&line["mass_g"]))
    };
    let inside = "water, in place of the ice inside";
    let diluted = ahead(&[]);
    assert!((line(&diluted, inside).unwrap() - 20.0 * 30.0 * 20.0 / 65.0).abs() < 0.1, "{diluted}");
    assert!(diluted["card"].as_str().unwrap().contains("\"Long, batch\""), "{diluted}");
    let strong = ahead(&["--undiluted"]);
    assert_eq!(line(&strong, inside), None, "{strong}");
    assert!(strong["for_a_guest"].as_str().unwrap().contains("add 10 ml water, serve on 150 g of ice"), "{strong}");
    assert!(strong["card"].as_str().unwrap().contains("\"Long, undiluted\""), "{strong}");
}

/// Where nobody weighed the ice of the drink inside the bottle has the least that it may give, as of its own ice: its middle is what a
/// glass is taken to have.
#[test]
fn unweighed_ice_inside_gives_its_least_to_a_bottle() {
    let inner = "name = \"Inner\"\nhow = \"stirred\"\n[ice]\ngrams = \"150 g\"\n[parts]\ngin = \"45 ml\"\n";
    let outer = "name = \"Outer\"\nhow = \"built\"\n[parts]\nInner = \"40 g\"\ngin = \"20 ml\"\n";
    let kitchen = house(&[("inner", inner), ("outer", outer)]);
    let glass = kitchen.json(&["solve", "inner.toml"]);
    let ice = &glass["ice_water"];
    let view = kitchen.json(&["serve", "outer.toml", "--make", "10"]);
    let [in_bottle, most] = [0, 1].map(|end| number(&view["ice_inside_g_per_glass"][end]));
    assert!(in_bottle < most, "{view} {ice}");
    let lines = view["lines"].as_array().unwrap();
    let water = lines.iter().find(|line| line["of"].as_str().unwrap().contains("ice inside")).unwrap();
    assert!((number(&water["mass_g"]) - 10.0 * in_bottle).abs() < 0.1, "{view}");
    let told = page(&kitchen, &["serve", "outer.toml", "--make", "10"]);
    assert!(told.contains("is the least that the ice of the drinks inside may give"), "{told}");
    assert!(view["for_a_guest"].as_str().unwrap().contains("if all of it was"), "{view}");
}

/// A bottle with its water in it meets no ice, a shaken one says how it is mixed, and an egg that meets ice is shaken without any first.
#[test]
fn a_guest_gets_a_bottle_as_it_was_made() {
    let sour = |part: &str| {
        format!(
            "name = \"Sour\"\nhow = \"shaken\"\nwater = \"25 g\"\n[ice]\ngrams = \"200 g\"\n[parts]\ngin = \"50 ml\"\n{part} = \"20 ml\"\n"
        )
    };
    let stirred = STIRRED.replacen("[ice]\ngrams = \"150 g\"\n", "water = \"20 g\"\n", 1);
    let kitchen = house(&[
        ("stirred", &stirred),
        ("sour", &sour("\"lemon juice\"")),
        ("egg", &sour("\"egg white\"").replace("Sour", "Egg")),
    ]);
    let guest = |card: &str, flag: &[&str]| {
        let view = kitchen.json(&[&["serve", card, "--make", "20"], flag].concat());
        view["for_a_guest"].as_str().unwrap().to_owned()
    };
    assert!(guest("stirred.toml", &[]).ends_with("g), serve it cold, no ice"));
    assert!(guest("sour.toml", &[]).ends_with("add 20 ml lemon juice, shake without ice, serve it cold, no ice"));
    let strong = guest("egg.toml", &["--undiluted"]);
    assert!(
        strong.ends_with("add 20 ml egg white, shake hard without ice, then shake with 200 g of ice, strain"),
        "{strong}"
    );
    assert!(guest("egg.toml", &[]).ends_with("shake hard without ice, serve it cold, no ice"));
}

/// A drink that weighs 5 g of water where the balance of heat gives more, or two glasses at once, is doubted on the page of its bottles as
/// on that of a glass; one of which nothing is to be doubted on neither.
#[test]
fn what_the_glass_doubts_of_its_ice_the_bottles_doubt() {
    let of = |weighed: &str| {
        house(&[("stirred", &STIRRED.replace("grams = \"150 g\"\n", &format!("grams = \"150 g\"\n{weighed}")))])
    };
    let told = |kitchen: &Kitchen, said: &str| {
        let pages = [&["serve", "stirred.toml"][..], &["serve", "stirred.toml", "--make", "10", "--store", "fridge"]];
        pages.map(|asked| page(kitchen, asked).matches(said).count())
    };
    let [again, several] = ["weigh it once more", "2 glasses in one tin?"];
    assert_eq!(told(&of("before = \"100 g\"\nafter = \"105 g\"\n"), again), [1, 1]);
    assert_eq!(told(&of("before = \"181 g\"\nafter = \"260 g\"\n"), several), [1, 1]);
    let fine = of("before = \"100 g\"\nafter = \"132 g\"\n");
    assert_eq!((told(&fine, again), told(&fine, several)), ([0, 0], [0, 0]));
    // undiluted there is no such water in it
    let undiluted =
        page(&of("before = \"100 g\"\nafter = \"105 g\"\n"), &["serve", "stirred.toml", "--make", "10", "--undiluted"]);
    assert!(!undiluted.contains(again), "{undiluted}");
}

/// A float, and a drink that is made in stages, are made on their own ice: that they are watered is said.
#[test]
fn what_goes_in_whole_says_that_it_is_watered() {
    let staged = "name = \"Staged\"\nhow = \"stirred\"\nwater = \"10 g\"\n[[stage]]\nname = \"base\"\n[stage.parts]\ngin = \"30 ml\"\n\
                  [parts]\nbase = \"30 ml\"\n\"dry vermouth\" = \"10 ml\"\n";
    let outer = "name = \"Outer\"\nhow = \"stirred\"\nwater = \"15 g\"\n[parts]\ngin = \"30 ml\"\nStaged = \"25 ml\"\n\
                 Stirred = { amount = \"15 ml\", after = \"ice\" }\n";
    let kitchen = house(&[("stirred", STIRRED), ("staged", staged), ("outer", outer)]);
    let ahead = page(&kitchen, &["serve", "outer.toml", "--make", "10", "--undiluted"]);
    assert!(
        ahead.contains("Staged, Stirred go in as their cards make them, with the water of their own ice"),
        "{ahead}"
    );
    let of = |asked: &[&str]| {
        kitchen.json(&[&["serve", "outer.toml", "--make", "10"], asked].concat())["whole_inside"].clone()
    };
    assert_eq!((of(&["--undiluted"]), of(&[])), (serde_json::json!(["Staged", "Stirred"]), serde_json::json!([])));
}

/// A bottle is drunk with what is added to it: card, sheet, date and page say the egg and the wine that its label says, and the paper how a
/// guest gets it.
#[test]
fn every_word_of_a_bottle_says_what_a_guest_gets_beside_it() {
    let sour = "name = \"Sour\"\nhow = \"shaken\"\nwater = \"30 g\"\n[ice]\ngrams = \"150 g\"\n[parts]\ngin = \"45 ml\"\n\"white sugar\" = \"8 g\"\n\"egg white\" = \"7 ml\"\n\
                \"sparkling wine\" = { amount = \"20 ml\", after = \"ice\" }\n";
    let kitchen = house(&[("sour", sour)]);
    assert_eq!(kitchen.run(&["serve", "Sour", "--make", "10", "-o", "sours.toml"]).0, Some(0));
    let guest = "for a guest also egg, sulphites";
    for verb in [
        &["solve", "sours.toml", "--full"][..],
        &["solve", "sours.toml"],
        &["date", "sours.toml"],
        &["card", "print", "sours.toml"],
    ] {
        let page = page(&kitchen, verb);
        assert!(page.contains(guest), "{verb:?}: {page}");
    }
    for (verb, key) in [("solve", "allergens_for_a_guest"), ("date", "allergens_for_a_guest")] {
        assert_eq!(kitchen.json(&[verb, "sours.toml"])[key], serde_json::json!(["egg", "sulphites"]), "{verb}");
    }
    kitchen.run(&["card", "print", "sours.toml", "-o", "sours.html"]);
    kitchen.run(&["publish", "all.html", "--one-file", "."]);
    for file in ["sours.html", "all.html"] {
        let written = std::fs::read_to_string(kitchen.folder().join(file)).unwrap();
        assert!(written.contains(guest) && written.contains("egg white, shake hard without ice"), "{file}: {written}");
    }
    // what is poured as it is brings nothing beside itself
    let plain = house(&[("plain", "name = \"Plain\"\n[parts]\ngin = \"1 L\"\nwater = \"1 L\"\n")]);
    assert!(!page(&plain, &["date", "plain.toml"]).contains("for a guest"));
}

/// A hot drink in a hot drink: its hot water stays out of the bottle and is poured hot, as of the drink alone. By hand: 60 of the 90 g of the toddy
/// are in a glass, so 60/90 of its 60 g of water are: 40 g. What is left is a spirit and its sugar, and no drink that stands in a bottle already.
#[test]
fn the_hot_water_of_a_drink_inside_is_poured_hot() {
    let toddy = "name = \"Toddy\"\nhow = \"built\"\n[parts]\ngin = \"25 g\"\n\"white sugar\" = \"5 g\"\nwater = { amount = \"60 g\", at = \"85 °C\" }\n";
    let big = "name = \"Big toddy\"\nhow = \"built\"\n[parts]\nToddy = \"60 g\"\n";
    let kitchen = house(&[("toddy", toddy), ("big", big)]);
    let batch = kitchen.json(&["serve", "Big toddy", "--make", "10"]);
    let added = &batch["at_service"][0];
    assert_eq!((&added["why"], added["mass_g"].as_f64().map(f64::round)), (&"hot".into(), Some(40.0)), "{batch}");
    assert!(!batch["lines"].to_string().contains("water"), "{batch}");
    let page = page(&kitchen, &["serve", "Big toddy", "--make", "10"]);
    assert!(page.contains("water at 85 °C") && !page.contains("pour it from the bottle that it is in"), "{page}");
}
