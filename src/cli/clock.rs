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

/// A time of the clock; one before 1970 or after the year 9999 is the first or the last that is held.
fn moment(time: SystemTime) -> DateTime<Utc> {
    let since = time.duration_since(UNIX_EPOCH).unwrap_or_default();
    let seconds = i64::try_from(since.as_secs()).unwrap_or(LAST).min(LAST);
    DateTime::from_timestamp(seconds, since.subsec_nanos()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn no_clock_panics() {
        let day = |time: Option<SystemTime>| time.map(|time| moment(time).date_naive().to_string());
        let second = Duration::from_secs(1);
        let after = |seconds: u64| UNIX_EPOCH.checked_add(Duration::from_secs(seconds));
        assert_eq!(day(UNIX_EPOCH.checked_sub(second)).as_deref(), Some("1970-01-01"));
        assert_eq!(day(UNIX_EPOCH.checked_sub(Duration::from_secs(1 << 40))).as_deref(), Some("1970-01-01"));
        assert_eq!(day(after(1_795_651_200)).as_deref(), Some("2026-11-26"));
        for seconds in [LAST.unsigned_abs(), LAST.unsigned_abs() + 1, 1 << 45, i64::MAX.unsigned_abs()] {
            assert_eq!(day(after(seconds)).unwrap_or("9999-12-30".to_owned()), "9999-12-30", "{seconds}");
        }
    }
}
