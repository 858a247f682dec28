//! A part of a lot as the book has it: how old it was when it went in, and what was old in it.

use chrono::{NaiveDate, TimeDelta};

use crate::spelling::fold;
use crate::vocabulary::{Allergen, Open};

/// A part of the house, or a fresh juice, of which it is known when it was made.
#[derive(Clone, Debug, PartialEq)]
pub struct PartKept {
    /// What its card and the book call it.
    pub called: Vec<String>,
    /// The day on which it was made or pressed.
    pub made: NaiveDate,
    /// Days of its age that it lay in a freezer: they took nothing.
    pub frozen_days: i64,
    /// What the book has of it; `None` where only its day is told.
    pub of_lot: Option<PartLot>,
    /// What went into it, by the same book.
    pub holds: Vec<Self>,
}

/// A lot of the book that went into another.
#[derive(Clone, Debug, PartialEq)]
pub struct PartLot {
    /// Its code.
    pub lot: String,
    /// What it was recorded with.
    pub allergens: Vec<Open<Allergen>>,
    /// Its last day.
    pub last: Option<NaiveDate>,
    /// Whether it is kept cold for safety: then its day passes on.
    pub needs_cold: bool,
}

impl PartKept {
    /// Whether it goes by a name.
    pub(super) fn is_called(&self, name: &str) -> bool {
        self.called.iter().any(|called| fold(called) == fold(name))
    }

    /// The earliest day that passes on, of it and of what is in it; of what the book does not know `counts` says whether its day does.
    pub(super) fn oldest(&self, counts: &impl Fn(&Self) -> bool) -> Option<NaiveDate> {
        let passes_on = self.of_lot.as_ref().map_or_else(|| counts(self), |lot| lot.needs_cold);
        let inside = self.holds.iter().filter_map(|part| part.oldest(counts));
        passes_on.then(|| inside.fold(self.made, NaiveDate::min))
    }

    /// The day from which on its life was used.
    pub(super) fn since(&self) -> NaiveDate {
        self.made + TimeDelta::days(self.frozen_days)
    }
}
