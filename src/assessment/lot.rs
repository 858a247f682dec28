//! What is known of one lot beside its card: when it was made, how old its oldest part was, and its time in the freezer.

use chrono::NaiveDate;

use crate::shelf_life::calendar::{self, Frozen, LastDay};

use super::store::DatedStore;

/// One lot of a card.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Lot {
    /// The day it was made.
    pub made: NaiveDate,
    /// The day on which the oldest juice in it was pressed, or the oldest bottle opened; `None`: the day made.
    pub oldest_part: Option<NaiveDate>,
    /// Its stays in the freezer.
    pub frozen: Vec<Frozen>,
    /// The earliest age in days at which a lot of this card showed gas, haze, film, mould or a swollen cap.
    pub spoiled_days: Option<f64>,
}

impl From<NaiveDate> for Lot {
    fn from(made: NaiveDate) -> Self {
        Self { made, ..Self::default() }
    }
}

impl Lot {
    /// The day from which its clock runs.
    pub(crate) fn start(&self) -> NaiveDate {
        calendar::clock_start(self.made, self.oldest_part)
    }

    /// Days in the freezer do not count: the last day moves on by as many, and while it is frozen there is none.
    pub(super) fn take_out_frozen_days(&self, dated: &mut DatedStore) {
        let Some(last) = dated.date.filter(|_| !self.frozen.is_empty()) else { return };
        match calendar::last_day_frozen(last, &self.frozen) {
            Some(LastDay::On(day)) => dated.date = Some(day),
            Some(LastDay::Frozen { days_left }) => (dated.date, dated.left_when_thawed) = (None, Some(days_left)),
            None => dated.date = None,
        }
    }
}
