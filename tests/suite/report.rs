//! What is printed and what its JSON says is one view: whatever the text of a demo card says of lines, dates, allergens
//! and cautions stands in the JSON.

use serde_json::Value;

use crate::kitchen::{FULL, Made, wednesday};
use stillroom::assessment::{Which, assess};
use stillroom::render::text;
use stillroom::report::Report;
use stillroom::report::date::DateView;
use stillroom::shelf_life::Draws;
use stillroom::solver::Options;
use stillroom::units::display::grouped;

fn demo_cards() -> Vec<Made> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/formulas");
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let cards = files.filter(|f| !["house", "larder", "plan", "menu"].iter().any(|not| f.file_stem().unwrap() == *not));
    let toml = cards.filter(|f| f.extension().is_some_and(|e| e == "toml"));
    toml.map(|card| crate::kitchen::made(&card, &Options::default())).collect()
}

/// A text with every run of white space as one space: where its lines are broken says nothing.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn texts<'a>(list: &'a Value, key: &str) -> Vec<&'a str> {
    list.as_array().unwrap().iter().map(|one| one[key].as_str().unwrap()).collect()
}

/// What follows each of these words in a text, to the next mark of a line of its kind.
fn said_after<'a>(text: &'a str, heads: &[&str]) -> Vec<&'a str> {
    let lines = text.lines().filter_map(|line| heads.iter().find_map(|head| line.strip_prefix(head)));
    lines.map(str::trim).collect()
}

#[test]
fn all_that_a_sheet_prints_is_in_its_json() {
    let cards = demo_cards();
    assert!(cards.len() > 10);
    for made in cards {
        let view = made.sheet();
        let name = made.card.as_ref().unwrap().name.value.clone();
        let report = Report::new(Some(view), &[], |_| None).of_product(Some(&name));
        let (printed, json): (String, Value) =
            (text::solve(&report, FULL), serde_json::from_str(&report.json()).unwrap());
        // The lines: each label with its grams, and what the scale reads.
        for line in json["stages"].as_array().unwrap().iter().flat_map(|stage| stage["lines"].as_array().unwrap()) {
            let (of, step) = (line["of"].as_str().unwrap(), line["step_g"].as_f64().unwrap());
            let decimals = [1.0, 0.1, 0.01].iter().position(|s| step >= *s).unwrap_or(3);
            let grams = grouped(line["mass_g"].as_f64().unwrap(), decimals);
            let row = printed.lines().find(|row| row.trim_start().starts_with(of) && row.contains(&grams));
            let row = row.unwrap_or_else(|| panic!("{name}: {of} {grams}\n{printed}"));
            if line["by"] == "scale" && line["goes"].is_null() {
                assert!(row.ends_with(&grouped(line["reads_g"].as_f64().unwrap(), decimals)), "{row}");
            }
        }
        // The date, the rule, the allergens and the cautions, from the text to the JSON.
        let flat_text = flat(&printed);
        let keeping = &json["keeping"];
        assert!(flat_text.contains(&flat(keeping["says"].as_str().unwrap())), "{printed}");
        assert_eq!(keeping["says"], json["date"]["says"]);
        for rule in said_after(&printed, &["  decided by "]) {
            assert!(flat(keeping["rule"].as_str().unwrap()).starts_with(rule), "{rule}");
        }
        let declared = json.to_string().replace('_', " ");
        for allergens in said_after(&printed, &["  ALLERGENS: "]) {
            let says = flat(&json["allergens_say"].as_str().unwrap().replace('_', " "));
            assert!(says.starts_with(allergens), "{name}: {allergens}");
            let named = |a: &&str| !a.contains("not stated") && *a != "no allergen named";
            for allergen in allergens.split(", ").filter(named) {
                assert!(declared.contains(&format!("\"{allergen}\"")), "{name}: {allergen}");
            }
        }
        let cautions = texts(&json["cautions"], "message");
        for said in said_after(&printed, &["  STOP  ", "  warn  ", "  tell  ", "STOP  "]) {
            assert!(cautions.iter().any(|c| flat(c).starts_with(said)), "{name}: {said}");
        }
        for caution in json["cautions"].as_array().unwrap() {
            let certain = caution["not_stated"].as_array().unwrap().is_empty();
            let told = caution["severity"] != "note" || caution["tell"] == true;
            let shown = flat_text.contains(&flat(caution["message"].as_str().unwrap()));
            assert!(shown || !(certain && told), "{name}: {caution}");
        }
    }
}

#[test]
fn all_that_a_date_prints_is_in_its_json() {
    for made in demo_cards() {
        let few = Draws { draws: 200, ..Draws::default() };
        let view = DateView::new(&assess(made.solved(), &made.house, wednesday(), Which::All, few).0);
        let name = made.card.as_ref().unwrap().name.value.clone();
        let report = Report::new(Some(view), &[], |_| None).of_product(Some(&name));
        let (printed, json): (String, Value) =
            (text::date(&report, FULL), serde_json::from_str(&report.json()).unwrap());
        let flat_text = flat(&printed);
        for store in json["stores"].as_array().unwrap() {
            for said in [&store["short"], &store["decided_by"]].into_iter().filter_map(Value::as_str) {
                assert!(flat_text.contains(&flat(said)), "{name}: {said}");
            }
            for refusal in store["refusals"].as_array().unwrap() {
                assert!(flat_text.contains(&flat(refusal.as_str().unwrap())), "{name}: {refusal}");
            }
        }
        for caution in json["cautions"].as_array().unwrap() {
            assert!(flat_text.contains(&flat(caution["says"].as_str().unwrap())), "{name}: {caution}");
        }
        // And nothing beside them.
        let mut messages = texts(&json["cautions"], "message");
        messages.extend(texts(&json["cautions_said_elsewhere"], "message"));
        for said in said_after(&printed, &["  STOP  ", "  warn  ", "  note  ", "STOP  "]) {
            assert!(messages.iter().any(|c| flat(c).starts_with(said)), "{name}: {said}");
        }
        let days = texts(&json["stores"], "short");
        for line in printed.lines().filter(|l| l.contains("   use by ") || l.contains("   best before ")) {
            assert!(days.iter().any(|day| line.contains(day)), "{name}: {line}");
        }
    }
}
