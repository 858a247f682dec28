//! A day as it is written everywhere: year first.

use chrono::{Datelike, NaiveDate};

/// The years in which a bar can work, as far as arithmetic with days goes: four digits before and after.
const YEARS: std::ops::RangeInclusive<i32> = 1900..=9000;

/// What a day is written like, for a message.
pub(crate) const EXPECTED: &str = "not a day from the year 1900 to 9000";

/// The day that is written, year first ("2026-11-30").
pub(crate) fn day(written: &str) -> Option<NaiveDate> {
    let day = NaiveDate::parse_from_str(written.trim(), "%Y-%m-%d").ok();
    day.filter(|day| YEARS.contains(&day.year()))
}
