//! Keys of the card that were written below its parts: in TOML all below a heading belongs to it, and nobody who writes a
//! recipe knows that.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{Laid, Table, Value};

use super::layout::HINTS;
use super::model::{Card, Keep};

/// Moves what can only be a key of the card from the parts to the card itself, and says so of each. What the card has
/// already, and what states how it was treated, is left where it is: it is asked.
pub(super) fn lift(table: &mut Table, found: &mut Vec<Diagnostic>) {
    const TOP: &str = <Card as Laid>::LAYOUT.home;
    let above: Vec<String> = table.entries.iter().map(|(key, _)| key.value.clone()).collect();
    let Some(parts) = table.entries.iter_mut().find(|(key, _)| key.value == "parts") else { return };
    let Value::Table(parts) = &mut parts.1.value else { return };
    let is_of_card =
        |key: &str| HARMLESS.contains(&key) && HINTS.home(key) == Some(TOP) && !above.iter().any(|k| k == key);
    let (moved, kept): (Vec<_>, Vec<_>) = std::mem::take(&mut parts.entries)
        .into_iter()
        .partition(|(key, value)| is_of_card(&key.value) && !matches!(value.value, Value::Table(_)));
    parts.entries = kept;
    found.extend(moved.iter().map(|(key, _)| {
        Diagnostic::note(Code::Misplaced, format!("`{}` below [parts] is read as the card's own", key.value))
            .at(key.span, "not a part")
            .help("what speaks of the whole card stands above the first heading")
    }));
    table.entries.extend(moved);
}

/// Moves what is a key of [keep] alone and was written above the first heading under that heading.
pub(super) fn under_keep(table: &mut Table, found: &mut Vec<Diagnostic>) {
    let has = |key: &str, keep: &Table| keep.get(key).is_some();
    let none = Table { entries: Vec::new() };
    let kept = match table.get("keep") {
        Some((_, value)) => match value.value.table() {
            Some(keep) => keep.clone(),
            None => return,
        },
        None => none,
    };
    let is_of_keep = |key: &str| Keep::LAYOUT.has(key) && !Card::LAYOUT.has(key) && !has(key, &kept);
    let (moved, rest): (Vec<_>, Vec<_>) =
        std::mem::take(&mut table.entries).into_iter().partition(|(key, _)| is_of_keep(&key.value));
    table.entries = rest;
    let Some((first, value)) = moved.first().cloned() else { return };
    found.extend(moved.iter().map(|(key, _)| {
        Diagnostic::note(Code::Misplaced, format!("`{}` above the first heading is read as one of [keep]", key.value))
            .at(key.span, "how the product is kept")
            .help("it belongs under [keep], below the parts")
    }));
    match table.entries.iter_mut().find(|(key, _)| key.value == "keep") {
        Some((_, Spanned { value: Value::Table(keep), .. })) => keep.entries.extend(moved),
        _ => table.entries.push((
            Spanned { value: "keep".to_owned(), span: first.span },
            Spanned { value: Value::Table(Table { entries: moved }), span: value.span },
        )),
    }
}

/// What changes how amounts are meant, or is only told: never what speaks for a date.
const HARMLESS: [&str; 12] =
    ["bottle", "ratio", "makes", "serving", "class", "steps", "notes", "source", "labour", "how", "glass", "garnish"];
