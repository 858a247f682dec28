//! What of an order keeps for days only: how much of it is bought for which day.

use chrono::NaiveDate;
use serde::{Serialize, Serializer};

use crate::plan::calendar::Day;
use crate::plan::orders::{BoughtFresh, Thousandths};

/// So much of what keeps for days only, for the days from one on.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct FreshView {
    pub(crate) needed: NaiveDate,
    /// The last delivery before that; null where there is none.
    pub(crate) arrives: Option<NaiveDate>,
    pub(crate) amount: InThousandths,
    /// Whether it is past its days by then, for no delivery comes later.
    pub(crate) is_past: bool,
}

impl FreshView {
    pub(super) fn new(of: &BoughtFresh, date: impl Fn(Day) -> NaiveDate) -> Self {
        let BoughtFresh { day, comes, amount, is_past } = *of;
        Self { needed: date(day), arrives: comes.map(date), amount: InThousandths(amount), is_past }
    }
}

/// An amount counted in thousandths, given in whole units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct InThousandths(pub Thousandths);

impl Serialize for InThousandths {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.0 as f64 / 1000.0)
    }
}
