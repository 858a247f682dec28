//! The days of a plan, those on which nobody works, and how much of a product goes on a day.

use std::collections::BTreeSet;

use chrono::{Datelike, Days, NaiveDate};

/// A day counted from the first day of the plan, which is 0.
pub(crate) type Day = i32;

/// The days of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Calendar {
    /// The first day: nothing can be begun before it.
    pub from: NaiveDate,
    /// How many days are planned.
    pub days: Day,
    /// Weekdays on which the house is closed, Monday first.
    pub closed: [bool; 7],
    /// Single days on which it is closed.
    pub closed_on: BTreeSet<NaiveDate>,
}

impl Calendar {
    /// Every day open.
    pub fn open_all(from: NaiveDate, days: Day) -> Self {
        Self { from, days, closed: [false; 7], closed_on: BTreeSet::new() }
    }

    /// The date of a day. Days beyond the calendar's own end are days too.
    pub fn date(&self, day: Day) -> NaiveDate {
        let moved = match day {
            0.. => self.from.checked_add_days(Days::new(day.unsigned_abs().into())),
            _ => self.from.checked_sub_days(Days::new(day.unsigned_abs().into())),
        };
        moved.unwrap_or(self.from)
    }

    /// The day of a date, if it lies within a lifetime.
    pub fn day(&self, date: NaiveDate) -> Day {
        (date - self.from).num_days().clamp(-MOST_DAYS, MOST_DAYS) as Day
    }

    /// The weekday of a day, Monday 0.
    pub(crate) fn weekday(&self, day: Day) -> usize {
        let first = self.from.weekday().num_days_from_monday() as Day;
        (first + day).rem_euclid(7).unsigned_abs() as usize
    }

    /// Whether the house works on this day.
    pub fn is_open(&self, day: Day) -> bool {
        let closed = self.closed.get(self.weekday(day)).is_some_and(|closed| *closed);
        !closed && (self.closed_on.is_empty() || !self.closed_on.contains(&self.date(day)))
    }

    /// The last open day that is not after this one and not before the plan.
    pub fn last_open(&self, day: Day) -> Option<Day> {
        (0..=day).rev().find(|d| self.is_open(*d))
    }
}

/// A hundred years: further than any plan, and far from every end of the calendar.
const MOST_DAYS: i64 = 36_525;

/// What is used: so much on certain weekdays, and so much a week shared out over the other open ones.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Uses {
    /// What is used on a weekday, Monday first; `None` for a day that takes its share of the week.
    pub on: [Option<u64>; 7],
    /// What the other open weekdays use between them in a week.
    pub week: u64,
}

impl Uses {
    /// So much a week, the same on every open day.
    pub fn weekly(amount: u64) -> Self {
        Self { week: amount, ..Self::default() }
    }

    /// What is used on a day: nothing on a closed one. The shares of a week add to the week's amount exactly. A single
    /// closed day (a holiday) takes its share away with it.
    pub fn on_day(&self, calendar: &Calendar, day: Day) -> u64 {
        if !calendar.is_open(day) {
            return 0;
        }
        let weekday = calendar.weekday(day);
        if let Some(own) = self.on.get(weekday).copied().flatten() {
            return own;
        }
        let sharing = |w: &usize| self.on.get(*w) == Some(&None) && calendar.closed.get(*w) == Some(&false);
        let days = (0..7).filter(sharing).count() as u64;
        let place = (0..weekday).filter(sharing).count() as u64;
        // Shares of whole numbers that add up to the week; none where no day shares it.
        let by = |days_gone: u64| (days_gone * self.week).checked_div(days).unwrap_or(0);
        by(place + 1) - by(place)
    }

    /// What is used in a week without holidays.
    pub fn in_a_week(&self, calendar: &Calendar) -> u64 {
        (0..7)
            .filter(|w| calendar.closed.get(*w) == Some(&false))
            .fold(0, |sum: u64, w| sum.saturating_add(self.on.get(w).copied().flatten().unwrap_or(0)))
            + if (0..7).any(|w| self.on.get(w) == Some(&None) && calendar.closed.get(w) == Some(&false)) {
                self.week
            } else {
                0
            }
    }
}
