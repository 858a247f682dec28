//! `plan.toml`: the board in the kitchen. What is wrong is reported with its place, all of it in one run.

mod amounts;
mod days;
mod product;
mod shelf;

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{self, Table, Value, wrong_type};

use super::model::PrepUnit;

pub(super) use amounts::quantity;
pub use days::date;

/// An amount as it is written on the board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// Millilitres or grams.
    pub amount: f64,
    /// Which.
    pub unit: PrepUnit,
}

/// What is written on the board.
#[derive(Clone, Debug, Default)]
pub struct Board {
    /// The first day.
    pub from: Option<NaiveDate>,
    /// How many days.
    pub days: i32,
    /// Weekdays on which the house is closed, Monday first.
    pub closed: [bool; 7],
    /// Single days on which it is closed.
    pub closed_on: BTreeSet<NaiveDate>,
    /// The products.
    pub products: Vec<Entry>,
    /// The ingredients of which the board says something.
    pub ingredients: Vec<Shelf>,
}

/// A product on the board.
#[derive(Clone, Debug)]
pub struct Entry {
    /// Its name.
    pub name: Spanned<String>,
    /// What stands ready when the doors open.
    pub par: Option<Spanned<Quantity>>,
    /// What is used a week or a day.
    pub uses: Option<Spanned<Rate>>,
    /// What is used on a weekday, Monday first.
    pub use_on: [Option<Spanned<Quantity>>; 7],
    /// What is there.
    pub on_hand: Vec<Held>,
    /// Where it is kept.
    pub store: Option<Spanned<String>>,
    /// The smallest batch, and the largest if one is named.
    pub batch: Option<(Spanned<Quantity>, Option<Quantity>)>,
}

/// A use, as it is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Rate {
    /// So much a week.
    Week(Quantity),
    /// So much on every open day.
    Day(Quantity),
}

/// What is there of a product.
#[derive(Clone, Debug)]
pub struct Held {
    /// How much.
    pub amount: Spanned<Quantity>,
    /// Its date.
    pub dated: HeldDate,
}

/// The date of what is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeldDate {
    /// The last day it may be used.
    UseBy(NaiveDate),
    /// The day it was made.
    Made(NaiveDate),
}

/// An ingredient on the board.
#[derive(Clone, Debug)]
pub struct Shelf {
    /// Its name.
    pub name: Spanned<String>,
    /// What a pack holds.
    pub pack: Option<Spanned<Quantity>>,
    /// What is there.
    pub on_hand: Option<Spanned<Quantity>>,
    /// Days from the order to the delivery.
    pub lead: i32,
    /// Weekdays of delivery.
    pub deliver: Option<[bool; 7]>,
}

/// Reads a board.
pub fn read(text: &str, file: &Arc<str>, found: &mut Vec<Diagnostic>) -> Board {
    let first = found.len();
    let table = input::parse(text, found);
    table.check_keys("a plan", &["plan", "product", "ingredient"], found);
    let mut board = Board { days: days::DAYS, ..Board::default() };
    if let Some(plan) = table.table("plan", found) {
        days::read_days(plan.value, &mut board, found);
    }
    let closed = board.closed;
    board.products =
        entries(&table, "product", found).map(|(name, t)| product::entry(name, t, &closed, found)).collect();
    let shelves = entries(&table, "ingredient", found).collect::<Vec<_>>();
    board.ingredients = shelves.into_iter().map(|(name, t)| shelf::shelf(name, t, found)).collect();
    if board.products.is_empty() && found.len() == first {
        found.push(
            Diagnostic::error(Code::MissingKey, "no product is on the board")
                .help("add one: [product.\"Lime cordial\"] with par = \"2 L\" and use = \"6 L a week\" below it"),
        );
    }
    for diagnostic in found.iter_mut().skip(first) {
        diagnostic.file.get_or_insert_with(|| Arc::clone(file));
    }
    board
}

fn entries<'a>(
    table: &'a Table,
    key: &'static str,
    found: &mut Vec<Diagnostic>,
) -> std::vec::IntoIter<(&'a Spanned<String>, &'a Table)> {
    let mut entries = Vec::new();
    for (name, value) in table.table(key, found).iter().flat_map(|t| &t.value.entries) {
        match &value.value {
            Value::Table(table) => entries.push((name, table)),
            _ => found.push(
                wrong_type(&name.value, value, "a table")
                    .help(format!("begin it with [{key}.{}], its keys below", input::quoted(&name.value))),
            ),
        }
    }
    entries.into_iter()
}
