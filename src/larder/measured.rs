//! Readings of an ingredient for one run, laid over what the larder says of it.

use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Severity, Span, Spanned};
use crate::input::{Table, Value};
use crate::mixture::Component;
use crate::spelling::{meant_or, nearest};

use super::{Ingredient, Larder, entry, sour};

const READINGS: [&str; 5] = ["acid", "ph", "brix", "abv", "sugar"];

impl Larder {
    /// An ingredient of this larder as it was read today: "lime juice: acid=58 g/L, ph=2.3". It answers to every
    /// name of the one that it stands for.
    ///
    /// # Errors
    /// Where the name or a reading cannot be understood, or no such liquid can be. The places that the findings speak
    /// of are those of `written`.
    pub fn measured(&self, written: &str, from: &Arc<str>) -> Result<Ingredient, Vec<Diagnostic>> {
        let (name, readings) = written.split_once(':').ok_or_else(|| vec![unreadable(written)])?;
        let known = self.find(name.trim()).ok_or_else(|| vec![self.unknown(name.trim())])?;
        let mut table = Table::default();
        for reading in readings.split(',') {
            let (key, value) = reading.split_once('=').ok_or_else(|| vec![unreadable(written)])?;
            let (key, value) = (key.trim(), value.trim());
            if !READINGS.contains(&key) {
                return Err(vec![no_reading(key)]);
            }
            if table.get(key).is_some() {
                return Err(vec![
                    Diagnostic::error(Code::Contradiction, format!("`{key}` is given twice"))
                        .help("one reading of each kind"),
                ]);
            }
            // A pH is the one number without a unit.
            let value = match value.parse::<f64>() {
                Ok(number) if key == "ph" && number.is_finite() => Value::Number(number),
                _ => Value::Text(value.to_owned()),
            };
            table.entries.push((whole(key.to_owned(), written), whole(value, written)));
        }
        let mut found = Vec::new();
        let read =
            entry::ingredient(&whole(known.name.clone(), written), &table, Some(known), written, from, &mut found);
        let errors: Vec<_> = found.into_iter().filter(|d| d.severity == Severity::Error).collect();
        if let (true, Some(why)) = (errors.is_empty(), read.as_ref().and_then(|read| another(known, read))) {
            let help = "read it again; what is another thing has an entry of its own: stillroom larder add";
            return Err(vec![Diagnostic::error(Code::OutOfRange, why).help(help)]);
        }
        match read {
            Some(ingredient) if errors.is_empty() => Ok(Ingredient {
                id: known.id.clone(),
                allergens_stated: known.allergens_stated,
                label_unread: known.label_unread,
                food: known.food.clone(),
                named_at: known.named_at.clone(),
                aliases: known.all_names().map(str::to_owned).collect(),
                price: known.price.clone(),
                price_at: known.price_at,
                usable: known.usable,
                priced_on: known.priced_on.clone(),
                ..ingredient
            }),
            _ => Err(errors),
        }
    }

    fn unknown(&self, name: &str) -> Diagnostic {
        Diagnostic::error(Code::UnknownIngredient, format!("`{name}` is not in the larder"))
            .help(meant_or(self.suggest(name).as_deref(), "readings are of an ingredient of the larder, by its name"))
    }
}

/// Grams of alcohol in a gram of what has none, at most: what a slip of the pen writes is more (ours).
const NEXT_TO_NOTHING: f64 = 0.002;

/// Why what was read can be no reading of this ingredient.
fn another(known: &Ingredient, read: &Ingredient) -> Option<String> {
    let spirit = |of: &Ingredient| of.per_gram.grams_of(Component::Ethanol);
    let acid = sour::too_sour(&read.per_gram, known);
    acid.or_else(|| {
        let has_none = spirit(known) <= 0.0 && spirit(read) > NEXT_TO_NOTHING;
        has_none.then(|| format!("`{}` has no alcohol", known.name))
    })
}

/// A value that stands for the whole of what was written.
fn whole<T>(value: T, written: &str) -> Spanned<T> {
    Spanned { value, span: Span { start: 0, end: written.len() } }
}

fn unreadable(written: &str) -> Diagnostic {
    Diagnostic::error(Code::BadArgument, format!("`{written}` is not a name, a colon, and readings"))
        .help("write for example \"lime juice: acid=58 g/L, ph=2.3\"")
}

fn no_reading(key: &str) -> Diagnostic {
    let known = READINGS.join(", ");
    Diagnostic::error(Code::UnknownKey, format!("`{key}` is not a reading; there are {known}"))
        .help(meant_or(nearest(key, READINGS), "write for example acid=58 g/L"))
}
