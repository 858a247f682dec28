//! What a pulled lot means for everything that it went into, and for who makes or serves it.

use serde_json::Value;

use crate::bar::{Bar, ago, said, today};

const SYRUP: &str = "name = \"House syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 66\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
const BLEND: &str = "name = \"Blend\"\n[parts]\n\"House syrup\" = \"500 g\"\nwater = \"500 g\"\n";
const PUNCH: &str = "name = \"Punch\"\n[parts]\nBlend = \"500 g\"\nwater = \"500 g\"\n";

fn house() -> Bar {
    Bar::new("[house]\nname = \"The still\"\n", "").with(&[("syrup", SYRUP), ("blend", BLEND), ("punch", PUNCH)])
}

/// A syrup, what it went into, and what that went into.
fn chain(bar: &Bar) -> [String; 3] {
    ["syrup.toml", "blend.toml", "punch.toml"].map(|card| bar.lot(&[card]))
}

fn text(bar: &Bar, arguments: &[&str]) -> String {
    String::from_utf8(bar.run(arguments).stdout).unwrap()
}

/// The line of a lot on the board.
fn line(bar: &Bar, lot: &str) -> Value {
    let due = bar.json(&["due"]);
    let lines = due["lots"].as_array().unwrap();
    lines.iter().find(|line| line["lot"] == lot).unwrap_or_else(|| panic!("{due}")).clone()
}

#[test]
fn what_a_lot_that_was_thrown_away_went_into_goes_with_it() {
    let bar = house();
    let [syrup, blend, punch] = chain(&bar);
    assert_ne!(line(&bar, &punch)["soon"], "must_go");
    assert!(bar.run(&["discard", &syrup, "--why", "film at the neck"]).status.success());
    for lot in [&blend, &punch] {
        let line = line(&bar, lot);
        assert_eq!((&line["soon"], &line["pulled"]["holds"]["lot"]), (&"must_go".into(), &syrup.as_str().into()));
        assert_eq!(line["pulled"]["holds"]["why"]["growth"]["sign"], "film", "{line}");
    }
    let due = text(&bar, &["due"]);
    let row = due.lines().find(|row| row.contains(&punch)).unwrap();
    assert!(row.contains(&format!("holds {syrup}: film")), "no bare date: {due}");
    let recall = text(&bar, &["recall", &syrup]);
    assert_eq!(recall.matches(&format!("there: holds {syrup}: film")).count(), 2, "{recall}");
    // the page that is shown to an inspector, and the one that the bar reads
    bar.run(&["recall", &punch, "--page", "lot.html"]);
    bar.run(&["publish", "page.html", "--one-file", ".", "--with-lots"]);
    for page in ["lot.html", "page.html"] {
        let page = bar.text(page);
        assert!(page.contains(&format!("lot {syrup} is in it, and of that something grew in it: film")), "{page}");
    }
    // and it is neither labelled, nor put into anything, nor finished as good
    for refused in [vec!["label", &punch], vec!["use-up", &punch]] {
        let out = bar.run(&refused);
        assert!(!out.status.success() && said(&out).contains(&format!("lot {syrup} is in it")), "{}", said(&out));
    }
    // film that was seen when it was thrown away ends every other lot of the product before that age
    assert!(bar.record(&["syrup.toml"]).1["use_by"]["because"].as_str().unwrap().contains("spoiled"));
}

#[test]
fn what_was_only_old_or_spilt_takes_nothing_with_it_and_what_nobody_said_may_be_anything() {
    for (why, pulls) in [("past its date", false), ("spilt: the shelf", false), ("unsafe", true), ("glass in it", true)]
    {
        let bar = house();
        let [syrup, blend, _] = chain(&bar);
        let out = bar.run(&["discard", &syrup, "--why", why]);
        assert!(out.status.success(), "{}", said(&out));
        assert_eq!(line(&bar, &blend)["soon"] == "must_go", pulls, "{why}");
        let asked = said(&out).contains("does not say whether what lot");
        assert_eq!(asked, why == "glass in it", "{}", said(&out));
        if asked {
            // it is told better, and nothing is told twice
            assert!(!bar.run(&["discard", &syrup, "--why", "something"]).status.success());
            assert!(bar.run(&["discard", &syrup, "--why", "not needed"]).status.success());
            assert_ne!(line(&bar, &blend)["soon"], "must_go");
        }
    }
}

/// Whoever makes or serves what a pulled lot may be in is told so once, in words and for programs.
#[test]
fn what_uses_a_product_with_a_pulled_lot_says_so() {
    let bar = house();
    let drink = |name: &str, of: &str| {
        let text =
            format!("name = \"{name}\"\nhow = \"built\"\n[parts]\n\"{of}\" = \"20 ml\"\n\"soda water\" = \"100 ml\"\n");
        bar.kitchen.write(&format!("{}.toml", name.to_lowercase()), &text);
    };
    drink("Sling", "House syrup");
    drink("Cooler", "Blend");
    bar.kitchen.write("menu.toml", "[drink.Sling]\nsold = 3\n[drink.Cooler]\nsold = 3\n");
    bar.kitchen.write("plan.toml", "[plan]\nfrom = 2026-11-30\ndays = 7\n[product.Blend]\npar = \"1 L\"\n");
    let verbs: [&[&str]; 8] = [
        &["serve", "sling.toml"],
        &["serve", "Cooler"],
        &["serve", "cooler.toml", "--make", "20"],
        &["menu"],
        &["plan"],
        &["solve", "blend.toml"],
        &["date", "Punch"],
        &["solve", "syrup.toml"],
    ];
    let said_by = |verb: &[&str]| -> Vec<String> {
        let told = bar.json(verb);
        let found = told["diagnostics"].as_array().unwrap_or_else(|| panic!("{told}")).iter();
        let of_lots = found.filter(|d| d["code"] == "lot-pulled");
        of_lots.map(|d| format!("{} {}", d["message"].as_str().unwrap_or_default(), d["help"])).collect()
    };
    let (good, bad) = (bar.lot(&["syrup.toml", "--made", &ago(1)]), bar.lot(&["syrup.toml"]));
    for verb in verbs {
        assert_eq!(said_by(verb), Vec::<String>::new(), "{verb:?}");
    }
    bar.run(&["taste", &bad, "off", "--signs", "film"]);
    let pulled = format!("lot {bad} was pulled on {}: film", today());
    for verb in verbs {
        let told = said_by(verb);
        let [line] = &told[..] else { panic!("{verb:?}: {told:?}") };
        assert!(line.contains(&pulled) && line.contains(&format!("stillroom recall {bad}")), "{verb:?}: {line}");
        assert!(said(&bar.run(verb)).contains(&pulled), "{verb:?}");
    }
    // nothing but what was pulled
    bar.run(&["discard", &good, "--why", "past its date"]);
    assert!(said_by(verbs[0])[0].contains("no other lot of it on the book may be used"));
    bar.run(&["discard", &bad, "--why", "film"]);
    for verb in verbs {
        assert_eq!(said_by(verb).len(), 1, "{verb:?}: bottles of it may stand on a shelf, until there is a newer lot");
    }
    bar.lot(&["syrup.toml"]);
    assert_eq!(said_by(verbs[0]), Vec::<String>::new(), "there is a newer lot");
    // what is only past its date due says
    bar.lot(&["blend.toml", "--made", &ago(900), "--part", &format!("House syrup={}", ago(900))]);
    assert_eq!(said_by(verbs[1]), Vec::<String>::new());
}

/// A product that stands on a drink is in it, and one that is made with it and has no lot on the book is asked about.
#[test]
fn a_lot_is_followed_into_garnishes_and_into_what_has_no_lot() {
    let bar = house();
    bar.kitchen
        .write("sling.toml", "name = \"Sling\"\nhow = \"built\"\n[parts]\nBlend = \"20 ml\"\nwater = \"60 ml\"\n");
    bar.kitchen.write(
        "foam.toml",
        "name = \"Foam\"\nhow = \"built\"\ngarnish = \"3 drops of House syrup\"\n[parts]\nvodka = \"40 ml\"\nwater = \"60 ml\"\n",
    );
    bar.kitchen.write("menu.toml", "[drink.Sling]\n[drink.Foam]\n");
    let bad = bar.lot(&["syrup.toml"]);
    bar.run(&["discard", &bad, "--why", "mould"]);
    for verb in [["serve", "foam.toml"], ["serve", "sling.toml"]] {
        let said = said(&bar.run(&verb));
        assert!(said.contains(&format!("lot {bad} was pulled")) && said.contains("mould"), "{verb:?}: {said}");
    }
    let recall = bar.json(&["recall", &bad]);
    let drinks: Vec<&str> =
        recall["drinks"].as_array().unwrap().iter().map(|of| of["drink"].as_str().unwrap()).collect();
    assert_eq!(drinks, ["Foam"]);
    let ask = &recall["ask"][0];
    assert_eq!(
        (&ask["product"], &ask["made_with"], &ask["drinks"]),
        (&"Blend".into(), &"House syrup".into(), &serde_json::json!(["Sling"]))
    );
    let page = text(&bar, &["recall", &bad]).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("Blend is made with House syrup and has no lot on this book"), "{page}");
    // what has a lot is not asked about
    bar.lot(&["blend.toml", "--part", &format!("House syrup={}", ago(3))]);
    assert!(bar.json(&["recall", &bad])["ask"].as_array().unwrap().iter().all(|of| of["product"] != "Blend"));
    let fallen = bar.json(&["menu", ".", "--without", "white sugar"]);
    assert!(fallen["without"][0]["undressed"].to_string().contains("Foam"), "{fallen}");
}

/// Nobody said which syrup went into the first blend: it may be the one that moulded, and so may every drink from the day on which that
/// blend was made.
#[test]
fn a_doubt_counts_from_its_first_day_and_stands_on_the_board() {
    let bar = house();
    // so little of the syrup that its film alone says nothing of the blend
    bar.kitchen.write("blend.toml", &BLEND.replacen("500", "400", 1));
    bar.kitchen.write("sour.toml", "name = \"Sour\"\nhow = \"built\"\n[parts]\nBlend = \"20 ml\"\nwater = \"60 ml\"\n");
    bar.kitchen.write("menu.toml", "[drink.\"Sour\"]\n");
    let four = ago(4);
    let syrup = bar.lot(&["syrup.toml", "--made", &four]);
    let untold = bar.lot(&["blend.toml", "--made", &four, "--part", &format!("House syrup={four}")]);
    let told = bar.lot(&["blend.toml", "--part", &format!("House syrup={syrup}")]);
    let punch = bar.lot(&["punch.toml", "--part", &format!("Blend={untold}")]);
    let recall = bar.json(&["recall", &syrup]);
    let perhaps: Vec<&str> = recall["perhaps"].as_array().unwrap().iter().map(|l| l["lot"].as_str().unwrap()).collect();
    assert_eq!(perhaps, [untold.as_str(), &punch], "and what it went into: {recall}");
    let sour = &recall["drinks"][0];
    assert_eq!((&sour["from"], &sour["perhaps"][0]), (&four.as_str().into(), &untold.as_str().into()), "{recall}");
    assert_eq!(sour["lots"], serde_json::json!([told]));
    assert!(text(&bar, &["recall", &syrup]).contains(&format!("{told}, perhaps {untold}")));
    assert!(line(&bar, &untold)["may_hold"].is_null(), "nothing is wrong with it yet");
    assert!(bar.run(&["discard", &syrup, "--why", "film at the neck"]).status.success());
    for lot in [&untold, &punch] {
        let line = line(&bar, lot);
        assert_eq!((&line["may_hold"]["lot"], &line["pulled"]), (&syrup.as_str().into(), &Value::Null), "{line}");
    }
    assert!(line(&bar, &told)["may_hold"].is_null(), "that one was pulled");
    let due = text(&bar, &["due"]);
    let doubt = due.split("MAY HOLD A LOT THAT WAS PULLED").nth(1).unwrap_or_else(|| panic!("{due}"));
    assert!(doubt.contains(&untold) && doubt.contains(&format!("{syrup}: film")), "{due}");
}

/// A guest who orders the drink is poured what was bottled of it: the card of the batch says so, and every verb of the drink.
#[test]
fn a_drink_knows_the_lot_that_was_bottled_of_it() {
    let bar = house();
    let stir = "name = \"Dusk stir\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\nPunch = \"60 ml\"\n";
    bar.kitchen.write("stir.toml", stir);
    bar.kitchen.write("menu.toml", "[drink.\"Dusk stir\"]\nsold = 14\n");
    bar.run(&["serve", "stir.toml", "--make", "24", "-o", "batch.toml"]);
    assert!(bar.text("batch.toml").contains("pours  = \"Dusk stir\"\n"));
    let lot = bar.lot(&["batch.toml", "--part", &format!("Punch={}", today())]);
    // a plan counts glasses, and says what it does not see of them
    let not_counted = "bottled ahead, and not counted: Dusk stir, batch";
    assert!(said(&bar.run(&["plan"])).contains(not_counted));
    let by_book = bar.run(&["plan", "--by-book"]);
    assert!(!said(&by_book).contains(not_counted), "{}", said(&by_book));
    assert_eq!(bar.json(&["plan", "--by-book"])["of_bottles"]["Dusk stir"], 14, "24 stand there, 14 go in the week");
    assert!(bar.run(&["discard", &lot, "--why", "mould"]).status.success());
    let recall = bar.json(&["recall", &lot]);
    assert_eq!(
        (&recall["drinks"][0]["drink"], &recall["drinks"][0]["lots"][0]),
        (&"Dusk stir".into(), &lot.as_str().into())
    );
    for verb in [vec!["serve", "stir.toml"], vec!["menu"]] {
        let said = said(&bar.run(&verb));
        assert!(said.contains(&format!("lot {lot} was pulled")), "{verb:?}: {said}");
    }
}

/// A flask that is filled with a drink may be filled from what was bottled of it: the lot of that is told, and a recall finds it.
#[test]
fn what_is_filled_from_a_bottled_drink_holds_its_lot() {
    let bar = house();
    bar.kitchen
        .write("stir.toml", "name = \"Stir\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\nPunch = \"60 ml\"\n");
    bar.kitchen.write("flask.toml", "name = \"Flask\"\n[parts]\nStir = \"600 g\"\n\"white sugar\" = \"100 g\"\n");
    bar.run(&["serve", "stir.toml", "--make", "24", "-o", "batch.toml"]);
    let of_parts = |lot: &str| {
        let parts = bar.json(&["recall", lot])["lot"]["parts"].clone();
        parts.as_array().unwrap().iter().map(|part| part["of"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let punch = format!("Punch={}", today());
    // with no bottle of it about it was made for the flask
    let made = bar.lot(&["flask.toml", "--part", &punch]);
    assert_eq!(of_parts(&made), ["Punch", "water from ice", "white sugar"]);
    let batch = bar.lot(&["batch.toml", "--part", &punch]);
    let open = bar.run(&["record", "flask.toml"]);
    assert!(said(&open).contains("may be poured of"), "{}", said(&open));
    let filled = bar.lot(&["flask.toml", "--part", &format!("Stir={batch}")]);
    assert_eq!(of_parts(&filled), ["Stir", "white sugar"]);
    let that_day = bar.lot(&["flask.toml", "--part", &format!("Stir={}", today())]);
    assert_eq!(of_parts(&that_day), ["Punch", "water from ice", "white sugar"]);
    let other = bar.run(&["record", "flask.toml", "--part", &format!("white sugar={batch}")]);
    assert!(!other.status.success(), "the batch is no sugar");
    bar.run(&["discard", &batch, "--why", "mould"]);
    let into: Vec<Value> = bar.json(&["recall", &batch])["into"].as_array().unwrap().clone();
    assert!(into.iter().any(|lot| lot["lot"] == filled.as_str()), "{into:?}");
    assert!(into.iter().all(|lot| lot["lot"] != that_day.as_str() && lot["lot"] != made.as_str()), "{into:?}");
}

/// A drink that is poured into a drink of the menu takes its lots along.
#[test]
fn a_lot_is_followed_through_a_drink_in_a_drink() {
    let bar = house();
    bar.kitchen
        .write("stir.toml", "name = \"Stir\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\nPunch = \"60 ml\"\n");
    bar.kitchen.write("long.toml", "name = \"Long\"\nhow = \"built\"\n[parts]\nStir = \"60 ml\"\nwater = \"60 ml\"\n");
    bar.kitchen.write("menu.toml", "[drink.Long]\n");
    let [syrup, ..] = chain(&bar);
    assert_eq!(bar.json(&["recall", &syrup])["drinks"][0]["drink"], "Long");
}

/// By hand: two lots of 1 kg, and 1.5 kg told to be of one: half a kilogram of it is of the other, or of neither.
#[test]
fn what_a_lot_cannot_have_given_may_be_of_another() {
    let bar = Bar::new("[house]\nname = \"The still\"\n", "");
    bar.kitchen
        .write("syrup.toml", "name = \"House syrup\"\n[parts]\n\"white sugar\" = \"600 g\"\nwater = \"400 g\"\n");
    bar.kitchen.write("punch.toml", "name = \"Punch\"\n[parts]\n\"House syrup\" = \"1500 g\"\nwater = \"500 g\"\n");
    let [one, other] = [bar.lot(&["syrup.toml"]), bar.lot(&["syrup.toml"])];
    let punch = bar.lot(&["punch.toml"]);
    let told = bar.run(&["tell", &punch, &format!("House syrup={one}")]);
    assert!(told.status.success() && said(&told).contains("more-than-left"), "{}", said(&told));
    let perhaps = &bar.json(&["recall", &other])["perhaps"];
    assert_eq!(perhaps[0]["lot"], punch.as_str(), "{perhaps}");
}

/// By hand: 600 g and 400 g went in, so the pan was on the scale.
#[test]
fn a_batch_weighs_no_more_than_what_went_in() {
    let bar = house();
    let asked =
        |weighed: &str| said(&bar.run(&["record", "blend.toml", "--weighed", weighed])).contains("reading-differs");
    assert!(asked("1.3 kg") && !asked("1.01 kg") && !asked("0.9 kg"));
}

/// By hand: the book has a kilogram of the blend, of which half went into another lot; 500 g of 33 °Bx, 1.142 g/ml (ICUMSA), are
/// 438 ml, and so much less is made.
#[test]
fn a_plan_counts_what_the_book_has_left_where_it_is_asked_to() {
    let bar = house();
    bar.kitchen.write("plan.toml", "[plan]\ndays = 7\n[product.Blend]\nuse = \"2 L a week\"\n");
    let [_, blend, _] = chain(&bar);
    let made = |arguments: &[&str]| {
        let plan = bar.json(&[&["plan"], arguments].concat());
        let own = |step: &&Value| step["of"] == "Blend" && step["what"] == "make";
        plan["prep"].as_array().unwrap().iter().filter(own).map(|step| step["amount"].as_f64().unwrap()).sum::<f64>()
    };
    assert!(said(&bar.run(&["plan"])).contains("nothing is counted of what the book has in date: Blend 438 ml"));
    // batches are of 50 ml
    let (all, by_book) = (made(&[]), made(&["--by-book"]));
    assert!(all >= 2000.0 && by_book + 438.0 >= 2000.0 && by_book + 438.0 < 2050.0, "{all}, {by_book}");
    assert!(!said(&bar.run(&["plan", "--by-book"])).contains("nothing is counted"));
    bar.run(&["discard", &blend, "--why", "mould"]);
    assert!((made(&["--by-book"]) - all).abs() < 1.0, "what was pulled is not there");
    // of four bottles three are kept back to be tasted: they serve nobody
    let out = bar.run(&["record", "blend.toml", "--make", "4 x 200 ml", "--keep-back", "3"]);
    assert!(out.status.success(), "{out:?}");
    let by_book = made(&["--by-book"]);
    assert!(by_book + 200.0 >= 2000.0 && by_book + 200.0 < 2050.0, "{by_book}");
}

/// No lot is kept of a drink: one that goes into a product by hand is poured out into what it is made of, and that is told.
#[test]
fn a_drink_that_goes_into_a_product_takes_its_lots_along() {
    let bar = house();
    bar.kitchen
        .write("stir.toml", "name = \"Stir\"\nhow = \"stirred\"\nwater = \"20 g\"\n[parts]\nPunch = \"60 ml\"\n");
    bar.kitchen.write("flask.toml", "name = \"Flask\"\n[parts]\nStir = \"500 g\"\nvodka = \"100 g\"\n");
    let [.., punch] = chain(&bar);
    let ask = bar.json(&["recall", &punch])["ask"].clone();
    assert_eq!((&ask[0]["product"], &ask[0]["made_with"]), (&"Flask".into(), &"Punch".into()), "{ask}");
    let (flask, told) = bar.record(&["flask.toml"]);
    // mass in = mass out, the water of the ice with it
    let parts: f64 = told["parts"].as_array().unwrap().iter().map(|part| part["mass_g"].as_f64().unwrap()).sum();
    assert!((parts - 600.0).abs() < 1e-6, "{told}");
    let recall = bar.json(&["recall", &punch]);
    assert_eq!((&recall["ask"], &recall["into"][0]["lot"]), (&serde_json::json!([]), &flask.as_str().into()));
    // the day of the drink is that of its juice: the product in it stays the lot that was there
    let (by_day, told) = bar.record(&["flask.toml", "--part", &format!("Stir={}", today())]);
    let part = told["parts"].as_array().unwrap().iter().find(|part| part["of"] == "Punch").unwrap();
    assert_eq!((&part["lot"], &part["assumed"]), (&punch.as_str().into(), &true.into()), "{told}");
    // a day of which the book has no lot is asked, and may be of any
    let out = bar.run(&["record", "flask.toml", "--part", &format!("Punch={}", ago(77))]);
    assert!(said(&out).contains("the book has no lot of it that was made on"), "{out:?}");
    assert!(bar.run(&["discard", &punch, "--why", "mould"]).status.success());
    assert_eq!(line(&bar, &by_day)["soon"], "must_go");
    assert_eq!(line(&bar, &flask)["soon"], "must_go");
    assert!(!bar.run(&["label", &flask]).status.success());
}

/// The blend in the punch has no lot, and its card makes it with syrup: of which lot nobody has said. A lot of syrup from after the day
/// of that blend cannot be in it.
#[test]
fn what_a_part_without_a_lot_is_made_of_may_be_in_it() {
    let bar = house();
    bar.kitchen.write(
        "punch.toml",
        &PUNCH.replacen("Blend", "\"The blend\"", 1).replacen("\"500 g\"", "{ of = \"Blend\", amount = \"500 g\" }", 1),
    );
    let [four, two] = [ago(4), ago(2)];
    let [old, young] = [&four, &today().to_string()].map(|day| bar.lot(&["syrup.toml", "--made", day]));
    let punch = bar.lot(&["punch.toml", "--part", &format!("The blend={two}")]);
    let perhaps = |lot: &str| bar.json(&["recall", lot])["perhaps"].clone();
    assert_eq!((&perhaps(&old)[0]["lot"], &perhaps(&young)), (&punch.as_str().into(), &serde_json::json!([])));
    assert!(bar.run(&["label", &punch]).status.success());
    assert!(bar.run(&["discard", &old, "--why", "mould"]).status.success());
    assert_eq!(line(&bar, &punch)["may_hold"]["lot"], old.as_str());
    let refused = bar.run(&["label", &punch]);
    let help = format!("stillroom tell {punch} \"The blend=LOT\"");
    assert!(!refused.status.success() && said(&refused).contains(&help), "{}", said(&refused));
    // the book says of a lot what is in it
    let blend = bar.lot(&["blend.toml", "--part", &format!("House syrup={young}")]);
    let told = bar.run(&["tell", &punch, &format!("The blend={blend}")]);
    assert!(told.status.success() && bar.run(&["label", &punch]).status.success(), "{}", said(&told));
}

/// A bottle without the water of its ice is stronger than the drink that a card counts: it is not filled in its place.
#[test]
fn an_undiluted_bottle_is_not_the_drink_with_its_water() {
    let bar = house();
    bar.kitchen.write(
        "stir.toml",
        "name = \"Stir\"\nhow = \"stirred\"\nwater = \"30 g\"\n[ice]\ngrams = \"200 g\"\n[parts]\nvodka = \"60 ml\"\n",
    );
    bar.kitchen.write("flask.toml", "name = \"Flask\"\n[parts]\nStir = \"500 g\"\nvodka = \"100 g\"\n");
    let bottle = |file: &str, dilution: &[&str]| {
        let made = [&["serve", "stir.toml", "--make", "24", "-o", file][..], dilution].concat();
        let out = bar.run(&made);
        assert!(out.status.success(), "{out:?}");
        bar.lot(&[file])
    };
    let (with, without) = (bottle("with.toml", &[]), bottle("without.toml", &["--undiluted"]));
    bar.lot(&["flask.toml", "--part", &format!("Stir={with}")]);
    let out = bar.run(&["record", "flask.toml", "--part", &format!("Stir={without}")]);
    assert!(!out.status.success() && said(&out).contains("is 40.0 % vol, and the card counts Stir with"), "{out:?}");
}
