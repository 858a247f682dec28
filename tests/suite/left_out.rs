//! What a menu or a plan leaves out is part of its answer: in the text, the JSON and the tables.

use serde_json::Value;

use crate::kitchen::Kitchen;

const LARDER: &str = "[ingredient.\"house rum\"]\nabv = 40\nprice = \"20.00 GBP / 700 ml\"\nallergens = []\n";
const SOUR: &str = "name = \"Lime sour\"\nhow = \"shaken\"\nwater = \"30 g\"\n[parts]\n\"house rum\" = \"50 ml\"\n\
                    \"lime juice\" = \"25 ml\"\n";
const MENU: &str = "[drink.\"Lime sour\"]\nsold = 70\nshare = \"40 %\"\n[drink.\"Slipped sour\"]\nsold = 10\nshare = \"30 %\"\n\
                    [drink.\"Torn sour\"]\nsold = 5\nshare = \"30 %\"\n[event]\nguests = 10\nhours = 1\n";

/// Three drinks on a menu, one with two faults and one that is no TOML.
fn house() -> Kitchen {
    let slipped = SOUR.replace("Lime sour", "Slipped sour").replace("shaken", "shakn").replace("25 ml", "25 mll");
    let torn = SOUR.replace("Lime sour", "Torn sour").replace("[parts]", "[parts");
    Kitchen::new(LARDER).with(&[("sour", SOUR), ("slipped", &slipped), ("torn", &torn), ("menu", MENU)])
}

const WHY: [(&str, &str); 2] = [("Slipped sour", "`how` is `shakn`"), ("Torn sour", "the heading is not closed")];

fn holds_left_out(of: &Value) {
    let left_out = of["left_out"].as_array().unwrap_or_else(|| panic!("{of}"));
    let said: Vec<_> = left_out.iter().map(|l| (l["of"].as_str().unwrap(), l["why"].as_str().unwrap())).collect();
    assert_eq!(said, WHY);
    assert_eq!((&left_out[0]["file"], &left_out[1]["file"]), (&"slipped.toml".into(), &"torn.toml".into()));
}

fn table_holds_left_out(kitchen: &Kitchen, file: &str, name_under: &str) {
    let text = std::fs::read_to_string(kitchen.folder().join(file)).unwrap();
    let mut table = csv::Reader::from_reader(text.as_bytes());
    let heads = table.headers().unwrap().clone();
    let column = |name: &str| heads.iter().position(|head| head == name).unwrap();
    let rows: Vec<csv::StringRecord> = table.records().map(|row| row.unwrap()).collect();
    let out = rows.iter().filter(|row| !row[column("left_out")].is_empty());
    let said: Vec<_> = out.map(|row| (&row[column(name_under)], &row[column("left_out")])).collect();
    assert_eq!(said, WHY, "{text}");
    assert!(rows.len() > 2, "what can be made is there all the same: {text}");
}

#[test]
fn a_menu_names_what_it_leaves_out() {
    let kitchen = house();
    let (code, out, err) = kitchen.run(&["menu", ".", "--csv", "menu.csv"]);
    assert_eq!(code, Some(1), "{err}");
    for (name, why) in WHY {
        assert!(out.contains(&format!("LEFT OUT, {name}: {why}")), "{out}");
    }
    assert!(out.contains("menu of 1 drink") && out.contains("Torn sour      30 %   4, left out"), "{out}");
    table_holds_left_out(&kitchen, "menu.csv", "drink");
    let (code, json, _) = kitchen.run(&["menu", ".", "--json"]);
    assert_eq!(code, Some(1));
    let json: Value = serde_json::from_str(&json).unwrap();
    holds_left_out(&json);
    holds_left_out(&json["event"]["plan"]);
    // what the list and the event both find is found once
    let found = json["diagnostics"].as_array().unwrap();
    assert_eq!(found.iter().filter(|d| d["code"] == "syntax").count(), 1, "{json}");
}

#[test]
fn a_menu_of_which_nothing_can_be_made_says_so() {
    let kitchen = house();
    kitchen.write("menu.toml", "[drink.\"Torn sour\"]\n");
    let (code, out, _) = kitchen.run(&["menu", "."]);
    assert_eq!((code, out.as_str()), (Some(1), "LEFT OUT, Torn sour: the heading is not closed (torn.toml)\n"));
}

/// By hand: 70 x 50 ml = 3.5 L, five bottles of 700 ml, of a menu beside which no plan.toml lies.
#[test]
fn a_plan_names_what_it_leaves_out_and_needs_no_board() {
    let kitchen = house();
    let asked = ["plan", ".", "--from", "2026-11-30"];
    let (code, out, err) = kitchen.run(&[&asked[..], &["--csv-prep", "prep.csv", "--csv-order", "order.csv"]].concat());
    assert_eq!(code, Some(1), "{err}");
    assert!(out.contains("LEFT OUT, Torn sour: the heading is not closed") && out.contains("5 x 700 ml"), "{out}");
    table_holds_left_out(&kitchen, "order.csv", "ingredient");
    let prep = std::fs::read_to_string(kitchen.folder().join("prep.csv")).unwrap();
    assert!(prep.contains(",left out,Torn sour,,,,,,the heading is not closed\n"), "{prep}");
    holds_left_out(&kitchen.json(&asked));
    // a board of days alone, and a product of the board that cannot be read
    kitchen.write("plan.toml", "[plan]\nfrom = 2026-11-30\n[product.\"Torn sour\"]\nuse = \"1 L a week\"\n");
    kitchen.write("menu.toml", "[drink.\"Lime sour\"]\nsold = 70\n");
    let json = kitchen.json(&["plan", "."]);
    assert_eq!((&json["left_out"][0]["of"], &json["left_out"][1]), (&"Torn sour".into(), &Value::Null), "{json}");
    kitchen.write("plan.toml", "[plan]\nfrom = 2026-11-30\ndays = 14\n");
    let (code, out, err) = kitchen.run(&["plan", "."]);
    assert!(code == Some(0) && out.contains("10 x 700 ml"), "{out}{err}");
    // nothing to plan at all
    kitchen.write("menu.toml", "[drink.\"Lime sour\"]\nprice = \"9 GBP\"\n");
    let (code, _, err) = kitchen.run(&["plan", "."]);
    assert!(code == Some(1) && err.contains("sold = 70, the glasses of a week"), "{err}");
}
