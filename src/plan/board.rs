//! `plan.toml`: the board in the kitchen. What is wrong is reported with its place, all of it in one run.

mod model;
mod product;
mod values;

use std::sync::Arc;

use chrono::Weekday;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{self, FieldKind, FieldShape, FileReader, Given, Hints, Laid, Layout, Value, layout, wrong_type};
use crate::units::Customs;

pub(crate) use model::{Board, Entry, Held, HeldDate, Quantity, Rate, Shelf};
pub(super) use values::quantity;
pub(crate) use values::{DATE, date, weekday_once};

/// Reads a board of a house that settles how amounts are meant.
pub fn read(text: &str, file: &Arc<str>, customs: &Customs, found: &mut Vec<Diagnostic>) -> Board {
    let mut board: Board = input::read_file_by(text, file, &Hints::NONE, customs, found);
    if board.days == 0 {
        board.days = values::DAYS;
    }
    let said = used_when_closed(&board);
    found.extend(said.map(|d| d.in_file(file)));
    board
}

impl Board {
    /// The board of a house that has none: what a menu takes is planned for as many days as a board is that names no other number.
    pub(crate) fn bare() -> Self {
        Self { days: values::DAYS, ..Self::default() }
    }
}

/// The keys of `plan.toml` as a JSON Schema (draft 2020-12), from the list of keys that reads it.
pub fn schema() -> serde_json::Value {
    input::schema("a board", Board::LAYOUT)
}

impl Laid for Board {
    const LAYOUT: &'static Layout<Self> = layout!(
        "a plan",
        // read first: the others are laid over it
        ("plan", values::PLAN, "{ from = 2026-11-30, days = 7 }", "the days of the plan", |b, plan| *b = plan.value),
        ("product", PRODUCTS, "{ Cordial = { par = \"2 L\", use = \"6 L a week\" } }", "what is made", products),
        ("ingredient", INGREDIENTS, "{ lime = { pack = \"1 kg\", lead = \"1 day\" } }", "what is bought", ingredients),
    );
}

const PRODUCTS: FieldKind<Vec<Entry>> =
    FieldKind::new(FieldShape::Named(&FieldShape::Table(Entry::LAYOUT)), |given, reader| {
        entries(given, reader, product::entry)
    });

const INGREDIENTS: FieldKind<Vec<Shelf>> =
    FieldKind::new(FieldShape::Named(&FieldShape::Table(Shelf::LAYOUT)), |given, reader| {
        entries(given, reader, |name, table, reader| Shelf { name: name.clone(), ..Shelf::LAYOUT.read(table, reader) })
    });

/// The tables that stand under names, each read by its own reader.
pub(crate) fn entries<T>(
    given: &Given<'_>,
    reader: &mut FileReader<'_>,
    read: fn(&Spanned<String>, &input::Table, &mut FileReader<'_>) -> T,
) -> Option<Vec<T>> {
    let mut entries = Vec::new();
    for (name, value) in &given.table(reader)?.entries {
        match &value.value {
            Value::Table(table) => entries.push(read(name, table, reader)),
            _ => reader.found.push(wrong_type(&name.value, value, "a table").help(format!(
                "begin it with [{}.{}], its keys below",
                given.about.key,
                input::quoted(&name.value)
            ))),
        }
    }
    Some(entries)
}

/// What is to be used on a weekday on which the house is closed.
fn used_when_closed(board: &Board) -> impl Iterator<Item = Diagnostic> {
    let used = board.products.iter().flat_map(|product| product.use_on.iter().zip(board.closed).enumerate());
    used.filter_map(|(place, (used, closed))| {
        let used = used.filter(|used| closed && used.value.amount > 0.0)?;
        let day = Weekday::try_from(u8::try_from(place).ok()?).ok()?;
        Some(
            Diagnostic::error(Code::Contradiction, format!("it is used on {day}, when the house is closed"))
                .at(used.span, "nothing is used on a closed day")
                .help("take the day out of `closed` or out of `use_on`"),
        )
    })
}
