//! What `plan` tells a person: no row that cannot be done without a word, amounts as they are bought.

use std::fs;

use crate::kitchen::Kitchen;
use serde_json::Value;

const LARDER: &str = r#"
[ingredient."kiln rum"]
abv = 63
price = "34.50 GBP / 700 ml"
allergens = []
[ingredient."white sugar"]
like = "white sugar"
price = "1.10 GBP / 1 kg"
[ingredient."lime juice"]
like = "lime juice"
price = "0.30 GBP / each"
"#;

const LIQUEUR: &str = r#"name = "Kiln liqueur"
makes = "1 L"
class = "liqueur"
[[stage]]
name = "maceration"
takes = "24 h"
[stage.parts]
"kiln rum" = "300 ml"
clove = { amount = "2 g", strained = true }
[parts]
maceration = "as needed"
"white sugar" = "250 g"
water = "as needed"
[target]
abv = 20
"#;

const KEPT: &str = "[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";

const BOARD: &str = r#"[plan]
from = 2026-11-30
days = 10
closed = ["Mon", "Thu"]
[product."Kiln liqueur"]
use = "1 L a week"
batch = "900 ml up to 3 L"
[product."Lime mix"]
use = "2 L a week"
batch = "1 L up to 3 L"
[product.Punch]
use_on = { Sun = "200 ml" }
[ingredient."kiln rum"]
pack = "700 ml"
lead = "2 days"
deliver = ["Tue", "Sat"]
"#;

/// Standard output with standard error behind it, and the two tables.
fn planned() -> (String, Value, [String; 2]) {
    let house = Kitchen::new(LARDER);
    house.write("liqueur.toml", &format!("{LIQUEUR}{KEPT}"));
    let mix =
        "\"lime juice\" = \"600 ml\"\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[target]\nbrix = 14\n";
    house.write("mix.toml", &format!("name = \"Lime mix\"\nmakes = \"1 L\"\n[parts]\n{mix}{KEPT}"));
    let punch = "\"Kiln liqueur\" = \"900 ml\"\nwater = \"100 ml\"\n";
    house.write(
        "punch.toml",
        &format!("name = \"Punch\"\nmakes = \"1 L\"\nclass = \"liqueur\"\n[parts]\n{punch}{KEPT}"),
    );
    house.write("plan.toml", BOARD);
    let said = house.says(&["plan", ".", "--csv-prep", "prep.csv", "--csv-order", "order.csv"]);
    let json = house.json(&["plan", "."]);
    let tables = ["prep.csv", "order.csv"].map(|name| fs::read_to_string(house.folder().join(name)).unwrap());
    (said, json, tables)
}

#[test]
fn what_cannot_be_had_in_time_marks_every_row_that_waits_for_it() {
    let (said, json, [prep, _]) = planned();
    let waits = "waits for kiln rum, which comes Sat 5 Dec";
    // the batch that begins before the rum is there, and what that batch goes into; not the next one
    let row = |day: &str, what: &str, of: &str| {
        prep.lines().find(|line| line.starts_with(&format!("{day},{what},{of},"))).unwrap().to_owned()
    };
    for (day, what, of) in [
        ("2026-12-01", "start", "Kiln liqueur"),
        ("2026-12-02", "make", "Kiln liqueur"),
        ("2026-12-06", "take", "Kiln liqueur"),
        ("2026-12-06", "make", "Punch"),
    ] {
        assert!(row(day, what, of).ends_with(&format!(",\"{waits}\"")), "{prep}");
    }
    assert_eq!(prep.matches(waits).count(), 4, "{prep}");
    assert!(prep.starts_with("date,what,product,amount,unit,use_by,date_is,detail,note\n"), "{prep}");
    assert!(row("2026-12-08", "make", "Lime mix").ends_with(','), "{prep}");
    assert_eq!(said.matches(waits).count(), 4, "{said}");
    let notes = json["prep"].as_array().unwrap().iter().filter(|task| task["note"] == waits);
    assert_eq!(notes.count(), 4, "{json}");
    // Tuesday's delivery is passed over, and this is why
    let why = "it is delivered on Tue and Sat, 2 days after the order, for Tue 1 Dec it had to be ordered by Sun 29 Nov, \
               the house is closed on Mon 30 Nov and Thu 3 Dec";
    assert!(said.contains(why), "{said}");
}

#[test]
fn every_batch_that_is_too_small_is_said() {
    let (said, ..) = planned();
    let all = "`Lime mix` is planned below its smallest batch of 1.00 L: 800 ml on Tue 1 Dec, 800 ml on Tue 8 Dec";
    assert!(said.contains(all), "{said}");
}

#[test]
fn amounts_are_as_they_are_bought() {
    let (said, _, [_, order]) = planned();
    // 1.32 L of each 1 L with 600 ml of lime juice, 28 g a fruit: 63
    assert!(said.contains("lime juice      63 pieces of lime") && !said.contains(" each"), "{said}");
    let mut rows = csv::Reader::from_reader(order.as_bytes());
    let heads = rows.headers().unwrap().clone();
    let cell = |row: &csv::StringRecord, head: &str| {
        row.get(heads.iter().position(|h| h == head).unwrap()).unwrap().to_owned()
    };
    for row in rows.records().map(|row| row.unwrap()) {
        let is_whole = |head: &str| cell(&row, head).bytes().all(|b| b.is_ascii_digit());
        assert!(["amount", "need", "on_hand"].into_iter().all(is_whole), "{order}");
        let (packs, pack, amount) = (cell(&row, "packs"), cell(&row, "pack"), cell(&row, "amount"));
        match cell(&row, "ingredient").as_str() {
            // bought loose
            "Clove (whole)" => assert_eq!((packs.as_str(), pack.as_str(), amount.as_str()), ("", "", "3")),
            "kiln rum" => assert_eq!((packs.as_str(), pack.as_str(), amount.as_str()), ("1", "700", "700")),
            // what is missing is nothing to order
            _ => assert_eq!(packs.is_empty(), cell(&row, "left_out").starts_with("missing: "), "{order}"),
        }
    }
}
