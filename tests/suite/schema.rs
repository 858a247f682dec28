//! The JSON Schemas that `stillroom schema` prints: what is read passes them, a misspelt key does not.

use std::fs;
use std::path::PathBuf;

use serde_json::{Map, Value, json};

/// Whether a value keeps to a schema, with where it does not. A keyword that is not known here fails the test.
fn check(schema: &Value, value: &Value, place: &str) -> Result<(), String> {
    let no = |why: &str| Err(format!("{place}: {why}: {value}"));
    let number = |word: &Value| word.as_f64().unwrap();
    for (keyword, word) in schema.as_object().unwrap() {
        match keyword.as_str() {
            "$schema" | "title" | "description" | "examples" => {}
            "type" => {
                let is = match word.as_str().unwrap() {
                    "object" => value.is_object(),
                    "array" => value.is_array(),
                    "string" => value.is_string(),
                    "number" => value.is_number(),
                    "boolean" => value.is_boolean(),
                    other => panic!("{other}"),
                };
                if !is {
                    return no(&format!("not {word}"));
                }
            }
            "properties" => {
                for (key, inner) in word.as_object().unwrap() {
                    if let Some(value) = value.get(key) {
                        check(inner, value, &format!("{place}.{key}"))?;
                    }
                }
            }
            "additionalProperties" => {
                let known = schema.get("properties").and_then(Value::as_object).cloned().unwrap_or_default();
                for (key, value) in value.as_object().into_iter().flatten().filter(|(key, _)| !known.contains_key(*key))
                {
                    match word {
                        Value::Bool(false) => return no(&format!("no key `{key}`")),
                        inner => check(inner, value, &format!("{place}.{key}"))?,
                    }
                }
            }
            "required" => {
                if let Some(missing) =
                    word.as_array().unwrap().iter().find(|k| value.get(k.as_str().unwrap()).is_none())
                {
                    return no(&format!("{missing} is missing"));
                }
            }
            "items" => {
                for (i, item) in value.as_array().into_iter().flatten().enumerate() {
                    check(word, item, &format!("{place}[{i}]"))?;
                }
            }
            "anyOf" => {
                let all: Vec<_> = word.as_array().unwrap().iter().map(|s| check(s, value, place)).collect();
                if !all.iter().any(Result::is_ok) {
                    return no(&all.into_iter().filter_map(Result::err).collect::<Vec<_>>().join(" and "));
                }
            }
            "enum" if !word.as_array().unwrap().contains(value) => return no(&format!("not one of {word}")),
            "minimum" if value.as_f64().is_some_and(|v| v < number(word)) => return no("too little"),
            "maximum" if value.as_f64().is_some_and(|v| v > number(word)) => return no("too much"),
            "pattern" => {
                if !value.as_str().is_some_and(|value| is_one_of(word.as_str().unwrap(), value)) {
                    return no("not such a word");
                }
            }
            "format" => {
                assert_eq!(word, "date");
                let fields: Vec<_> = value.as_str().unwrap_or_default().split('-').map(str::len).collect();
                if fields != [4, 2, 2] {
                    return no("not a day");
                }
            }
            "enum" | "minimum" | "maximum" => {}
            other => panic!("the keyword {other} is not known here"),
        }
    }
    Ok(())
}

/// Whether a text is one of the words of a pattern "^([Hh][Oo][Tt]|[Cc]old)$".
fn is_one_of(pattern: &str, written: &str) -> bool {
    let words = pattern.strip_prefix("^(").and_then(|p| p.strip_suffix(")$")).unwrap();
    words.split('|').any(|word| {
        let mut letters = word.chars();
        let matches = written.chars().all(|c| match letters.next() {
            Some('[') => letters.by_ref().take_while(|l| *l != ']').fold(false, |found, l| found | (l == c)),
            letter => letter == Some(c),
        });
        matches && letters.next().is_none()
    })
}

fn to_json(value: toml::Value) -> Value {
    match value {
        toml::Value::String(text) => text.into(),
        toml::Value::Integer(number) => number.into(),
        toml::Value::Float(number) => number.into(),
        toml::Value::Boolean(flag) => flag.into(),
        toml::Value::Datetime(day) => day.to_string().into(),
        toml::Value::Array(items) => items.into_iter().map(to_json).collect(),
        toml::Value::Table(table) => table.into_iter().map(|(k, v)| (k, to_json(v))).collect::<Map<_, _>>().into(),
    }
}

/// The TOML files of these folders of which the name is, or is not, one of a house's own.
fn files(folders: &[&str], is_it: fn(&str) -> bool) -> Vec<(PathBuf, Value)> {
    let mut all = Vec::new();
    for folder in folders {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if name.ends_with(".toml") && is_it(&name) {
                let text = fs::read_to_string(&path).unwrap();
                all.push((path, to_json(toml::from_str(text.trim_start_matches('\u{feff}')).unwrap())));
            }
        }
    }
    all
}

fn is_card(name: &str) -> bool {
    !["house.toml", "larder.toml", "plan.toml", "menu.toml"].contains(&name)
}

/// Every file passes, and no longer when any of its keys, however deep, has a letter too many.
fn holds(schema: &Value, files: &[(PathBuf, Value)], at_least: usize) {
    assert!(files.len() >= at_least, "{} files", files.len());
    let mut spoilt = 0;
    for (path, file) in files {
        check(schema, file, "").unwrap_or_else(|why| panic!("{}: {why}", path.display()));
        for (place, changed) in misspelt(schema, file) {
            spoilt += 1;
            assert!(check(schema, &changed, "").is_err(), "{}: `{place}` passes", path.display());
        }
    }
    assert!(spoilt > 3 * files.len(), "{spoilt} misspelt keys");
}

/// The value with one known key misspelt, for each of them.
fn misspelt(schema: &Value, value: &Value) -> Vec<(String, Value)> {
    let mut all = Vec::new();
    let any = json!({});
    let of = |key: &str| schema.pointer(&format!("/properties/{key}"));
    match value {
        Value::Object(entries) => {
            for (key, inner) in entries {
                if of(key).is_some() {
                    let mut changed = entries.clone();
                    changed.remove(key);
                    changed.insert(format!("{key}x"), inner.clone());
                    all.push((key.clone(), changed.into()));
                }
                let below = of(key).or_else(|| schema.get("additionalProperties")).unwrap_or(&any);
                for (place, inner) in misspelt(table_of(below), inner) {
                    let mut changed = entries.clone();
                    changed.insert(key.clone(), inner);
                    all.push((format!("{key}.{place}"), changed.into()));
                }
            }
        }
        Value::Array(items) => {
            let below = schema.get("items").unwrap_or(&any);
            for (i, item) in items.iter().enumerate() {
                for (place, inner) in misspelt(table_of(below), item) {
                    let mut changed = items.clone();
                    changed[i] = inner;
                    all.push((format!("{i}.{place}"), changed.into()));
                }
            }
        }
        _ => {}
    }
    all
}

/// Of a choice, the one that has keys.
fn table_of(schema: &Value) -> &Value {
    let choices = schema.get("anyOf").and_then(Value::as_array).into_iter().flatten();
    choices.into_iter().find(|choice| choice["type"] == "object").unwrap_or(schema)
}

#[test]
fn every_card_passes_and_a_misspelt_key_does_not() {
    holds(&stillroom::card::schema(), &files(&["formulas", "tests/odd"], is_card), 20);
}

#[test]
fn every_board_passes_and_a_misspelt_key_does_not() {
    holds(&stillroom::plan::board::schema(), &files(&["formulas"], |name| name == "plan.toml"), 1);
}

#[test]
fn every_menu_passes_and_a_misspelt_key_does_not() {
    holds(&stillroom::menu::schema(), &files(&["formulas"], |name| name == "menu.toml"), 1);
}

#[test]
fn every_larder_passes_and_a_misspelt_key_does_not() {
    let larders = files(&["formulas", "src/cli/new"], |name| name == "larder.toml");
    holds(&stillroom::larder::schema(), &larders, 2);
}

#[test]
fn every_house_passes_and_a_misspelt_key_does_not() {
    holds(&stillroom::house::schema(), &files(&["formulas", "src/cli/new"], |name| name == "house.toml"), 2);
}

#[test]
fn what_a_card_may_hold_is_said_of_every_key() {
    let schema = stillroom::card::schema();
    assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
    for (key, said) in schema["properties"].as_object().unwrap() {
        assert!(said["description"].as_str().is_some_and(|d| !d.is_empty()), "{key}");
        check(said, &said["examples"][0], key).unwrap();
    }
    for (card, why) in [
        (json!({ "name": "x" }), "parts is missing"),
        (json!({ "name": "x", "parts": { "water": 3 } }), "an amount without a unit"),
        (json!({ "name": "x", "parts": { "water": "1 L" }, "target": { "ph": 12 } }), "no such pH"),
        (json!({ "name": "x", "parts": { "water": "1 L" }, "class": "plain sirup" }), "no such class"),
        (json!({ "name": "x", "parts": { "water": { "amount": "1 L", "straned": true } } }), "misspelt"),
    ] {
        assert!(check(&schema, &card, "").is_err(), "{why}");
    }
}
