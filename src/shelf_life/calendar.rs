//! From days to a date on the label.

use chrono::{Days, NaiveDate};

pub use crate::house::DayOne;

/// Days in the freezer: the clock stops.
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
    /// In the freezer: that many days are left from the day it is thawed, that day counted.
    Frozen {
        /// How many.
        days_left: u64,
    },
}

/// The day from which a clock runs: for a juice or an opened bottle the earliest day of any ingredient, if that is earlier.
pub fn clock_start(made: NaiveDate, earliest_ingredient: Option<NaiveDate>) -> NaiveDate {
    earliest_ingredient.map_or(made, |day| day.min(made))
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

/// The last day where some of the days were spent in the freezer: each day frozen moves it on by one, the rest resumes on
/// the day of thawing. A freezing after the last day saves nothing.
pub fn last_day_frozen(mut last: NaiveDate, frozen: &[Frozen]) -> Option<LastDay> {
    let mut stays: Vec<_> = frozen.to_vec();
    stays.sort_by_key(|stay| stay.from);
    let mut counted_to = NaiveDate::MIN;
    for stay in stays {
        let from = stay.from.max(counted_to);
        if from > last {
            continue;
        }
        let Some(to) = stay.to else {
            let days_left = (last - from).num_days().unsigned_abs() + 1;
            return Some(LastDay::Frozen { days_left });
        };
        if to > from {
            last = last.checked_add_days(Days::new((to - from).num_days().unsigned_abs()))?;
            counted_to = to;
        }
    }
    Some(LastDay::On(last))
}

/// Days in words: one step that matters, always down, never a decimal.
pub fn in_words(days: u32) -> String {
    let about = |n: u32, unit: &str| format!("about {n} {unit}{}", if n == 1 { "" } else { "s" });
    match days {
        0 => "use at once".into(),
        1..14 => about(days, "day"),
        14..84 => about(days / 7, "week"),
        // a twelfth of 365 days
        _ => about((f64::from(days) * 12.0 / 365.0).floor() as u32, "month"),
    }
}
