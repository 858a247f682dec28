//! The parts of a card of which the name was read and the amount was not: they can still be looked up.

use crate::diagnostic::Spanned;
use crate::input::{self, Table, Value};

use super::model::Card;

/// Their names as they stand in the text, in its order.
pub(crate) fn unread_parts(card: &Card) -> Vec<Spanned<String>> {
    let table = input::parse(&card.text, &mut Vec::new());
    let stages = match table.get("stage").map(|(_, stages)| &stages.value) {
        Some(Value::List(stages)) => stages.iter().filter_map(|stage| stage.value.table()).collect(),
        _ => Vec::new(),
    };
    let tables = stages.into_iter().chain([&table]).filter_map(|of| of.get("parts")?.1.value.table());
    let read: Vec<_> = card.all_parts().map(|(_, part)| part.label.span).collect();
    tables.flat_map(names).filter(|(label, _)| !read.contains(&label.span)).map(|(_, of)| of).collect()
}

/// Each line of a table of parts: its name, and what it is.
fn names(parts: &Table) -> impl Iterator<Item = (&Spanned<String>, Spanned<String>)> {
    parts.entries.iter().filter(|(label, _)| !label.value.trim().is_empty()).map(|(label, value)| {
        let of = value.value.table().and_then(|table| table.get("of"));
        let of = of.and_then(|(_, of)| Some(Spanned { value: of.value.text()?.to_owned(), span: of.span }));
        (label, of.unwrap_or_else(|| label.clone()))
    })
}
