//! A TOML text as tables whose keys and values remember their place. Card, larder and house
//! files are all read through this; everything wrong is collected, nothing stops at the first error.

mod field_kind;
mod given;
mod layout;
mod parse;
mod raw;
mod remedy;
mod scan;
mod schema;
mod shape;
mod syntax;
mod table;

use crate::diagnostic::Span;

pub(crate) use field_kind::{DAY, FLAG, FOOD, FieldKind, NO_DAY, TEXT, TEXTS, day, word};
pub(crate) use given::{FileReader, Given};
#[cfg(test)]
pub(crate) use layout::examples_are_read;
pub(crate) use layout::{Field, Laid, Layout, Slot, layout, misplaced, put, read_file};
pub(crate) use parse::parse;
pub(crate) use raw::{key_text as key, quoted, toml};
pub(crate) use schema::schema;
pub(crate) use shape::{AMOUNT, ANY_NUMBER, About, FieldShape, Fields, Hints};
pub(crate) use table::wrong_type;
pub(crate) use table::{Table, Value};

/// The headings of a text, `[parts]` or `[[stage]]`, in its order.
pub(crate) fn headings(text: &str) -> Vec<Span> {
    let lines = scan::Scan::of(text).lines;
    let end = |line| if let scan::Line::Heading(end) = line { end } else { None };
    lines.into_iter().filter_map(|(span, line)| Some(Span { start: span.start, end: end(line)? })).collect()
}

/// A text without its remarks and without the lines of these keys, whatever table they stand in.
#[cfg(feature = "cli")]
pub(crate) fn without_remarks(text: &str, keys: &[&str]) -> String {
    let scan = scan::Scan::of(text);
    let is_named =
        |span: &Span, equals: usize| text.get(span.start..equals).is_some_and(|key| keys.contains(&key.trim()));
    let lines = scan.lines.iter().filter_map(|(span, line)| match line {
        scan::Line::Entry { equals, .. } if is_named(span, *equals) => Some(*span),
        _ => None,
    });
    let mut out: Vec<Span> = scan.remarks().chain(lines).collect();
    out.sort_by_key(|span| span.start);
    let (mut kept, mut from) = (String::with_capacity(text.len()), 0);
    for span in out {
        kept.push_str(text.get(from..span.start).unwrap_or_default());
        from = from.max(span.end);
    }
    kept + text.get(from..).unwrap_or_default()
}

#[cfg(test)]
#[path = "../../tests/unit/input.rs"]
mod tests;
