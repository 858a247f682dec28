//! What of an order keeps for days only: how much of it is bought for which day.

use chrono::NaiveDate;
use serde::Serialize;

use crate::plan::calendar::Day;
use crate::plan::orders::BoughtFresh;

use super::plan::InThousandths;

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
