//! The example that stands beside every key of every file is read, and nothing is said of it.

use std::sync::Arc;

use serde_json::Value;
use stillroom::diagnostic::{Code, Diagnostic};
use stillroom::units::Customs;
use stillroom::{card, house, larder, menu, plan};

/// A value of a schema as it is written in a file; what looks like a day is one.
fn toml_of(value: &Value) -> String {
    let is_day = |text: &str| text.len() == 10 && text.bytes().all(|b| b.is_ascii_digit() || b == b'-');
    match value {
        Value::String(day) if is_day(day) => day.clone(),
        Value::Array(items) => format!("[{}]", items.iter().map(toml_of).collect::<Vec<_>>().join(", ")),
        Value::Object(entries) => {
            let entry = |(key, value): (&String, &Value)| format!("{} = {}", quoted(key), toml_of(value));
            format!("{{ {} }}", entries.iter().map(entry).collect::<Vec<_>>().join(", "))
        }
        other => other.to_string(),
    }
}

fn quoted(key: &str) -> String {
    let is_bare = key.bytes().all(|b| b.is_ascii_alphanumeric() || matches!(b, b'_' | b'-'));
    if is_bare { key.to_owned() } else { format!("{key:?}") }
}

/// What reads the text of a file, and gives what is found.
type Reader = dyn Fn(&str) -> Vec<Diagnostic>;

/// Each example by itself, as a line below its heading, of all tables of a schema: the heading, and the line.
fn examples(schema: &Value, heading: &[String], is_list: bool, all: &mut Vec<(String, String)>) {
    for choice in schema.get("anyOf").and_then(Value::as_array).into_iter().flatten() {
        examples(choice, heading, is_list, all);
    }
    if let Some(items) = schema.get("items") {
        examples(items, heading, true, all);
    }
    if let Some(named) = schema.get("additionalProperties").filter(|named| named.is_object()) {
        examples(named, &[heading, &["x".to_owned()]].concat(), is_list, all);
    }
    for (key, about) in schema.get("properties").and_then(Value::as_object).into_iter().flatten() {
        assert!(about["description"].as_str().is_some_and(|means| !means.is_empty()), "{heading:?} {key}");
        let [open, close] = if is_list { ["[[", "]]"] } else { ["[", "]"] };
        let above = if heading.is_empty() { String::new() } else { format!("{open}{}{close}\n", heading.join(".")) };
        all.push((above, format!("{} = {}\n", quoted(key), toml_of(&about["examples"][0]))));
        examples(about, &[heading, &[quoted(key)]].concat(), false, all);
    }
}

/// What is said of no more than the line: what the rest of a file would have to hold is not asked of it.
fn all(schema: &Value, least: usize, reader: &Reader) {
    const OF_THE_REST: &[Code] = &[Code::MissingKey, Code::NoParts, Code::NotHundred, Code::Unused];
    let mut all = Vec::new();
    examples(schema, &[], false, &mut all);
    assert!(all.len() >= least, "{} examples", all.len());
    let mut wrong = Vec::new();
    for (above, line) in all {
        let text = above.clone() + &line;
        let is_on_it = |d: &Diagnostic| {
            d.labels.iter().any(|label| label.span.start >= above.len() && label.span.end > above.len())
        };
        for said in reader(&text).into_iter().filter(|d| is_on_it(d) && !OF_THE_REST.contains(&d.code)) {
            wrong.push(format!("{text}{}", said.plain(&text)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_example_of_a_card_is_read() {
    all(&card::schema(), 60, &|text| card::read("card.toml".into(), text.into()).1);
}

#[test]
fn every_example_of_a_larder_is_read() {
    all(&larder::schema(), 25, &|text| {
        let mut found = Vec::new();
        larder::house_file::read(text, &Arc::from("larder.toml"), &mut found);
        found
    });
}

#[test]
fn every_example_of_a_board_is_read() {
    all(&plan::board::schema(), 10, &|text| {
        let mut found = Vec::new();
        plan::board::read(text, &Arc::from("plan.toml"), &Customs::default(), &mut found);
        found
    });
}

#[test]
fn every_example_of_a_menu_is_read() {
    all(&menu::schema(), 5, &|text| {
        let mut found = Vec::new();
        menu::read(text, &Arc::from("menu.toml"), &mut found);
        found
    });
}

#[test]
fn every_example_of_a_house_is_read() {
    all(&house::schema(), 20, &|text| {
        let mut found = Vec::new();
        house::settings::read(text, &Arc::from("house.toml"), &mut found);
        found
    });
}
