//! A TOML text as tables whose keys and values remember their place. Card, larder and house
//! files are all read through this; everything wrong is collected, nothing stops at the first error.

pub(crate) mod day;
#[allow(dead_code)] // until larder, house and board are read by it
mod field_kind;
#[allow(dead_code)] // until larder, house and board are read by it
mod given;
mod hidden;
#[allow(dead_code)] // until larder, house and board are read by it
mod layout;
mod parse;
mod raw;
mod remedy;
mod scan;
mod schema;
#[allow(dead_code)] // until larder, house and board are read by it
mod shape;
mod syntax;
mod table;

pub(crate) use day::day;
#[allow(unused_imports)]
pub(crate) use field_kind::{DAY, FLAG, FieldKind, TEXT, TEXTS, word};
#[allow(unused_imports)]
pub(crate) use given::{FileReader, Given};
#[cfg(test)]
pub(crate) use layout::examples_are_read;
#[allow(unused_imports)]
pub(crate) use layout::{Field, Laid, Layout, Slot, layout, misplaced, put, read_file};
pub(crate) use parse::parse;
pub(crate) use raw::{key_text as key, quoted};
pub(crate) use schema::schema;
#[allow(unused_imports)]
pub(crate) use shape::{ANY_NUMBER, About, FieldShape, Fields, Hints};
pub(crate) use table::wrong_type;
pub use table::{Table, Value};
