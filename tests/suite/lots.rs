//! The book of lots through the command: recorded, tasted, moved, opened, told, used, recalled.

use std::path::Path;

use chrono::NaiveDate;
use serde_json::Value;

use crate::bar::{Bar, ago, said, today};
use stillroom::card::TargetKind;
use stillroom::house::House;
use stillroom::lots::LotBook;
use stillroom::lots::due::due;
use stillroom::lots::event::{BatchReading, Event};
use stillroom::lots::files;
use stillroom::lots::recall::chain;
use stillroom::lots::record::{RecordRequest, record};

#[allow(dead_code)]
#[path = "../../examples/three_months.rs"]
mod three_months;

const SYRUP: &str = "name = \"House syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 66\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[keep]\nfill = \"cold\"\nclosed = true\n";
const CORDIAL: &str = "name = \"Lime cordial\"\nmakes = \"1 L\"\n[parts]\n\"lime juice\" = \"400 g\"\n\"House syrup\" = \"800 g\"\n[keep]\nfill = \"cold\"\nclosed = true\n";
const HOUSE: &str =
    "[house]\nname = \"The still\"\n[stores]\nfridge = \"4 °C\"\n\"back bar\" = \"21 °C\"\nfreezer = \"-18 °C\"\n";

fn lots() -> Bar {
    let bar = Bar::new(HOUSE, "");
    bar.kitchen.write("syrup.toml", SYRUP);
    bar.kitchen.write("cordial.toml", CORDIAL);
    bar
}

fn day(view: &Value) -> Option<NaiveDate> {
    view["use_by"]["day"].as_str().map(|day| day.parse().unwrap())
}

#[test]
fn a_lot_has_the_day_that_date_gives_it() {
    let bar = lots();
    let made = ago(1);
    let (lot, told) = bar.record(&["syrup.toml", "--made", &made, "--by", "Ana"]);
    assert!(lot.ends_with("-A1"), "{lot}");
    let dated = bar.json(&["date", "syrup.toml", "--made", &made, "--store", "fridge"]);
    assert_eq!(told["use_by"]["day"], dated["stores"][0]["date"]);
    let due = bar.json(&["due"]);
    assert_eq!((&due["lots"][0]["lot"], &due["lots"][0]["use_by"]["day"]), (&Value::from(lot), &told["use_by"]["day"]));
    assert_eq!(bar.record(&["syrup.toml", "--made", &made]).0[7..], *"A2");
}

#[test]
fn what_hangs_on_a_day_that_nobody_told_has_no_date_until_it_is_told() {
    let bar = lots();
    let (syrup, _) = bar.record(&["syrup.toml", "--made", &ago(3)]);
    let (lot, told) = bar.record(&["cordial.toml"]);
    assert_eq!(day(&told), None);
    assert!(told["use_by"]["refused"].as_str().unwrap().contains("lime juice"), "{told}");
    // the syrup that is there is taken by itself
    let part = told["parts"].as_array().unwrap().iter().find(|part| part["of"] == "House syrup").unwrap();
    assert_eq!(part["lot"], syrup.as_str());
    assert_eq!(bar.json(&["due"])["lots"][0]["soon"], "no_date");
    let juice = format!("lime juice={}", ago(1));
    let told = bar.json(&["tell", &lot, &juice]);
    let yesterday = day(&told).unwrap();
    let (_, fresh) = bar.record(&["cordial.toml", "--fresh"]);
    assert!(yesterday < day(&fresh).unwrap(), "juice of yesterday ends a day earlier: {told}");
}

#[test]
fn what_is_past_its_date_or_off_does_not_go_in() {
    let bar = lots();
    let (old, _) = bar.record(&[
        "cordial.toml",
        "--made",
        &ago(60),
        "--part",
        &format!("lime juice={}", ago(60)),
        "--part",
        &format!("House syrup={}", ago(60)),
    ]);
    let punch = "name = \"Punch\"\n[parts]\n\"Lime cordial\" = \"500 g\"\nwater = \"500 g\"\n";
    bar.kitchen.write("punch.toml", punch);
    let refused = bar.run(&["record", "punch.toml", "--part", &format!("Lime cordial={old}")]);
    let said = String::from_utf8_lossy(&refused.stderr).into_owned();
    assert_eq!(refused.status.code(), Some(2));
    assert!(said.contains("was past its date on the day it went in"), "{said}");
    assert!(bar.json(&["due"])["lots"].as_array().unwrap().len() == 1, "nothing was written");

    let (syrup, _) = bar.record(&["syrup.toml"]);
    bar.run(&["taste", &syrup, "off", "--signs", "gas"]);
    assert_eq!(bar.json(&["due"])["lots"][0]["soon"], "must_go");
    let refused = bar.run(&["record", "cordial.toml", "--fresh", "--part", &format!("House syrup={syrup}")]);
    assert!(String::from_utf8_lossy(&refused.stderr).contains("something grew in it: gas"));
    // gas after no day at all: the next lot is dated below that age
    let (_, next) = bar.record(&["syrup.toml"]);
    assert!(day(&next).unwrap() <= today(), "{next}");
}

#[test]
fn a_move_never_lengthens_a_date() {
    let bar = lots();
    let (lot, told) =
        bar.record(&["cordial.toml", "--fresh", "--made", &ago(2), "--part", &format!("House syrup={}", ago(2))]);
    let fridge = day(&told).unwrap();
    let frozen = bar.json(&["move", &lot, "freezer"]);
    let left = frozen["use_by"]["days_left_when_thawed"].as_u64().unwrap();
    assert!(frozen["use_by"]["day"].is_null() && left <= (fridge - today()).num_days() as u64, "{frozen}");
    let thawed = bar.json(&["move", &lot, "fridge"]);
    assert!(day(&thawed).unwrap() <= fridge, "{thawed}");
    let warm = bar.json(&["move", &lot, "back bar"]);
    let back = bar.json(&["move", &lot, "fridge"]);
    assert!(day(&warm).is_none_or(|day| day <= fridge));
    assert_eq!(back["use_by"]["day"], warm["use_by"]["day"], "cold again does not undo the warm day");
}

#[test]
fn a_recall_finds_what_went_in_and_what_it_went_into() {
    let bar = lots();
    let (syrup, _) = bar.record(&["syrup.toml"]);
    let (cordial, _) = bar.record(&["cordial.toml", "--fresh"]);
    bar.run(&["use-up", &syrup]);
    let told = bar.json(&["recall", &syrup.to_lowercase()]);
    assert_eq!(told["into"][0]["lot"], cordial.as_str());
    assert_eq!(bar.json(&["recall", &cordial])["from"][0]["lot"], syrup.as_str());
    let again = bar.run(&["discard", &syrup, "--why", "spilt"]);
    assert!(String::from_utf8_lossy(&again.stderr).contains("was used up"), "{again:?}");
}

#[test]
fn a_recall_names_the_drinks_of_the_menu_that_may_have_had_it() {
    let bar = lots();
    let (syrup, _) = bar.record(&["syrup.toml"]);
    let glass = |name: &str, part: &str| {
        format!("name = \"{name}\"\nhow = \"built\"\n[parts]\ngin = \"50 ml\"\n\"{part}\" = \"20 ml\"\n")
    };
    bar.kitchen.write("sweet.toml", &glass("Sweet glass", "House syrup"));
    bar.kitchen.write("dry.toml", &glass("Dry glass", "lime juice"));
    bar.kitchen.write(
        "menu.toml",
        "[drink.\"Sweet glass\"]\nsold = { Fri = 20, Sat = 25 }\n[drink.\"Dry glass\"]\nsold = 70\n",
    );
    let told = bar.json(&["recall", &syrup]);
    assert_eq!(told["drinks"].as_array().unwrap().len(), 1, "{}", told["drinks"]);
    let drink = &told["drinks"][0];
    assert_eq!((drink["drink"].as_str(), drink["lots"][0].as_str()), (Some("Sweet glass"), Some(syrup.as_str())));
    assert_eq!((&drink["from"], &drink["to"]), (&today().to_string().into(), &today().to_string().into()));
    assert_eq!(drink["sold_a_week"], 45);
    let text = String::from_utf8_lossy(&bar.run(&["recall", &syrup]).stdout).into_owned();
    assert!(text.contains("Sweet glass") && text.contains("45 a week") && !text.contains("Dry glass"), "{text}");
}

#[test]
fn a_recall_names_what_may_hold_the_lot_and_where_a_makers_number_went() {
    let bar = lots();
    // made while no syrup was on the book: nobody has said whose went in
    let (untold, _) = bar.record(&["cordial.toml", "--fresh"]);
    let (syrup, _) = bar.record(&["syrup.toml", "--made", &ago(1)]);
    let (told, _) = bar.record(&["cordial.toml", "--fresh", "--part", "lime juice=Crate P9"]);
    let recalled = bar.json(&["recall", &syrup]);
    let codes = |key: &str| {
        recalled[key].as_array().unwrap().iter().map(|lot| lot["lot"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!((codes("into"), codes("perhaps")), (vec![told.clone()], vec![untold.clone()]));
    let asked = bar.run(&["recall", "crate p9"]);
    let said = String::from_utf8_lossy(&asked.stderr).into_owned();
    assert!(said.contains(&told) && !said.contains(&untold), "{said}");
}

#[test]
fn a_torn_line_is_named_passed_over_and_kept() {
    let bar = lots();
    bar.record(&["syrup.toml"]);
    let file = std::fs::read_dir(bar.kitchen.folder().join("lots")).unwrap();
    let file =
        file.map(|entry| entry.unwrap().path()).find(|path| path.extension().is_some_and(|e| e == "jsonl")).unwrap();
    let mut text = std::fs::read_to_string(&file).unwrap();
    text.push_str("{\"id\":\"half");
    std::fs::write(&file, &text).unwrap();
    let (_, second) = bar.record(&["syrup.toml"]);
    assert!(second["lot"].as_str().unwrap().ends_with("A2"));
    let out = bar.run(&["due"]);
    let said = String::from_utf8_lossy(&out.stderr).into_owned();
    assert!(said.contains("line 2: no event"), "{said}");
    assert!(std::fs::read_to_string(&file).unwrap().contains("{\"id\":\"half\n"));
}

/// A full disk: whatever was half written is taken out again, and nothing is said to be there that is not.
#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_cannot_be_written_is_a_clear_error() {
    let bar = lots();
    std::fs::write(bar.kitchen.folder().join("lots"), "a file where the folder would be").unwrap();
    let out = bar.run(&["record", "syrup.toml"]);
    let said = String::from_utf8_lossy(&out.stderr).into_owned();
    assert_eq!(out.status.code(), Some(2), "{said}");
    assert!(said.contains("cannot be"), "{said}");
    assert!(!Path::new(&bar.kitchen.folder().join("lots").join("sheets")).exists());
}

#[test]
fn four_writers_lose_nothing_and_give_no_code_twice() {
    let bar = lots();
    bar.record(&["syrup.toml"]);
    std::thread::scope(|scope| {
        for _ in 0..4 {
            scope.spawn(|| {
                for _ in 0..5 {
                    let out = bar.run(&["record", "syrup.toml"]);
                    assert!(out.status.success(), "{out:?}");
                }
            });
        }
    });
    let due = bar.json(&["due"]);
    assert_eq!(due["lots"].as_array().unwrap().len(), 21, "{due}");
}

/// Ten lots finished at ten days say nothing of eleven, however good they were; and lots of another recipe say nothing.
#[test]
fn lots_teach_quality_and_nothing_beyond_the_day_they_were_looked_at() {
    let bar = lots();
    for _ in 0..4 {
        let (lot, _) = bar.record(&["syrup.toml", "--made", &ago(10)]);
        bar.run(&["use-up", &lot]);
    }
    let (lot, _) = bar.record(&["syrup.toml", "--made", &ago(6)]);
    bar.run(&["taste", &lot, "going", "--signs", "stale"]);
    let told = bar.json(&["learn", "House syrup"]);
    let lesson = &told["lessons"][0];
    assert_eq!((&lesson["lots"], &lesson["refused"]), (&Value::from(5), &Value::from(1)), "{told}");
    assert_eq!(lesson["oldest_fine_days"], 10.0);
    assert!(lesson["offered_days"].as_u64().unwrap() <= 10 && lesson["expected_rules"] == true, "{told}");
    bar.kitchen.write("syrup.toml", &SYRUP.replace("brix = 66", "brix = 65"));
    bar.record(&["syrup.toml"]);
    assert_eq!(bar.json(&["learn"])["lessons"].as_array().unwrap().len(), 1, "the other recipe was not looked at");
}

/// The demo house has a book of three months: all of it invented, and the same as its generator writes.
#[test]
fn the_demo_book_is_what_its_generator_writes_and_has_something_to_show() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let (lines, sheets) = three_months::book(&folder).unwrap();
    if std::env::var_os("STILLROOM_BLESS").is_some() {
        std::fs::write(folder.join("lots").join("demo.jsonl"), &lines).unwrap();
        sheets.iter().for_each(|(hash, sheet)| files::keep_sheet(&folder, hash, &sheet.text()).unwrap());
    }
    let there = std::fs::read_to_string(folder.join("lots").join("demo.jsonl")).unwrap();
    assert!(there == lines, "cargo run --release --example three_months writes it anew");
    assert!(sheets.keys().all(|hash| folder.join("lots").join("sheets").join(format!("{hash}.json")).is_file()));
    let events = lines.lines().map(|line| Event::of_line(line.as_bytes()).unwrap()).collect();
    let book = LotBook::of(events);
    assert!(three_months::is_told(&book) && book.faults.is_empty());
    let on = NaiveDate::from_ymd_opt(2026, 11, 28).unwrap();
    assert!(!due(&book, on).is_empty());
    let bitters = book.lots().find(|lot| lot.recorded.product == "Aromatic bitters").unwrap();
    assert_eq!(chain(&book, &bitters.lot).unwrap().from.len(), 1, "the syrup that went in");
}

/// What is opened stays opened, and what is off is followed into whatever it went into.
#[test]
fn neither_a_move_nor_a_drink_hides_what_happened_to_a_lot() {
    let bar = lots();
    let hot = "name = \"Hot cordial\"\nmakes = \"1 L\"\nheated = \"90 °C for 10 min\"\n[parts]\n\"white sugar\" = \"500 g\"\nwater = \"650 g\"\n\"citric acid\" = \"25 g\"\n[keep]\nfill = \"hot\"\nclosed = true\nin = \"glass\"\n";
    bar.kitchen.write("hot.toml", &hot.replace("makes = \"1 L\"\n", ""));
    let (lot, closed) = bar.record(&["hot.toml"]);
    let opened = bar.json(&["open", &lot]);
    assert!(day(&opened).unwrap() < day(&closed).unwrap(), "{opened}");
    let moved = bar.json(&["move", &lot, "fridge"]);
    assert_eq!(day(&moved), day(&opened), "a move closes no bottle");

    let (syrup, _) = bar.record(&["syrup.toml"]);
    let (cordial, _) = bar.record(&["cordial.toml", "--fresh"]);
    bar.run(&["taste", &syrup, "off", "--signs", "gas"]);
    let due = bar.json(&["due"]);
    let gone: Vec<&str> = due["lots"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|l| l["soon"] == "must_go")
        .map(|l| l["lot"].as_str().unwrap())
        .collect();
    assert!(gone.contains(&syrup.as_str()) && gone.contains(&cordial.as_str()), "{due}");
    let punch = "name = \"Punch\"\n[parts]\n\"Lime cordial\" = \"500 g\"\nwater = \"500 g\"\n";
    bar.kitchen.write("punch.toml", punch);
    let refused = bar.run(&["record", "punch.toml", "--part", &format!("Lime cordial={cordial}")]);
    assert!(
        String::from_utf8_lossy(&refused.stderr).contains("is in it, and of that something grew in it: gas"),
        "{refused:?}"
    );
}

/// What would lose a lot from a recall, or close an off one as good, is refused, and nothing of it is written.
#[test]
fn a_slip_loses_no_lot_and_closes_none_as_good() {
    let bar = lots();
    let (syrup, _) = bar.record(&["syrup.toml"]);
    let no_such = format!("{}9", syrup);
    let out = bar.run(&["record", "cordial.toml", "--part", &format!("House syrup={no_such}"), "--fresh"]);
    assert!(!out.status.success() && said(&out).contains("the book has no lot of this code"), "{}", said(&out));
    let out = bar.run(&["taste", &syrup, "off", "--signs", "gassy"]);
    assert!(!out.status.success() && said(&out).contains("gas"), "{}", said(&out));
    assert_ne!(bar.json(&["due"])["lots"][0]["soon"], "must_go", "nothing was written of it");
    assert!(bar.run(&["taste", &syrup, "off", "--signs", "gas"]).status.success());
    let out = bar.run(&["use-up", &syrup]);
    assert!(!out.status.success() && said(&out).contains("stillroom discard"), "{}", said(&out));
    assert_eq!(bar.json(&["due"])["lots"][0]["soon"], "must_go");
}

/// Gas in one lot ends every other of its product before that age, whichever verb says the date.
#[test]
fn what_grew_in_a_lot_shortens_the_date_of_every_verb() {
    let bar = lots();
    let days = |arguments: &[&str]| bar.json(arguments);
    let before = days(&["solve", "syrup.toml"])["date"]["date"].clone();
    let (lot, _) = bar.record(&["syrup.toml", "--made", &ago(5)]);
    assert!(bar.run(&["taste", &lot, "off", "--signs", "gas"]).status.success());
    let dated = days(&["date", "syrup.toml", "--store", "fridge"])["stores"][0]["date"].clone();
    assert_ne!(dated, before);
    assert_eq!(days(&["solve", "syrup.toml"])["date"]["date"], dated);
    let page = bar.run(&["card", "print", "syrup.toml"]);
    assert!(String::from_utf8_lossy(&page.stdout).contains("spoiled at this age"), "{page:?}");
}

/// A line that cannot be read may be a lot that must go: the board says so where it is looked at.
#[test]
fn the_board_says_that_a_line_cannot_be_read() {
    let kitchen = crate::kitchen::Kitchen::new("");
    std::fs::create_dir_all(kitchen.folder().join("lots")).unwrap();
    std::fs::write(kitchen.folder().join("lots/a.jsonl"), "{\"id\":\"1\",\"wat\":2}\n").unwrap();
    let (_, said, _) = kitchen.run(&["due", "--on", "2026-11-28"]);
    assert!(said.contains("1 line of the book cannot be read: a lot may be missing"), "{said}");
}

/// No amount is below zero: `record` refuses it whoever calls it, and a line that has one is named, and never printed as one.
#[test]
fn an_amount_below_zero_is_refused_and_named() {
    let bar = lots();
    let out = bar.run(&["record", "syrup.toml", "--weighed", "0 g"]);
    assert!(!out.status.success() && said(&out).contains("weighs something"), "{}", said(&out));
    let (house, _) = House::from_texts([("syrup.toml", SYRUP)]);
    let card = stillroom::card::read("syrup.toml".into(), SYRUP.into()).0.unwrap();
    let read = BatchReading { of: TargetKind::Brix, value: -1.0, by: None };
    for wrong in [
        RecordRequest { weighed_g: Some(-5.0), ..RecordRequest::default() },
        RecordRequest { filled: Some((2, -250.0)), ..RecordRequest::default() },
        RecordRequest { readings: vec![read], ..RecordRequest::default() },
    ] {
        let (recorded, found) = record(&card, &house, &LotBook::default(), &wrong);
        assert!(recorded.is_none() && found.iter().any(|d| d.title.contains("below zero")), "{found:?}");
    }
    let (syrup, _) = bar.record(&["syrup.toml"]);
    bar.record(&["cordial.toml", "--fresh"]);
    let folder = bar.kitchen.folder().join("lots");
    let file =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).find(|path| path.is_file()).unwrap();
    let text = std::fs::read_to_string(&file).unwrap();
    let changed = text.replace("\"mass_g\":", "\"mass_g\":-").replace("\"volume_ml\":", "\"volume_ml\":-");
    std::fs::write(&file, changed).unwrap();
    let out = bar.run(&["recall", &syrup]);
    let told = String::from_utf8_lossy(&out.stdout).into_owned();
    assert!(told.contains("amount not told") && !told.contains("-0 g") && !told.contains(": -"), "{told}");
    let warned = format!("lot {syrup}: an amount in the book is below zero: mass -");
    assert!(said(&out).contains(&warned), "{}", said(&out));
    assert_eq!(bar.json(&["recall", &syrup])["into"].as_array().unwrap().len(), 1, "the chain stays whole");
}

/// What went into other lots is gone from a lot, and a part of more than is left is asked about.
#[test]
fn the_book_knows_what_is_left_of_a_lot() {
    let bar = lots();
    bar.kitchen.write("blend.toml", "name = \"Blend\"\n[parts]\n\"House syrup\" = \"800 g\"\nwater = \"200 g\"\n");
    let (syrup, told) = bar.record(&["syrup.toml"]);
    assert!(told["left"].is_null(), "{told}");
    let made = told["mass_g"].as_f64().unwrap();
    let (blend, _) = bar.record(&["blend.toml"]);
    let line = |lot: &str| {
        let due = bar.json(&["due"]);
        due["lots"].as_array().unwrap().iter().find(|line| line["lot"] == lot).unwrap().clone()
    };
    let left = line(&syrup)["left"].clone();
    assert!((left["g"].as_f64().unwrap() - (made - 800.0)).abs() < 1e-6, "{left}");
    let share = (made - 800.0) / made;
    assert!((left["ml"].as_f64().unwrap() / told["volume_ml"].as_f64().unwrap() - share).abs() < 1e-9, "{left}");
    let due = String::from_utf8(bar.run(&["due"]).stdout).unwrap();
    assert!(due.contains("about 395 ml left") && due.contains("by the glass is not on the book"), "{due}");
    let recall = String::from_utf8(bar.run(&["recall", &blend]).stdout).unwrap();
    assert!(!recall.contains("left"), "{recall}");
    // as much again is more than there is: written, and asked about
    let out = bar.run(&["record", "blend.toml"]);
    let asked = format!("800 g are more than lot {syrup} has left by the book: {:.0} g", made - 800.0);
    assert!(out.status.success() && said(&out).contains(&asked), "{}", said(&out));
    // of what is empty nothing is taken by itself
    let (_, told) = bar.record(&["blend.toml"]);
    let part = told["parts"].as_array().unwrap().iter().find(|part| part["of"] == "House syrup").unwrap();
    assert!(part["lot"].is_null(), "{told}");
}
