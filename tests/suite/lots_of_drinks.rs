//! What is bottled of a drink with a drink in it: the bottles of the inner one are asked about, counted and followed.

use serde_json::Value;

use crate::bar::{Bar, ago, said};

const HOUSE: &str = "[house]\nname = \"The still\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\n";
/// Nuts in spirit turn rancid: its day is that of whatever it goes into.
const NUT_RUM: &str = "name = \"Nut rum\"\n[[stage]]\nname = \"steeped\"\ntakes = \"12 h\"\nat = \"21 °C\"\n[stage.parts]\n\"vodka\" = \"1 L\"\n\
                       peanuts = { amount = \"200 g\", strained = true, holds = 0.4 }\n[parts]\nsteeped = \"all\"\n\
                       [keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
const OTTER: &str = "name = \"Otter\"\nhow = \"stirred\"\nwater = \"26 g\"\n[ice]\ngrams = \"240 g\"\n[parts]\n\"Nut rum\" = \"50 ml\"\nvermouth = \"20 ml\"\n";
const GATE: &str = "name = \"Gate\"\nhow = \"built\"\n[ice]\ngrams = \"150 g\"\n[parts]\nOtter = \"45 ml\"\nvodka = \"10 ml\"\n\"soda water\" = \"90 ml\"\n";

/// A bar with bottles of an Otter of ten days ago, whose rum is of that day; since yesterday there is another rum. The lots of the old rum, of
/// the bottles and of the undiluted bottles.
fn otters() -> (Bar, [String; 3]) {
    let bar = Bar::new(HOUSE, "").with(&[("rum", NUT_RUM), ("otter", OTTER), ("gate", GATE)]);
    let serve = |arguments: &[&str]| {
        let out = bar.run(arguments);
        assert!(out.status.success(), "{out:?}");
    };
    serve(&["serve", "Otter", "--make", "10", "-o", "otters.toml"]);
    serve(&["serve", "Otter", "--make", "10", "--undiluted", "-o", "undiluted.toml"]);
    serve(&["serve", "Gate", "--make", "5", "-o", "gates.toml"]);
    let rum = bar.lot(&["rum.toml", "--in", "fridge", "--made", &ago(10), "--fresh"]);
    let of = |card: &str| {
        bar.lot(&[card, "--in", "fridge", "--made", &ago(10), "--part", &format!("Nut rum={rum}"), "--fresh"])
    };
    let lots = [of("otters.toml"), of("undiluted.toml")];
    bar.run(&["use-up", &rum]);
    bar.lot(&["rum.toml", "--in", "fridge", "--made", &ago(1), "--fresh"]);
    let [otters, undiluted] = lots;
    (bar, [rum, otters, undiluted])
}

fn part<'v>(told: &'v Value, name: &str) -> Option<&'v Value> {
    told["parts"].as_array().unwrap().iter().find(|part| part["of"] == name)
}

fn grams(told: &Value) -> f64 {
    told["parts"].as_array().unwrap().iter().map(|part| part["mass_g"].as_f64().unwrap()).sum()
}

/// The batch of a drink lists the parts of the drink inside, and may be filled from a bottle of that: nobody knows until it is told, and then its
/// day, its recall and its pull go by the bottle. By hand: what is no vodka of its own is Otter, 5 x 10 ml of 0.948 g beside it.
#[test]
fn a_batch_of_a_drink_may_be_filled_from_the_bottles_of_the_drink_inside() {
    let (bar, [rum, otters, _]) = otters();
    let out = bar.run(&["record", "gates.toml", "--in", "fridge", "--fresh"]);
    let asked = said(&out).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(asked.contains("`Otter`: it may be poured of") && asked.contains(&otters), "{asked}");
    let (lot, open) = bar.record(&["gates.toml", "--in", "fridge", "--fresh"]);
    assert_eq!(open["soon"], "no_date", "{open}");
    let perhaps = bar.json(&["recall", &rum])["perhaps"].clone();
    assert!(perhaps.to_string().contains(&lot), "{perhaps}");

    let told = bar.json(&["tell", &lot, &format!("Otter={otters}")]);
    let bottle = bar.json(&["due"])["lots"].as_array().unwrap().iter().find(|of| of["lot"] == otters.as_str()).cloned();
    let last = bottle.unwrap()["use_by"]["day"].clone();
    assert!(told["use_by"]["day"].as_str().unwrap() <= last.as_str().unwrap(), "{told}");
    let otter = part(&told, "Otter").unwrap_or_else(|| panic!("{told}"))["mass_g"].as_f64().unwrap();
    let vodka = part(&told, "vodka").unwrap()["mass_g"].as_f64().unwrap();
    assert!((vodka - 47.4).abs() < 0.3 && part(&told, "Nut rum").is_none(), "{told}");
    assert!((otter + vodka - told["mass_g"].as_f64().unwrap()).abs() < 0.5, "{told}");
    assert!(bar.run(&["discard", &otters, "--why", "mould"]).status.success());
    let due = bar.json(&["due"]);
    let gate = due["lots"].as_array().unwrap().iter().find(|of| of["lot"] == lot.as_str()).unwrap().clone();
    assert_eq!(gate["soon"], "must_go", "{gate}");
    assert!(!bar.run(&["label", &lot]).status.success());
}

/// What was made for it has its own parts, and all of them.
#[test]
fn a_drink_inside_that_was_made_for_the_batch_is_its_parts() {
    let (bar, _) = otters();
    let (today, rum) = (format!("Otter={}", ago(0)), format!("Nut rum={}", ago(1)));
    let (_, told) = bar.record(&["gates.toml", "--in", "fridge", "--fresh", "--part", &today, "--part", &rum]);
    assert!(part(&told, "Otter").is_none() && told["use_by"]["day"].is_string(), "{told}");
    assert!((grams(&told) - told["mass_g"].as_f64().unwrap()).abs() < 0.5, "{told}");
    let out = bar.run(&["record", "gates.toml", "--in", "fridge", "--part", "Oter=K7"]);
    assert!(!out.status.success() && said(&out).contains("`Otter`"), "{out:?}");
}

/// An undiluted bottle has not the water that the card of the batch weighs in beside it.
#[test]
fn an_undiluted_bottle_fills_a_batch_beside_its_water() {
    let (bar, [_, _, undiluted]) = otters();
    let (_, told) = bar.record(&["gates.toml", "--in", "fridge", "--fresh", "--part", &format!("Otter={undiluted}")]);
    assert_eq!(part(&told, "Otter").unwrap_or_else(|| panic!("{told}"))["lot"], undiluted.as_str());
    assert!(part(&told, "water, in place of the ice inside").is_some(), "{told}");
    assert!((grams(&told) - told["mass_g"].as_f64().unwrap()).abs() < 0.5, "{told}");
}

/// A jug of a drink with a drink in it: the bottle two deep is asked about, and found.
#[test]
fn a_bottle_two_drinks_deep_is_asked_about() {
    let (bar, [rum, otters, _]) = otters();
    let jug = "name = \"Jug\"\n[parts]\nGate = \"300 g\"\nvodka = \"400 g\"\n[keep]\nfill = \"cold\"\nclosed = true\n";
    bar.kitchen.write("jug.toml", jug);
    let (_, open) = bar.record(&["jug.toml", "--in", "fridge", "--fresh"]);
    assert_eq!(open["soon"], "no_date", "{open}");
    let (lot, told) = bar.record(&["jug.toml", "--in", "fridge", "--fresh", "--part", &format!("Otter={otters}")]);
    assert!(told["use_by"]["day"].is_string(), "{told}");
    assert!(bar.json(&["recall", &rum])["into"].to_string().contains(&lot), "{told}");
}

/// A maker calls a batch back when its bottle is long empty: what it went into goes with it, and the lot itself stays used up. What is only old or
/// spilt cannot happen to what is gone.
#[test]
fn a_lot_that_was_used_up_is_pulled_with_what_it_went_into() {
    let (bar, [rum, otters, _]) = otters();
    let line = || {
        let due = bar.json(&["due"]);
        due["lots"].as_array().unwrap().iter().find(|of| of["lot"] == otters.as_str()).unwrap().clone()
    };
    assert!(!bar.run(&["discard", &rum, "--why", "spilt"]).status.success());
    let refused = bar.run(&["taste", &rum, "off", "--signs", "mould"]);
    assert!(!refused.status.success() && said(&refused).contains(&format!("stillroom discard {rum}")), "{refused:?}");
    assert_ne!(line()["soon"], "must_go");
    for (why, pulls) in [("the maker calls it back", true), ("not needed", false), ("mould", true)] {
        let told = bar.json(&["discard", &rum, "--why", why]);
        assert_eq!(told["standing"], "used_up", "{told}");
        assert_eq!(line()["soon"] == "must_go", pulls, "{why}: {}", line());
    }
    assert!(!bar.run(&["label", &otters]).status.success());
    let page = String::from_utf8(bar.run(&["recall", &rum]).stdout).unwrap();
    assert!(page.contains("pulled: mould") && !page.contains("thrown away"), "{page}");
}

/// The card of a drink is changed after its bottles stand there, and the card of the bottles as well: they are counted by the glass that they
/// hold themselves. By hand: the diluted bottle goes into a Gate as its 45 ml, the undiluted one with the water that its own card left out.
#[test]
fn bottles_of_an_older_card_are_counted_by_what_they_hold() {
    let (bar, [_, otters, undiluted]) = otters();
    let ml = |lot: &str| bar.json(&["recall", lot])["lot"]["volume_ml"].as_f64().unwrap();
    let (diluted_ml, undiluted_ml) = (ml(&otters), ml(&undiluted));
    bar.kitchen.write("menu.toml", "[drink.Gate]\nsold = 70\n");
    let inside = |bar: &Bar| bar.json(&["plan", ".", "--by-book"])["inside_of_bottles"].as_array().unwrap().clone();
    let before = inside(&bar);
    bar.kitchen.write("otter.toml", &OTTER.replace("50 ml", "60 ml").replace("26 g", "30 g"));
    let changed = "the card of Otter was changed after `Otter, batch` was filled: a glass of the bottle has 47.";
    for rewritten in [false, true] {
        if rewritten {
            std::fs::remove_file(bar.kitchen.folder().join("otters.toml")).unwrap();
            let out = bar.run(&["serve", "Otter", "--make", "40", "-o", "otters.toml"]);
            assert!(out.status.success(), "{out:?}");
        }
        let after = inside(&bar);
        for (was, is) in before.iter().zip(&after) {
            let of = |view: &Value, key: &str| view[key].as_f64().unwrap();
            assert_eq!((&was["bottle"], &was["glasses"]), (&is["bottle"], &is["glasses"]), "{after:?}");
            assert!((of(was, "each") / of(is, "each") - 1.0).abs() < 0.01, "{before:?} {after:?}");
            assert!((of(was, "water_g") - of(is, "water_g")).abs() < 0.5, "{before:?} {after:?}");
        }
        let glasses = |view: &Value| view["glasses"].as_f64().unwrap();
        assert!((glasses(&after[0]) - diluted_ml / 45.0).abs() < 1.0, "{diluted_ml} {after:?}");
        assert!((glasses(&after[1]) - 10.0 * diluted_ml / 450.0).abs() < 1.0, "{undiluted_ml} {after:?}");
        let told = said(&bar.run(&["plan", ".", "--by-book"])).split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(changed), "{told}");
    }
}

/// A bottle without a date is not counted, and the plan says so with what to do; the word of a date is that of its label.
#[test]
fn a_plan_names_the_bottles_without_a_date_and_calls_dates_as_the_label_does() {
    let (bar, [_, otters, _]) = otters();
    let wine = "name = \"Dry wine\"\n[parts]\nvermouth = \"700 g\"\n\"white sugar\" = \"20 g\"\n[keep]\nstore = \"fridge\"\nclosed = true\nin = \"glass\"\n";
    bar.kitchen.write("wine.toml", wine);
    bar.kitchen.write("menu.toml", "[drink.Gate]\nsold = 140\n");
    bar.kitchen.write("plan.toml", "[product.\"Dry wine\"]\nuse = \"1 L a week\"\n");
    let open = bar.lot(&["gates.toml", "--in", "fridge", "--fresh"]);
    let told = said(&bar.run(&["plan", ".", "--by-book"])).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains(&format!("of Gate, batch, lot {open}, which has no date: the day of")), "{told}");
    assert!(told.contains(&format!("stillroom tell {open}")) && !told.contains(&format!("lot {otters}")), "{told}");
    assert!(!said(&bar.run(&["plan", "."])).contains("which has no date"));

    let (lot, wine) = bar.record(&["wine.toml", "--fresh", "--in", "fridge"]);
    assert_eq!(wine["use_by"]["best_before"], true, "{wine}");
    let lot = String::from_utf8(bar.run(&["recall", &lot]).stdout).unwrap();
    let plan = bar.run(&["plan", ".", "--by-book", "--csv-prep", "prep.csv"]);
    let page = String::from_utf8(plan.stdout).unwrap();
    assert!(lot.contains("best before") && page.contains("Dry wine") && page.contains("best before"), "{lot}{page}");
    let csv = bar.text("prep.csv");
    let of = |product: &str| csv.lines().filter(|line| line.contains(product)).collect::<Vec<_>>().join("\n");
    assert!(of("Dry wine").contains(",best before,") && !of("Dry wine").contains(",use by,"), "{csv}");
    assert!(of("Nut rum").contains(",use by,") && !of("Nut rum").contains(",best before,"), "{csv}");
}

/// The page of an event makes the glasses again that are bottled: it says so.
#[test]
fn the_page_of_an_event_names_the_bottles_that_it_does_not_pour() {
    let (bar, _) = otters();
    bar.kitchen.write("menu.toml", "[event]\nguests = 30\nhours = 2\n[drink.Gate]\nshare = \"100 %\"\n");
    let told = said(&bar.run(&["menu", "."])).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains("bottled ahead, and not counted: Otter, batch") && told.contains("Otter, undiluted"),
        "{told}"
    );
    assert!(told.contains("stillroom plan --by-book pours the bottles first"), "{told}");
}
