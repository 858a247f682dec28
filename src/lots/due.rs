//! What goes first: the lots that are there, by the day on which they end.

use chrono::{Days, NaiveDate};
use serde::Serialize;

use super::book::{LotBook, LotStanding, LotState};
use super::event::Taste;

/// How soon a lot ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Soon {
    /// It must go: past its date, off, or something grew in it.
    MustGo,
    /// It has no date until something is told.
    NoDate,
    /// Today is its last day.
    Today,
    /// It ends within seven days.
    ThisWeek,
    /// Later.
    Later,
    /// In the freezer, where the count stops.
    Frozen,
}

/// How soon a lot ends, on a day; `None` where it is gone.
pub fn soon(lot: &LotState, on: NaiveDate) -> Option<Soon> {
    if lot.standing != LotStanding::InUse {
        return None;
    }
    let off = lot.growth.is_some() || lot.tasted.is_some_and(|(_, taste)| taste == Taste::Off);
    let week = on.checked_add_days(Days::new(6)).unwrap_or(on);
    Some(match lot.use_by.day {
        _ if off => Soon::MustGo,
        Some(day) if day < on => Soon::MustGo,
        Some(day) if day == on => Soon::Today,
        Some(day) if day <= week => Soon::ThisWeek,
        Some(_) => Soon::Later,
        None if lot.use_by.days_left_when_thawed.is_some() && lot.use_by.refused.is_none() => Soon::Frozen,
        None => Soon::NoDate,
    })
}

/// The lots that are there on a day, what must go first.
pub fn due(book: &LotBook, on: NaiveDate) -> Vec<(Soon, &LotState)> {
    let mut all: Vec<(Soon, &LotState)> = book.lots().filter_map(|lot| Some((soon(lot, on)?, lot))).collect();
    all.sort_by_key(|(soon, lot)| (*soon, lot.use_by.day, lot.recorded.made, &lot.lot));
    all
}
