//! What is written on the board.

use std::collections::BTreeSet;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::diagnostic::Spanned;
use crate::solver::Solved;

use super::super::left_out::LeftOut;
use super::super::model::PrepUnit;
use super::super::poured::Pour;

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
    /// The drinks that a menu puts on it.
    pub pours: Vec<Pour>,
    /// The drinks of that menu that cannot be made.
    pub left_out: Vec<LeftOut>,
}

/// A product on the board.
#[derive(Clone, Debug, Default)]
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
    /// How large its batches are.
    pub batch: Option<Spanned<BatchRule>>,
}

/// How large the batches of a product are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BatchRule {
    /// The smallest that is worth the work.
    pub least: Option<Quantity>,
    /// The largest that can be made at once.
    pub most: Option<Quantity>,
    /// What its batches are whole times of.
    pub step: Option<Quantity>,
    /// Whether only an amount stands there, and which of these it is nobody has said.
    pub is_bare: bool,
}

impl Entry {
    /// Whether the board says how fast it goes.
    pub(crate) fn has_use(&self) -> bool {
        self.uses.is_some() || self.use_on.iter().any(Option::is_some)
    }
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
    /// What it was made by, where its card has changed since then.
    pub made_by: Option<Arc<Solved>>,
    /// Whether it is only better before its date, where the book says so.
    pub best_before: Option<bool>,
}

/// The date of what is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeldDate {
    /// The last day it may be used.
    UseBy(NaiveDate),
    /// The day it was made.
    Made(NaiveDate),
}

/// How a thing is bought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pack {
    /// What it holds in all.
    pub holds: Quantity,
    /// In how many bottles or bags: six of "6 x 750 ml".
    pub of: u64,
}

/// An ingredient on the board.
#[derive(Clone, Debug, Default)]
pub struct Shelf {
    /// Its name.
    pub name: Spanned<String>,
    /// What a pack holds.
    pub pack: Option<Spanned<Pack>>,
    /// What is there.
    pub on_hand: Option<Spanned<Quantity>>,
    /// Days from the order to the delivery.
    pub lead: i32,
    /// Weekdays of delivery.
    pub deliver: Option<[bool; 7]>,
}
