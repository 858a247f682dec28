//! The machine's clock, as a day and as a moment. One that is set wrong gives a wrong day, which is seen, and never a panic.

use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{DateTime, Local, NaiveDate, Utc};

/// 30 December 9999, midnight: its day is written with four digits of the year in every time zone.
const LAST: i64 = 253_402_128_000;

/// The moment that it is.
pub(crate) fn now() -> DateTime<Utc> {
    moment(SystemTime::now())
}

/// The day that it is here.
pub(crate) fn today() -> NaiveDate {
    now().with_timezone(&Local).date_naive()
}

/// A time of the clock as a moment; one before 1970 or after the year 9999 is the first or the last that is held. It never panics.
pub fn moment(time: SystemTime) -> DateTime<Utc> {
    let since = time.duration_since(UNIX_EPOCH).unwrap_or_default();
    let seconds = i64::try_from(since.as_secs()).unwrap_or(LAST).min(LAST);
    DateTime::from_timestamp(seconds, since.subsec_nanos()).unwrap_or_default()
}
