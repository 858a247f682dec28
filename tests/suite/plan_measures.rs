//! What is written by the measures of a house is read by them: its board, what was counted, its prices; and an order of which
//! nothing has a price says so.

use serde_json::Value;

use crate::kitchen::{Folder, run_in};

const SYRUP: &str = "name = \"Plain syrup\"\nmakes = \"1 L\"\nclass = \"plain syrup\"\n[parts]\n\"cane sugar\" = \"as needed\"\n\
                     water = \"as needed\"\n[target]\nbrix = 50\n[keep]\nfill = \"cold\"\nclosed = true\nin = \"glass\"\n";
const SUGAR: &str = "[ingredient.\"cane sugar\"]\nlike = \"white sugar\"\n";
const LEMON: &str =
    "[ingredient.\"bar lemon\"]\nlike = \"lemon juice\"\nprice = \"8 USD / 1 pint\"\nusable = \"50 %\"\n";
const BOARD: &str =
    "[plan]\nfrom = 2026-11-30\n[product.\"Plain syrup\"]\nuse = \"16 fl oz a day\"\nbatch = \"at least 1 quart\"\n";

fn house(measures: &str, larder: &str) -> Folder {
    let settings = format!("[house]\nmeasures = \"{measures}\"\n");
    let folder = Folder::new().with("house.toml", &settings).with("larder.toml", larder);
    folder.with("syrup.toml", SYRUP).with("plan.toml", BOARD)
}

fn run(folder: &Folder, arguments: &[&str]) -> (Value, String) {
    let (_, text, said) = run_in(&folder.0, arguments);
    let (_, json, _) = run_in(&folder.0, &[arguments, &["--json"]].concat());
    (serde_json::from_str(&json).unwrap_or_default(), text + &said)
}

fn made(plan: &Value) -> u64 {
    let rows = plan["prep"].as_array().unwrap_or_else(|| panic!("{plan}"));
    rows.iter().filter(|row| row["what"] == "make").map(|row| row["amount"].as_u64().unwrap()).sum()
}

/// A US fluid ounce is 29.5735 ml, a US quart 946.35 ml; an imperial ounce is 28.4131 ml (NIST Handbook 44, appendix C).
#[test]
fn a_board_is_read_by_the_measures_of_its_house() {
    let week = |ounce: f64| (7.0 * (16.0 * ounce).round()) as u64;
    for (measures, ounce) in [("US", 29.5735), ("imperial", 28.4131)] {
        let (plan, said) = run(&house(measures, SUGAR), &["plan", "."]);
        let least = week(ounce);
        assert!((least..least + 50).contains(&made(&plan)), "{measures}: {} not {least}: {said}", made(&plan));
    }
    let folder = house("US", SUGAR).with("counted.csv", "product,amount,use_by\nPlain syrup,1 quart,2026-12-20\n");
    let (plan, said) = run(&folder, &["plan", ".", "--on-hand", "counted.csv"]);
    let least = week(29.5735) - 947;
    assert!((least..least + 51).contains(&made(&plan)), "{} not {least}: {said}", made(&plan));
}

#[test]
fn prices_are_for_the_measures_of_the_house() {
    let folder = house("US", &format!("{SUGAR}{LEMON}"));
    let asked = ["cost", "syrup.toml", "--price", "cane sugar=3 USD / 1 pint"];
    let (_, said) = run(&folder, &asked);
    assert!(!said.contains("bad-argument"), "{said}");
    let (lemon, said) = run(&folder, &["larder", "bar lemon"]);
    // half of it is used: 16 USD for 473.176 ml, at about 1.02 to 1.04 kg/L
    let per_kg = &lemon["ingredients"][0]["per_usable_kg"];
    let amount: f64 =
        per_kg["amount"].as_str().or(per_kg.as_str()).unwrap_or_else(|| panic!("{lemon}\n{said}")).parse().unwrap();
    assert!((32.0..33.5).contains(&amount), "{amount}");
}

#[test]
fn an_order_without_any_price_says_so_and_adds_nothing_up() {
    let (plan, said) = run(&house("US", SUGAR), &["plan", "."]);
    assert!(said.contains("nothing on this list has a price") && !said.contains("INCOMPLETE"), "{said}");
    assert!(plan["cost_at_least"].is_null() && plan["nothing_priced"] == true, "{plan}");
    let (plan, said) = run(&house("US", &format!("{SUGAR}price = \"2 USD / 1 lb\"\n")), &["plan", "."]);
    assert!(!said.contains("nothing on this list has a price"), "{said}");
    assert!(plan["cost"].is_string() || plan["cost"].is_object(), "{plan}");
}
