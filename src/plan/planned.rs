//! A dated plan: what becomes of each product, and what cannot be met.

use super::calendar::{Calendar, Day};
use super::model::{Draw, PrepLot, PrepProduct};
use super::stock::Run;

/// A dated plan.
#[derive(Clone, Debug)]
pub struct Plan {
    /// Its days.
    pub calendar: Calendar,
    /// The products by name, each with what becomes of it.
    pub products: Vec<Planned>,
}

/// A product and what becomes of it.
#[derive(Clone, Debug)]
pub struct Planned {
    /// The product.
    pub product: PrepProduct,
    /// What was there and what is made, in the order of its dates.
    pub lots: Vec<PrepLot>,
    /// What is taken, in the order of days, also beyond the plan.
    pub draws: Vec<Draw>,
    /// Which draw takes from which lot.
    pub run: Run,
    /// What cannot be met.
    pub short: Vec<Short>,
    /// Batches that are smaller than is worth the work, because no more is used in their life: day and amount.
    pub small: Vec<(Day, u64)>,
}

/// Something that cannot be met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Short {
    /// The day.
    pub day: Day,
    /// How much is missing.
    pub amount: u64,
    /// Why.
    pub why: Why,
}

/// Why something cannot be met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// What is used that day is not there; the first day on which it can be, if that is in sight.
    Use(Option<Day>),
    /// There is enough for the day, but less than par; the first day on which there can be more.
    Par(Option<Day>),
    /// Par is more than is used in its life.
    ParBeyondLife,
}
