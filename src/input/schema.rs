//! The keys of a file as a JSON Schema (draft 2020-12), from the lists that read it.

use serde_json::{Value as Json, json};

use super::parse::parse;
use super::shape::{About, FieldShape, Fields};
use super::table::Value;

pub(crate) fn schema(title: &str, fields: &dyn Fields) -> Json {
    let mut schema = of_table(fields);
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema".into();
    schema["title"] = title.into();
    schema
}

fn of_table(fields: &dyn Fields) -> Json {
    let about = fields.about();
    let keys = about.iter().filter(|about| !matches!(about.shape, FieldShape::None));
    let keys: Json = keys.map(|about| (about.key.to_owned(), of_key(about))).collect();
    let mut schema = json!({ "type": "object", "additionalProperties": false, "properties": keys });
    if !fields.required().is_empty() {
        schema["required"] = fields.required().into();
    }
    schema
}

fn of_key(about: &About) -> Json {
    let mut schema = of_shape(&about.shape);
    schema["description"] = about.means.into();
    schema["examples"] = json!([example(about)]);
    schema
}

fn of_shape(shape: &FieldShape) -> Json {
    match shape {
        FieldShape::Text => json!({ "type": "string" }),
        FieldShape::Number(least, most) if least.is_finite() => {
            json!({ "type": "number", "minimum": least, "maximum": most })
        }
        FieldShape::Number(..) => json!({ "type": "number" }),
        FieldShape::Flag => json!({ "type": "boolean" }),
        FieldShape::Day => json!({ "type": "string", "format": "date" }),
        // for an editor to complete, and as they are read: in capitals too
        FieldShape::Words(words) => {
            json!({ "anyOf": [{ "enum": words() }, { "type": "string", "pattern": in_any_case(&words()) }] })
        }
        FieldShape::List(item) => json!({ "type": "array", "items": of_shape(item) }),
        FieldShape::Table(fields) => of_table(*fields),
        FieldShape::Named(value) => json!({ "type": "object", "additionalProperties": of_shape(value) }),
        FieldShape::Either(shapes) => json!({ "anyOf": shapes.iter().map(of_shape).collect::<Vec<_>>() }),
        FieldShape::None => json!({ "not": {} }),
    }
}

/// A pattern for these words in small and in capital letters.
fn in_any_case(words: &[&str]) -> String {
    let letter = |c: char| match c.is_ascii_lowercase() {
        true => format!("[{}{c}]", c.to_ascii_uppercase()),
        false => c.to_string(),
    };
    let words: Vec<String> = words.iter().map(|word| word.chars().map(letter).collect()).collect();
    format!("^({})$", words.join("|"))
}

fn example(about: &About) -> Json {
    let table = parse(&format!("x = {}", about.example), &mut Vec::new());
    table.get("x").map_or(Json::Null, |(_, value)| json(&value.value))
}

/// A value as JSON; a day is a text.
fn json(value: &Value) -> Json {
    match value {
        Value::Text(text) | Value::Date(text) => text.as_str().into(),
        Value::Number(number) if number.fract() == 0.0 => (*number as i64).into(),
        Value::Number(number) => (*number).into(),
        Value::Flag(flag) => (*flag).into(),
        Value::List(items) => items.iter().map(|item| json(&item.value)).collect(),
        Value::Table(table) => {
            table.entries.iter().map(|(key, value)| (key.value.clone(), json(&value.value))).collect()
        }
    }
}
