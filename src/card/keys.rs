//! The keys of a card and the headings that they stand under.

use crate::diagnostic::{Code, Diagnostic, MOST_FINDINGS, Spanned};
use crate::input::{Hints, Laid, Table};

use super::model::Keep;

pub(super) const CARD: &[&str] = &[
    "name", "makes", "class", "process", "serving", "labour", "target", "parts", "stage", "loss", "heated", "takes",
    "keep", "measured", "steps", "source", "notes",
];
pub(super) const STAGE: &[&str] = &["name", "parts", "loss", "heated", "takes", "steps"];
pub(super) const PART: &[&str] = &["amount", "of", "strained", "holds"];
pub(super) const TARGET: &[&str] = &["brix", "abv", "sugar", "acid", "ph"];
pub(super) const LOSS: &[&str] = &["evaporated", "left_behind"];
pub(super) const MEASURED: &[&str] = &["ph", "brix", "abv", "acid", "on"];

/// Where a key belongs; the first that has it is meant.
const HOMES: &[(&str, &[&str])] = &[
    (
        "above the first heading",
        &["name", "makes", "class", "process", "serving", "labour", "heated", "takes", "steps", "source", "notes"],
    ),
    ("under [target]", TARGET),
    ("under [loss]", LOSS),
    ("under [keep]", &["fill", "closed", "in", "for_sale", "opened", "store"]),
    ("under [measured]", &["on"]),
];

/// What other recipe cards call a key.
const OTHER_NAMES: &[(&str, &str)] = &[
    ("title", "name"),
    ("yield", "makes"),
    ("batch", "makes"),
    ("size", "makes"),
    ("ingredients", "parts"),
    ("ingredient", "parts"),
    ("recipe", "parts"),
    ("method", "steps"),
    ("directions", "steps"),
    ("instructions", "steps"),
    ("stages", "stage"),
    ("losses", "loss"),
    ("storage", "keep"),
    ("type", "class"),
    ("serve", "serving"),
    ("abw", "abv"),
    ("alcohol", "abv"),
    ("sugars", "sugar"),
    ("boiled_off", "evaporated"),
    ("container", "in"),
    ("date", "on"),
    ("heat", "heated"),
    ("time", "takes"),
    ("duration", "takes"),
    ("labor", "labour"),
    ("work", "labour"),
];

/// What is known of the keys of a card as a whole.
pub(super) static HINTS: Hints = Hints { file: "a card", homes: &[Keep::LAYOUT], other_names: OTHER_NAMES };

/// Where a key belongs, in words.
pub(super) fn home(key: &str) -> Option<&'static str> {
    HOMES.iter().find(|(_, keys)| keys.contains(&key)).map(|(home, _)| *home)
}

/// Says that a key belongs somewhere else.
pub(super) fn misplaced(key: &Spanned<String>, place: &str, home: &str) -> Diagnostic {
    Diagnostic::error(Code::Misplaced, format!("`{}` does not belong to {place}", key.value))
        .at(key.span, format!("this belongs {home}"))
        .help(format!("move the line {home}: whatever stands below a [heading] belongs to that heading"))
}

/// Reports every key that does not belong to this table.
pub(super) fn check(table: &Table, place: &str, known: &[&str], found: &mut Vec<Diagnostic>) {
    check_but(table, place, known, "", found);
}

/// Reports every key that does not belong to this table, but for one that is dealt with elsewhere.
pub(super) fn check_but(table: &Table, place: &str, known: &[&str], but: &str, found: &mut Vec<Diagnostic>) {
    for key in table.other_keys(known).filter(|key| key.value != but).take(MOST_FINDINGS + 1) {
        let word = key.value.to_lowercase();
        let other = OTHER_NAMES
            .iter()
            .filter(|(other, _)| *other == word)
            .map(|(_, name)| *name)
            .find(|name| known.contains(name) && table.get(name).is_none());
        found.push(match (other, home(&word)) {
            (Some(name), _) => Diagnostic::error(Code::UnknownKey, format!("{place} has no key `{}`", key.value))
                .at(key.span, "not known here")
                .help(format!("a card calls it `{name}`"))
                .fix(key.span, name),
            (None, Some(home)) if word == key.value => misplaced(key, place, home),
            _ => table.unknown_key(key, place, known),
        });
    }
}
