//! What the lots change: labels that are to be printed again, dates that go down at once where something grew, quality and
//! losses that are offered and taken only when the house says so.

use serde_json::Value;

use stillroom::lots::learn::{Expected, lesson};
use stillroom::lots::{Event, Happened, LotBook, Taste};
use stillroom::shelf_life::decay::arrhenius;

use crate::bar::{Bar, ago, said, today};
use crate::kitchen::close;

const HOUSE: &str =
    "[house]\nname = \"The still\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\nfreezer = \"-18 °C\"\n";
const SYRUP: &str = "name = \"House syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 66\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[keep]\nfill = \"cold\"\nclosed = true\n";
const JUICED: &str = "name = \"Sour syrup\"\n[parts]\n\"lime juice\" = \"400 g\"\n\"white sugar\" = \"600 g\"\n[keep]\nfill = \"cold\"\nclosed = true\n";
const SPICED: &str = "name = \"Star syrup\"\n[parts]\nwater = \"1000 g\"\n\"white sugar\" = \"1500 g\"\n\"star anise\" = { amount = \"100 g\", strained = true }\n[loss]\nleft_behind = \"2 %\"\n[keep]\nclosed = true\n";

fn bar(cards: &[(&str, &str)]) -> Bar {
    Bar::new(HOUSE, "").with(cards)
}

fn labelled(bar: &Bar, lot: &str) {
    let out = bar.run(&["label", lot, "-o", "label.svg"]);
    assert!(out.status.success(), "{out:?}");
}

fn labels(bar: &Bar) -> Vec<(String, Value)> {
    let due = bar.json(&["due"]);
    let label = |of: &Value| (of["lot"].as_str().unwrap().to_owned(), of["changed"].clone());
    due["labels"].as_array().unwrap().iter().map(label).collect()
}

/// Told, moved: the date on the label is not that of the lot any more; printed anew it is.
#[test]
fn a_label_whose_date_has_changed_is_to_be_printed_again() {
    let bar = bar(&[("sour.toml", JUICED)]);
    let lot = bar.lot(&["sour.toml", "--fresh"]);
    let other = bar.lot(&["sour.toml", "--fresh"]);
    for lot in [&lot, &other] {
        labelled(&bar, lot);
    }
    assert!(labels(&bar).is_empty(), "nothing has changed yet");
    bar.run(&["label", &lot]);
    let before = bar.json(&["due"])["lots"][0]["use_by"]["day"].clone();
    bar.run(&["move", &lot, "freezer"]);
    let changed = labels(&bar);
    assert_eq!(changed.len(), 1, "the other lot stayed where it was: {changed:?}");
    assert_eq!((&*changed[0].0, &changed[0].1[0]["date"]["on_label"]), (&*lot, &before));
    let words = String::from_utf8(bar.run(&["due"]).stdout).unwrap();
    assert!(words.contains("labels to reprint") && words.contains(&format!("stillroom label {lot} -o")), "{words}");
    labelled(&bar, &lot);
    assert!(labels(&bar).is_empty());
    // what is gone needs no label
    bar.run(&["move", &lot, "fridge"]);
    assert_eq!(labels(&bar).len(), 1);
    bar.run(&["use-up", &lot]);
    assert!(labels(&bar).is_empty());
}

/// The larder learns of an allergen after the label was printed; the card is changed after it.
#[test]
fn a_label_that_lacks_an_allergen_is_to_be_printed_again() {
    let larder = |allergens: &str| {
        format!(
            "[ingredient.\"grey sugar\"]\nlike = \"white sugar\"\nallergens = {allergens}\nfood = \"sold as food, label\"\n"
        )
    };
    let bar = bar(&[("syrup.toml", &SYRUP.replace("[keep]", "\"grey sugar\" = \"10 g\"\n[keep]"))]);
    bar.kitchen.write("larder.toml", &larder("[]"));
    let lot = bar.lot(&["syrup.toml"]);
    labelled(&bar, &lot);
    assert!(labels(&bar).is_empty());
    bar.kitchen.write("larder.toml", &larder("[\"milk\"]"));
    assert_eq!(labels(&bar)[0].1[0]["allergens"]["missing"], Value::from(vec!["milk"]));
    let out = bar.run(&["label", &lot, "-o", "label.svg"]);
    assert!(bar.text("label.svg").contains("ALLERGENS: milk"), "{out:?}");
    assert!(said(&out).contains("the lot was recorded without"), "{out:?}");
    assert!(labels(&bar).is_empty());
    // stated to be free of it again: what was said once is not taken off the lot in silence, and nothing new is missing
    bar.kitchen.write("larder.toml", &larder("[]"));
    assert!(labels(&bar).is_empty());
}

/// Gas in one lot: every other of the product, on whatever shelf, ends before that age; nobody has to accept it.
#[test]
fn what_grew_in_one_lot_pulls_the_others_at_once() {
    let bar = bar(&[("syrup.toml", SYRUP), ("sour.toml", JUICED)]);
    let young = bar.lot(&["syrup.toml", "--made", &ago(2)]);
    let old = bar.lot(&["syrup.toml", "--made", &ago(9)]);
    let sour = bar.lot(&["sour.toml", "--fresh"]);
    labelled(&bar, &young);
    let day = |lot: &str| {
        let due = bar.json(&["due"]);
        let lots = due["lots"].as_array().unwrap().clone();
        let line = lots.into_iter().find(|line| line["lot"] == lot).unwrap();
        (line["use_by"]["day"].as_str().unwrap_or_default().to_owned(), line["soon"].as_str().unwrap().to_owned())
    };
    let (before, other) = (day(&young), day(&sour));
    bar.run(&["taste", &old, "off", "--signs", "gas"]);
    // seen at nine days: a life of eight, the day made the first of them
    assert_eq!(day(&young).0, ago(2 - 7));
    assert!(day(&young).0 < before.0);
    assert_eq!(day(&sour), other, "of another product it says nothing");
    assert_eq!(labels(&bar)[0].0, young);
    // the card, a new lot and its label say the same day
    let dated = bar.json(&["date", "syrup.toml", "--store", "fridge"]);
    let (_, new) = bar.record(&["syrup.toml"]);
    assert_eq!(dated["stores"][0]["date"], new["use_by"]["day"]);
    assert_eq!(dated["stores"][0]["date"], ago(-7));
    assert_eq!(bar.json(&["label", "syrup.toml"])["use_by"]["day"], new["use_by"]["day"]);
}

/// Nothing is taken in silence; what is taken is said with its reason, and holds for this recipe in this store alone.
#[test]
fn a_quality_date_moves_only_when_the_house_says_so() {
    let bar = bar(&[("syrup.toml", SYRUP)]);
    for _ in 0..3 {
        let lot = bar.lot(&["syrup.toml", "--made", &ago(30)]);
        bar.run(&["use-up", &lot]);
    }
    let dated = |card: &str| bar.json(&["date", card])["stores"].clone();
    let before = dated("syrup.toml");
    assert!(before[0]["quality_days"].is_null());
    let offered = bar.json(&["learn", "House syrup"])["lessons"][0].clone();
    assert!(offered["offered_days"].as_f64().unwrap() <= 30.0 && offered["accepted_days"].is_null(), "{offered}");
    assert_eq!(dated("syrup.toml"), before, "offered is not taken");
    let taken = bar.json(&["learn", "House syrup", "--in", "fridge", "--accept"])["lessons"][0].clone();
    assert_eq!(taken["accepted_days"], offered["offered_days"]);
    let after = dated("syrup.toml");
    let days = offered["offered_days"].as_f64().unwrap();
    assert_eq!((&after[0]["quality_days"], &after[0]["days"]), (&Value::from(days), &offered["offered_days"]));
    let why = after[0]["decided_by"].as_str().unwrap();
    assert!(why.contains("3 lots of the house say so, and the house accepted it"), "{why}");
    assert_eq!(after[1], before[1], "the back bar is another store");
    // a new lot has that date, and another recipe has not
    assert_eq!(bar.record(&["syrup.toml"]).1["use_by"]["day"], after[0]["date"]);
    bar.kitchen.write("syrup.toml", &SYRUP.replace("66", "65"));
    assert!(dated("syrup.toml")[0]["quality_days"].is_null());
    let nothing = bar.run(&["learn", "House syrup", "--in", "freezer", "--accept"]);
    assert_eq!(nothing.status.code(), Some(2), "{nothing:?}");
}

/// A date of safety is only shortened: fresh juice, however good its lots were.
#[test]
fn no_number_of_good_lots_lifts_a_use_by() {
    let bar = bar(&[("sour.toml", JUICED)]);
    let before = bar.json(&["date", "sour.toml", "--store", "fridge"])["stores"][0]["days"].as_u64().unwrap();
    for _ in 0..10 {
        let lot = bar.lot(&["sour.toml", "--made", &ago(90), "--part", &format!("lime juice={}", ago(90))]);
        bar.run(&["taste", &lot, "fine"]);
    }
    let taken = bar.json(&["learn", "Sour syrup", "--accept"])["lessons"][0].clone();
    assert!(taken["accepted_days"].as_u64().unwrap() > before, "{taken}");
    let after = bar.json(&["date", "sour.toml", "--store", "fridge"])["stores"][0].clone();
    assert_eq!(after["days"].as_u64().unwrap(), before, "{after}");
}

/// The book of an event a line, as `taste` and `use-up` would write it: lots by (store, age, fine).
fn book(lots: &[(&str, i64, bool)]) -> LotBook {
    let mut events = Vec::new();
    for (n, (store, age, fine)) in lots.iter().enumerate() {
        let lot = format!("261101-A{}", n + 1);
        let made = today() - chrono::TimeDelta::days(100);
        let recorded = serde_json::json!({
            "id": format!("made {n}"), "at": format!("{made}T09:00:00Z"), "lot": lot, "what": "recorded", "product": "P",
            "sheet": "s", "recipe": "r", "made": made, "mass_g": 1.0, "volume_ml": null, "filled": null, "maker": null,
            "store": store, "parts": [], "use_by": { "day": null }, "allergens": [], "abv_pct": null
        });
        events.push(Event::of_line(recorded.to_string().as_bytes()).unwrap());
        let at = (made + chrono::TimeDelta::days(*age)).and_hms_opt(9, 0, 0).unwrap().and_utc();
        let happened = match fine {
            true => Happened::UsedUp,
            false => Happened::Tasted { taste: Taste::Going, signs: Vec::new(), note: None },
        };
        events.push(Event { id: format!("looked {n}"), at, zone_min: 0, lot, happened });
    }
    LotBook::of(events)
}

/// Lots of a warmer store count by the activation energy of what the rules expect of both: the equation of Arrhenius gives
/// the same ages back. They say nothing of the oldest age that was looked at here.
#[test]
fn lots_of_another_store_count_by_their_activation_energy() {
    let here = Expected { store: "fridge".into(), t_c: 4.0, days: 60.0 };
    let warm = Expected { store: "back bar".into(), t_c: 21.0, days: 15.0 };
    let both = [here.clone(), warm.clone()];
    let alone = book(&[("fridge", 20, true)]);
    let with = book(&[("fridge", 20, true), ("back bar", 12, false), ("back bar", 10, false), ("back bar", 13, false)]);
    let (first, _) = lesson(&alone, "P", "r", &here, &both).unwrap();
    let (second, _) = lesson(&with, "P", "r", &here, &both).unwrap();
    let other = &second.elsewhere[0];
    assert_eq!((other.lots, other.day_counts, second.lots), (3, 4.0, 1));
    close(arrhenius(1000.0 * other.ea_kj_per_mol, 4.0, 21.0), 4.0, 1e-9);
    assert_eq!((first.oldest_fine_days, second.oldest_fine_days), (20.0, 20.0));
    assert!(second.q50_days < first.q50_days, "three that went off at 40 to 52 days pull it down: {second:?}");
    assert!(first.expected_rules && !second.expected_rules);
    assert!(second.offered_days <= 20);
}

/// Worked by hand: 2,600 g go in, 100 g of star anise, 1 g of liquid held a gram by the sheet, 2 % left behind: a batch that
/// weighs 19.6 g less than the sheet says held 20 g more, 1.2 g a gram.
#[test]
fn what_a_strainer_holds_is_learned_from_what_was_weighed() {
    let bar = bar(&[("star.toml", SPICED)]);
    let sheet = bar.json(&["solve", "star.toml"])["yield"]["mass_g"].as_f64().unwrap();
    for by in [-2.0, 0.0, 2.0] {
        bar.lot(&["star.toml", "--weighed", &format!("{:.3} g", sheet - 19.6 + by)]);
    }
    bar.lot(&["star.toml"]);
    let told = bar.json(&["learn"]);
    let held = &told["losses"][0];
    assert_eq!((&held["of"], &held["batches"]), (&Value::from("star anise"), &Value::from(3)), "{told}");
    close(held["holds"].as_f64().unwrap(), held["assumed"].as_f64().unwrap() + 0.2, 1e-4);
    close(held["deviation"].as_f64().unwrap(), 2.0 / 98.0, 1e-4);
    // the entry can be copied as it is, and then the sheet says what was weighed
    bar.kitchen.write("larder.toml", held["entry"].as_str().unwrap());
    let after = bar.json(&["solve", "star.toml"])["yield"]["mass_g"].as_f64().unwrap();
    close(after, sheet - 19.6, 0.5);
}

#[test]
fn what_juice_a_fruit_gives_is_learned_by_the_month() {
    let bar = bar(&[("sour.toml", JUICED)]);
    for fruits in ["lime juice=14", "lime juice=16", "lime juice=15"] {
        bar.lot(&["sour.toml", "--fresh", "--pressed", fruits]);
    }
    let told = bar.json(&["learn"]);
    let pressed = &told["pressed"][0];
    assert_eq!((&pressed["batches"], &pressed["pieces"]), (&Value::from(3), &Value::from(45.0)), "{told}");
    close(pressed["grams_a_piece"].as_f64().unwrap(), 1200.0 / 45.0, 1e-9);
    assert!(pressed["entry"].as_str().unwrap().contains("piece  = \"27 g\""), "{pressed}");
    let wrong = bar.run(&["record", "sour.toml", "--fresh", "--pressed", "lemon juice=3"]);
    assert!(said(&wrong).contains("nothing called `lemon juice` went into it"), "{wrong:?}");
}

/// The chart has the look of the others, and a name that is typed to break out of it does not.
#[test]
fn what_the_lots_say_is_drawn() {
    let bar = bar(&[("syrup.toml", &SYRUP.replace("House syrup", "<b>Syrup</b>"))]);
    let none = bar.run(&["learn", "--chart", "lots.svg"]);
    assert_eq!(none.status.code(), Some(2), "{none:?}");
    let lot = bar.lot(&["syrup.toml", "--made", &ago(12)]);
    bar.run(&["use-up", &lot]);
    assert!(bar.run(&["learn", "--chart", "lots.svg"]).status.success());
    let svg = bar.text("lots.svg");
    for must in ["what the lots say", "looked at to", "12 days", "offered", "&lt;b&gt;Syrup"] {
        assert!(svg.contains(must), "{must}");
    }
    assert!(!svg.contains("<b>"));
}
