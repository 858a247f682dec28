//! From days to a date on the label, and the strict count of the freezer.

use chrono::{Days, NaiveDate};

pub use crate::house::DayOne;

/// At and below this a freezer stops the count, °C.
pub(crate) const STOPS_C: f64 = -15.0;
/// At and below this it stops growth and halves what stales; warmer is a fridge, °C.
pub(crate) const SLOWS_C: f64 = -10.0;

/// Days in the freezer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Frozen {
    /// The day it went in.
    pub from: NaiveDate,
    /// The day it was thawed; none while it is in.
    pub to: Option<NaiveDate>,
}

/// What the label says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LastDay {
    /// The last day.
    On(NaiveDate),
    /// In the freezer: that many days are left, the day it is thawed the first of them; 0 is "use at once".
    Frozen {
        /// How many.
        days_left: u64,
    },
}

/// The last day, without a freezer. Zero days is "use at once": the day itself. `legal_days` are counted with the day made
/// as day 1, whatever the habit of the house.
pub fn last_day(start: NaiveDate, days: u32, legal_days: Option<u32>, day_one: DayOne) -> Option<NaiveDate> {
    let after = |days: u32, day_one: DayOne| {
        let days = u64::from(days);
        start.checked_add_days(Days::new(match day_one {
            DayOne::DayMade => days.saturating_sub(1),
            DayOne::DayAfter => days,
        }))
    };
    let own = after(days, day_one)?;
    match legal_days {
        Some(legal) => Some(own.min(after(legal, DayOne::DayMade)?)),
        None => Some(own),
    }
}

/// The last day where some days were spent in the freezer, counted strictly: the day made, the day it went in and the day it
/// came out are all days used. Of a stay only the whole days between are given back, so made on day 1, frozen on day 3 and a
/// life of 7 leave 4 days, the day of thawing the first of them. A freezing after the last day saves nothing.
pub fn last_day_frozen(mut last: NaiveDate, frozen: &[Frozen]) -> Option<LastDay> {
    let mut stays: Vec<_> = frozen.to_vec();
    stays.sort_by_key(|stay| stay.from);
    let mut counted_to = NaiveDate::MIN;
    for stay in stays {
        let from = stay.from.max(counted_to);
        if from > last {
            continue;
        }
        // the day it went in is used up
        let left = (last - from).num_days().unsigned_abs();
        let Some(to) = stay.to else { return Some(LastDay::Frozen { days_left: left }) };
        if to > from {
            // the thaw day is the first of what is left; none left is "use at once", on that day
            last = to.checked_add_days(Days::new(left.saturating_sub(1)))?;
            counted_to = to;
        }
    }
    Some(LastDay::On(last))
}

/// Days in words: days up to eight weeks; then whole months of 30 days or years where it is just that, else whole weeks, rounded
/// down, with the days beside. Never "about".
pub fn in_words(days: u32) -> String {
    let whole = || match days {
        ..730 => format!("{} ({days} days)", counted(days / 7, "week")),
        _ => format!("{} ({days} days)", counted(days / 365, "year")),
    };
    in_one_unit(days).unwrap_or_else(whole)
}

/// The same with the days alone where it is no whole number of months: beside the last day itself.
pub fn in_few_words(days: u32) -> String {
    in_one_unit(days).unwrap_or_else(|| counted(days, "day"))
}

fn in_one_unit(days: u32) -> Option<String> {
    match days {
        0 => Some("use at once".into()),
        1..=56 => Some(counted(days, "day")),
        _ if days.is_multiple_of(365) => Some(counted(days / 365, "year")),
        _ if days.is_multiple_of(30) => Some(counted(days / 30, "month")),
        _ => None,
    }
}

fn counted(n: u32, unit: &str) -> String {
    format!("{n} {unit}{}", if n == 1 { "" } else { "s" })
}

/// From so many to so many days, in one unit where they share it: "2 to 4 weeks". What is usually quoted is quoted in
/// whole weeks and months.
pub fn span_in_words(low: u32, high: u32) -> String {
    let quoted = |days: u32| match days {
        14..84 => format!("{} weeks", days / 7),
        84..730 => format!("{} months", days / 30),
        730.. => format!("{} years", days / 365),
        _ => in_words(days),
    };
    let (low, high) = (quoted(low), quoted(high));
    let unit = |words: &str| words.split_once(' ').map(|(_, unit)| unit.trim_end_matches('s').to_owned());
    match low.split_once(' ') {
        Some((number, _)) if unit(&low) == unit(&high) => format!("{number} to {high}"),
        _ => format!("{low} to {high}"),
    }
}
