//! How much of a product goes on a day.

use super::calendar::{Calendar, Day};

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
