//! A drink that goes into a product or into another drink: its parts are ordered, its work counts, it meets its ice.

use serde_json::Value;

use crate::kitchen::{Kitchen, number};

const LARDER: &str = "[ingredient.\"house rum\"]\nabv = 40\nprice = \"20.00 GBP / 1 L\"\nallergens = []\n";
const STIR: &str = "name = \"Stir\"\nhow = \"stirred\"\nwater = \"20 g\"\nlabour = \"2 min\"\n[ice]\ngrams = \"100 g\"\n[parts]\n\
                    \"House syrup\" = \"20 g\"\n\"house rum\" = \"60 g\"\n";
const FLASK: &str = "name = \"Flask\"\n[parts]\nStir = \"1 kg\"\n\"house rum\" = \"250 g\"\n\
                     [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
const LONG: &str =
    "name = \"Long\"\nhow = \"built\"\nlabour = \"1 min\"\n[parts]\nStir = \"50 g\"\n\"soda water\" = \"100 g\"\n";
const SYRUP: &str = "name = \"House syrup\"\nlabour = \"10 min\"\n[parts]\n\"white sugar\" = \"1 kg\"\nwater = \"1 kg\"\n\
                     [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

fn house() -> Kitchen {
    let house = "[house]\ncurrency = \"GBP\"\n[stores]\nfridge = \"4 °C\"\n[costs]\nlabour = \"12.00 GBP / h\"\ngross_profit = \"80 %\"\n";
    Kitchen::new(LARDER).with(&[("house", house), ("syrup", SYRUP), ("stir", STIR), ("flask", FLASK), ("long", LONG)])
}

/// By hand: 1,250 g of the flask hold 1 kg of the stir, of which 20 in 100 g are syrup and 60 rum: 200 g and 600 + 250 = 850 g.
#[test]
fn a_product_that_holds_a_drink_orders_what_is_in_it() {
    let kitchen = house();
    kitchen.write("plan.toml", "[plan]\ndays = 7\n[product.Flask]\nuse = \"1250 g a week\"\nbatch = \"1250 g\"\n");
    let plan = kitchen.json(&["plan"]);
    let taken: Vec<&Value> = plan["prep"].as_array().unwrap().iter().filter(|step| step["what"] == "take").collect();
    assert_eq!(taken.len(), 1, "no drink is made ahead: {plan}");
    // 200 g of 50 °Bx at 1.2296 g/ml (ICUMSA): 163 ml
    assert_eq!(taken[0]["of"], "House syrup");
    assert!((number(&taken[0]["amount"]) - 163.0).abs() <= 1.0, "{}", taken[0]);
    let rum = plan["orders"].as_array().unwrap().iter().find(|order| order["of"] == "house rum").unwrap();
    // 850 g of 40 % vol at 0.9480 g/ml (OIML R 22): 897 ml
    assert!((number(&rum["need"]) - 897.0).abs() <= 2.0, "{rum}");
}

/// By hand: 1 min, half of the 2 min of the glass inside, and of 10 min for 2 kg of syrup what 10 g are: 0.05 min; at the bar 2 min.
#[test]
fn the_work_of_a_drink_inside_is_that_of_its_glass() {
    let kitchen = house();
    kitchen.write("menu.toml", "[drink.Long]\nprice = \"6.00 GBP\"\n");
    let drink = &kitchen.json(&["menu", "."])["drinks"][0];
    assert!((number(&drink["minutes"]) - 2.0).abs() < 1e-9, "{drink}");
    // at 12 an hour
    assert_eq!(drink["labour"], "0.41", "{drink}");
}

#[test]
fn a_drink_whose_inner_drink_meets_ice_falls_without_ice() {
    let kitchen = house();
    kitchen.write("menu.toml", "[drink.Long]\n");
    let out = kitchen.json(&["menu", ".", "--without", "ice"])["without"][0].clone();
    assert_eq!(out["drinks"][0]["of"], "Long", "{out}");
    assert_eq!(out["drinks"][0]["by_way_of"], serde_json::json!(["Stir"]), "{out}");
}

/// By hand: 40 g of water at 90 °C melt 40 x 90 x 4.19 / 334 = 45 g of ice, against 9 g of the same water at 18 °C.
#[test]
fn what_is_hot_in_a_drink_inside_melts_ice_and_goes_into_no_closed_tin() {
    let kitchen = house();
    let hot = "name = \"Mug\"\nhow = \"built\"\n[parts]\n\"House syrup\" = \"10 ml\"\n\"lime juice\" = \"5 ml\"\nwater = { amount = \"60 ml\", at = \"90 °C\" }\n";
    kitchen.write(
        "cold.toml",
        "name = \"Cold mug\"\nhow = \"shaken\"\n[ice]\ngrams = \"200 g\"\n[parts]\nMug = \"50 ml\"\n\"house rum\" = \"40 ml\"\n",
    );
    let melts = |mug: &str| {
        kitchen.write("mug.toml", mug);
        number(&kitchen.json(&["serve", "Cold mug"])["ice_water"]["grams"])
    };
    let cold = melts(&hot.replace("90 °C", "18 °C"));
    let warm = melts(hot);
    assert!(warm > cold + 25.0, "{cold} {warm}");
    for dilution in [&[][..], &["--undiluted"]] {
        let all = [&["serve", "Cold mug", "--make", "10"][..], dilution].concat();
        let guest = kitchen.json(&all)["for_a_guest"].as_str().unwrap().to_owned();
        assert!(guest.contains("ml water, cooled") && !guest.contains("90 °C"), "{guest}");
    }
}

/// The raw egg of a sour is shaken wherever the sour goes in, and is told of and not refused, for glass and batch alike: both are made to order.
#[test]
fn the_egg_of_a_shaken_drink_inside_is_shaken() {
    let kitchen = house();
    kitchen.write(
        "sour.toml",
        "name = \"Sour\"\nhow = \"shaken\"\n[ice]\ngrams = \"200 g\"\n[parts]\n\"house rum\" = \"50 ml\"\n\"egg white\" = \"15 ml\"\n",
    );
    kitchen.write(
        "tall.toml",
        "name = \"Tall\"\nhow = \"built\"\n[ice]\ngrams = \"150 g\"\n[parts]\nSour = \"60 ml\"\n\"soda water\" = \"60 ml\"\n",
    );
    for dilution in [&[][..], &["--undiluted"]] {
        let all = [&["serve", "Tall", "--make", "10"][..], dilution].concat();
        let guest = kitchen.json(&all)["for_a_guest"].as_str().unwrap().to_owned();
        let steps =
            ["egg white", "shake hard without ice", "serve on 150 g of ice", "soda water"].map(|step| guest.find(step));
        assert!(steps.is_sorted() && steps.iter().all(Option::is_some), "{guest}");
    }
    let glass = kitchen.json(&["serve", "Tall"]);
    assert_eq!(glass["refused_parts"], serde_json::json!([]), "{glass}");
    assert!(glass["cautions"].to_string().contains("Salmonella"), "{glass}");
}

/// By hand: 30 g of a drink of 50 ml of rum, 15 ml of egg white and 3 ml of lime juice with its water are a share of each that nobody can
/// measure: the nearest step of a jigger of 2.5 ml, a part of a bar spoon, and so many glasses of one egg. Programs get it exactly.
#[test]
fn what_a_drink_inside_is_poured_of_can_be_measured() {
    let kitchen = house();
    let sour = "name = \"Sour\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\n\"house rum\" = \"50 ml\"\n\"egg white\" = \"15 ml\"\n\
                \"lime juice\" = \"4 ml\"\n";
    kitchen.write("sour.toml", sour);
    kitchen
        .write("tall.toml", "name = \"Tall\"\nhow = \"built\"\n[parts]\nSour = \"40 g\"\n\"house rum\" = \"18 ml\"\n");
    let ahead = kitchen.json(&["serve", "tall.toml", "--make", "10"]);
    let added = ahead["at_service"].as_array().unwrap();
    let of = |name: &str| added.iter().find(|of| of["of"] == name).unwrap_or_else(|| panic!("{ahead}"));
    let [egg, lime] = ["egg white", "lime juice"].map(|name| number(&of(name)["ml"]));
    assert!((egg / lime - 15.0 / 4.0).abs() < 1e-6, "{ahead}");
    let guest = ahead["for_a_guest"].as_str().unwrap();
    assert!((5.0..7.5).contains(&egg) && (1.25..2.0).contains(&lime), "{ahead}");
    let spoken = if egg < 6.25 { "5 ml egg white" } else { "7.5 ml egg white" };
    let glasses = (33.0 / number(&of("egg white")["mass_g"])).round();
    assert!(guest.contains(&format!("{spoken} (1 egg for {glasses:.0} glasses)")), "{guest}");
    assert!(guest.contains("1/3 bar spoon lime juice"), "{guest}");
    // what its own card pours is as it is written
    let alone = kitchen.json(&["serve", "sour.toml", "--make", "10"]);
    let guest = alone["for_a_guest"].as_str().unwrap();
    assert!(guest.contains("15 ml egg white, 4 ml lime juice"), "{guest}");
}

/// An oil-washed spirit and a vermouth with thyme meet in a glass and are drunk: nothing stands in oil. In a jar they are judged, and what is a
/// garlic oil by itself stays one, as a card, as a thing that is bought and as a stage of the drink.
#[test]
fn an_oil_and_a_plant_that_meet_in_a_glass_are_no_oil_infusion() {
    let bar = crate::bar::Bar::new(
        "[house]\nmarket = [\"UK\"]\n[stores]\nfridge = \"4 °C\"\n",
        "[ingredient.\"garlic oil\"]\nlike = \"olive oil\"\nallergens = []\nfood = \"sold as food, label\"\n",
    );
    let rum = "name = \"Washed rum\"\n[parts]\n\"white rum 40 %\" = \"1 L\"\n\"sunflower oil\" = { amount = \"100 g\", strained = true, holds = 0.4 }\n";
    let wine = "name = \"Thyme wine\"\n[parts]\n\"dry vermouth\" = \"700 g\"\nthyme = { amount = \"5 g\", strained = true, holds = 2.0 }\n";
    let oil = "name = \"Bulb oil\"\n[parts]\n\"olive oil\" = \"500 g\"\ngarlic = { amount = \"50 g\", strained = true, holds = 0.4 }\n";
    let bar = bar.with(&[("rum", rum), ("wine", wine), ("oil", oil)]);
    let long = |above: &str, part: &str| {
        format!(
            "name = \"Long\"\nhow = \"built\"\n{above}[parts]\n\"Washed rum\" = \"25 ml\"\n\"Thyme wine\" = \"15 ml\"\n\"soda water\" = \"120 ml\"\n{part}"
        )
    };
    bar.kitchen.write("menu.toml", "[drink.Long]\nsold = 10\n");
    let stopped = |text: &str| {
        bar.kitchen.write("long.toml", text);
        let glass = String::from_utf8(bar.run(&["serve", "Long"]).stdout).unwrap();
        let plan = String::from_utf8(bar.run(&["plan", "."]).stdout).unwrap();
        let glass = glass.contains("botulism");
        assert_eq!(glass, plan.contains("LEFT OUT, Long"), "{plan}");
        glass
    };
    assert!(!stopped(&long("", "")), "nothing stands in oil");
    let jar = "name = \"Jar\"\n[parts]\n\"Washed rum\" = \"250 g\"\n\"Thyme wine\" = \"150 g\"\nwater = \"1.2 kg\"\n";
    bar.kitchen.write("jar.toml", jar);
    let jar = String::from_utf8(bar.run(&["solve", "jar.toml"]).stdout).unwrap();
    assert!(jar.contains("botulism"), "a jar of it stands: {jar}");
    assert!(stopped(&long("", "\"Bulb oil\" = \"2 ml\"\n")), "a bottle of garlic oil");
    assert!(stopped(&long("", "\"garlic oil\" = \"2 ml\"\n")), "one that is bought");
    let stage = "[[stage]]\nname = \"mix\"\n[stage.parts]\n\"olive oil\" = \"50 g\"\ngarlic = \"5 g\"\n";
    assert!(stopped(&long(stage, "mix = \"2 g\"\n")), "one that the drink makes");
}
