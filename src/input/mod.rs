//! A TOML text as tables whose keys and values remember their place. Card, larder and house
//! files are all read through this; everything wrong is collected, nothing stops at the first error.

mod day_meant;
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

pub(crate) use day_meant::day_meant;
pub(crate) use field_kind::{DAY, FLAG, FOOD, FieldKind, NO_DAY, TEXT, TEXTS, YEARS, day, word};
pub(crate) use given::{FileReader, Given};
pub(crate) use layout::{Field, Laid, Layout, Slot, layout, misplaced, put, read_file, read_file_by};
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

/// A text without its remarks.
#[cfg(feature = "cli")]
pub(crate) fn without_remarks(text: &str) -> String {
    let (mut kept, mut from) = (String::with_capacity(text.len()), 0);
    for remark in scan::Scan::of(text).remarks() {
        kept.push_str(text.get(from..remark.start).unwrap_or_default());
        from = remark.end;
    }
    kept + text.get(from..).unwrap_or_default()
}
