//! A wrong line of the book is taken back by a later one: what follows from the book follows from the rest, and nothing is erased.

use serde_json::Value;

use crate::bar::{Bar, ago, said};

const SYRUP: &str = "name = \"House syrup\"\nmakes = \"1 L\"\n[target]\nbrix = 66\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n";
const BLEND: &str = "name = \"Blend\"\n[parts]\n\"House syrup\" = \"500 g\"\nwater = \"500 g\"\n";

fn house() -> Bar {
    Bar::new("[house]\nname = \"The still\"\n", "").with(&[("syrup", SYRUP), ("blend", BLEND)])
}

fn due(bar: &Bar) -> Vec<(String, String)> {
    let told = bar.json(&["due"]);
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    told["lots"].as_array().unwrap().iter().map(|line| (text(&line["lot"]), text(&line["soon"]))).collect()
}

const WRONG: [&str; 4] = ["--by", "Ana", "--why", "that was another bottle"];

fn strike(bar: &Bar, arguments: &[&str]) -> Value {
    let all: Vec<&str> = ["strike"].into_iter().chain(arguments.iter().copied()).chain(WRONG).collect();
    bar.json(&all)
}

#[test]
fn a_taste_and_a_discard_of_the_wrong_bottle_are_taken_back() {
    let bar = house();
    let (syrup, other) = (bar.lot(&["syrup.toml", "--made", &ago(3)]), bar.lot(&["syrup.toml", "--made", &ago(3)]));
    let before = due(&bar);
    bar.run(&["taste", &syrup, "off", "--signs", "film"]);
    assert_ne!(due(&bar), before, "both are due now, for something grew in one");
    bar.run(&["discard", &syrup, "--why", "film"]);
    let after = strike(&bar, &[&syrup]);
    assert_eq!(after["standing"], "in_use");
    strike(&bar, &[&syrup, "--line", "2"]);
    assert_eq!(due(&bar), before);
    let recall = bar.json(&["recall", &syrup]);
    let history: Vec<(&str, bool)> = recall["lot"]["history"]
        .as_array()
        .unwrap()
        .iter()
        .map(|line| (line["words"].as_str().unwrap(), line["is_struck"].as_bool().unwrap()))
        .collect();
    assert_eq!(history.len(), 5, "{history:?}");
    assert_eq!(history[1], ("STRUCK OUT: tasted, off: film", true));
    assert_eq!(history[2], ("STRUCK OUT: thrown away: film", true));
    assert_eq!(history[3], ("a line above struck out by Ana: that was another bottle", false));
    assert!(recall["lot"]["pulled"].is_null(), "{recall}");
    // nothing is said of the product any more
    assert!(!said(&bar.run(&["solve", "syrup.toml"])).contains("was pulled"));
    // what is struck, and what strikes, stays so
    for line in ["2", "4", "9"] {
        let out = bar.run(&["strike", &syrup, "--line", line, "--by", "Ana", "--why", "again"]);
        assert!(!out.status.success(), "{line}");
    }
    assert!(bar.run(&["use-up", &other]).status.success());
    assert_eq!(strike(&bar, &[&other])["standing"], "in_use");
}

#[test]
fn a_mistyped_lot_is_on_no_list_and_its_code_is_not_given_again() {
    let bar = house();
    let wrong = bar.lot(&["syrup.toml"]);
    let blend = bar.lot(&["blend.toml", "--part", &format!("House syrup={wrong}")]);
    let out = bar.run(&["strike", &wrong, "--by", "Ana", "--why", "typed twice"]);
    assert!(!out.status.success() && said(&out).contains(&format!("went into {blend}")), "{}", said(&out));
    strike(&bar, &[&blend]);
    let struck = strike(&bar, &[&wrong]);
    assert!(struck["struck_out"].as_str().unwrap().starts_with("by Ana on "), "{struck}");
    assert_eq!(due(&bar), []);
    let out = bar.run(&["recall", &wrong]);
    assert!(!out.status.success() && said(&out).contains("was struck out by Ana"), "{}", said(&out));
    assert!(!said(&bar.run(&["due"])).contains("nobody recorded"), "its later lines are of no lot that is missed");
    assert_ne!(bar.lot(&["syrup.toml"]), wrong);
}
