//! What goes first: the lots that are there, by the day on which they end.

use chrono::{Days, NaiveDate};
use serde::Serialize;

use crate::house::House;

use super::book::{LotBook, LotStanding, LotState};
use super::event::UseBy;

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
    let week = on.checked_add_days(Days::new(6)).unwrap_or(on);
    let UseBy { day, refused, days_left_when_thawed, thaw_by, not_told, .. } = &lot.use_by;
    Some(match day {
        _ if lot.pulled.is_some() || thaw_by.is_some_and(|day| day < on) => Soon::MustGo,
        Some(day) if *day < on => Soon::MustGo,
        Some(day) if *day == on => Soon::Today,
        Some(day) if *day <= week => Soon::ThisWeek,
        Some(_) => Soon::Later,
        None if *not_told => Soon::NoDate,
        // what is refused a date is not kept: raw egg, oil with plants in it, what stood too warm
        None if refused.is_some() => Soon::MustGo,
        None if days_left_when_thawed.is_some() => Soon::Frozen,
        None => Soon::NoDate,
    })
}

/// The lots that are there on a day, what must go first. One of which everything went into others is not there.
pub fn due(book: &LotBook, on: NaiveDate) -> Vec<(Soon, &LotState)> {
    let is_there = |lot: &&LotState| lot.into_lots_g == 0.0 || lot.left_g().is_none_or(|left| left.round() > 0.0);
    let all = book.lots().filter(is_there).filter_map(|lot| Some((soon(lot, on)?, lot)));
    let mut all: Vec<(Soon, &LotState)> = all.collect();
    all.sort_by_key(|(soon, lot)| (*soon, lot.use_by.day, lot.recorded.made, &lot.lot));
    all
}

/// Tells a house which of its lots end within the week: what is not used of them is thrown away.
pub fn tell_ending(book: &LotBook, on: NaiveDate, house: &mut House) {
    for (soon, lot) in due(book, on) {
        if let (Soon::Today | Soon::ThisWeek, Some(last)) = (soon, lot.use_by.day) {
            house.of_book.saw_ending(&lot.recorded.product, &lot.lot, last);
        }
    }
}
