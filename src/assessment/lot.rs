//! What is known of one lot beside its card: when it was made, how old its oldest part was, and its time in the freezer.

use chrono::{Days, NaiveDate};

use crate::shelf_life::calendar::{self, DayOne, Frozen, LastDay};
use crate::shelf_life::{HouseQuality, Product};
use crate::spelling;
use crate::vocabulary::{Allergen, Open};

use super::store::{DatedStore, StoreRefusal};

/// Days in the freezer after which quality is lost: raw juice, dairy, fruit or plant, anything else (common practice, no
/// source).
const FREEZER_DAYS: [i64; 4] = [90, 60, 180, 365];
/// Raw juice keeps no longer than this once it is thawed, the day of thawing counted (ours).
const THAWED_JUICE_DAYS: u64 = 2;

/// A lot of the house that went into another.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct PartLot {
    /// What its card or the book calls it.
    pub part: String,
    /// Its code.
    #[serde(skip)]
    pub lot: String,
    /// What it was recorded with.
    #[serde(skip)]
    pub allergens: Vec<Open<Allergen>>,
    /// The day on which it was made, later by the days that it lay in the freezer.
    pub since: NaiveDate,
    /// Its last day, as the book has it.
    pub last: Option<NaiveDate>,
}

/// Which lots of the book count for what a product brings to a guest: their cards may have changed since they were made.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LotsCounted {
    /// None: it is known by the cards alone.
    None,
    /// Those of its parts, which are told or stand there: it is made now.
    #[default]
    OfParts,
    /// Its own as well: it is poured.
    OwnToo,
}

/// One lot of a card.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct Lot {
    /// The day it was made.
    pub made: NaiveDate,
    /// The day on which the oldest juice in it was pressed, the oldest bottle opened, or the oldest house part made that
    /// needs control; `None`: the day made.
    pub oldest_part: Option<NaiveDate>,
    /// The days on which parts of the house were made, or juices pressed, by the name of the part, where they are known one by
    /// one.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub part_days: Vec<(String, NaiveDate)>,
    /// The lots of the book that went in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub part_lots: Vec<PartLot>,
    /// Which lots of the book count for what it brings to a guest.
    #[serde(skip)]
    pub counted: LotsCounted,
    /// Its stays in the freezer.
    pub frozen: Vec<Frozen>,
    /// The earliest age in days at which a lot of this card showed gas, haze, film, mould or a swollen cap.
    pub spoiled_days: Option<f64>,
    /// What the house has accepted of its own lots.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub of_lots: Vec<HouseQuality>,
}

impl From<NaiveDate> for Lot {
    fn from(made: NaiveDate) -> Self {
        Self { made, ..Self::default() }
    }
}

/// How long a product keeps its quality in the freezer, days.
pub(super) fn freezer_days(product: &Product) -> i64 {
    let contents = product.contents;
    let [juice, dairy, plant, other] = FREEZER_DAYS;
    if product.raw_juice > 0.0 {
        juice
    } else if contents.dairy.is_some() || contents.egg.is_some() {
        dairy
    } else if contents.plant || contents.nutrient {
        plant
    } else {
        other
    }
}

impl Lot {
    /// The day from which the clock of a product runs: that of the oldest part of those that `count`, where its day passes on.
    pub(crate) fn start(&self, passes_on: bool, count: impl Fn(&str) -> bool) -> NaiveDate {
        let of_parts = self.part_days.iter().filter(|(part, _)| count(part)).map(|(_, day)| *day);
        self.oldest_part.into_iter().chain(of_parts).filter(|_| passes_on).fold(self.made, NaiveDate::min)
    }

    /// The oldest day that is told of its parts.
    pub(super) fn oldest_told(&self) -> Option<NaiveDate> {
        self.oldest_part.into_iter().chain(self.part_days.iter().map(|(_, day)| *day)).min()
    }

    /// Since when a part of the house has been kept, and its last day where the book has it; what is told of the oldest part alone
    /// may be of any.
    pub(super) fn kept_since(&self, name: &str) -> Option<(NaiveDate, Option<NaiveDate>)> {
        let is_it = |part: &str| spelling::fold(part) == spelling::fold(name);
        let lot = self.part_lots.iter().find(|lot| is_it(&lot.part)).map(|lot| (lot.since, lot.last));
        let told = || self.part_days.iter().find(|(part, _)| is_it(part)).map(|(_, day)| (*day, None));
        let one_by_one = !self.part_lots.is_empty() || !self.part_days.is_empty();
        let oldest = || self.oldest_part.filter(|_| !one_by_one).map(|day| (day, None));
        lot.or_else(told).or_else(oldest)
    }

    /// Why a part of the house may not have gone in, where the day it was made is known: by its own name, or because it is
    /// the `only` one that can be the oldest. Its longest life in any of the stores counts.
    pub(super) fn past_part(
        &self,
        name: &str,
        only: bool,
        stores: &[DatedStore],
        day_one: DayOne,
    ) -> Option<StoreRefusal> {
        let told = self.part_days.iter().find(|(part, _)| spelling::fold(part) == spelling::fold(name));
        let day = told.map(|(_, day)| *day).or(self.oldest_told().filter(|_| only))?;
        let lives = stores.iter().map(|store| Some((store.days?, store.verdict.as_ref()?.legal_days)));
        let last = lives.flatten().filter_map(|(days, legal)| calendar::last_day(day, days, legal, day_one)).max()?;
        (last < self.made).then(|| StoreRefusal::own(format!("{name} was past its date on the day it went in: {last}")))
    }

    /// Days in the freezer are given back by the strict count, and while it is frozen there is no date. What was frozen
    /// twice or too long has none.
    pub(super) fn take_out_frozen_days(&self, dated: &mut DatedStore) {
        let Some(last) = dated.date.filter(|_| !self.frozen.is_empty()) else { return };
        let limit = dated.freezer_days;
        let too_long = |stay: &Frozen| stay.to.is_some_and(|to| (to - stay.from).num_days() > limit);
        if self.frozen.len() > 1 {
            dated.refuse(StoreRefusal::own("it was frozen twice"));
        } else if self.frozen.iter().any(too_long) {
            dated.refuse(StoreRefusal::own(format!(
                "it was frozen for longer than {limit} days, when its quality is lost"
            )));
        } else {
            match calendar::last_day_frozen(last, &self.frozen) {
                Some(LastDay::On(day)) => {
                    let thawed = self.frozen.iter().filter_map(|stay| stay.to).max();
                    let most = thawed.and_then(|day| day.checked_add_days(Days::new(THAWED_JUICE_DAYS - 1)));
                    dated.date = Some(most.filter(|_| dated.raw_juice).map_or(day, |most| day.min(most)));
                }
                Some(LastDay::Frozen { days_left }) => {
                    let most = if dated.raw_juice { THAWED_JUICE_DAYS } else { u64::MAX };
                    (dated.date, dated.left_when_thawed) = (None, Some(days_left.min(most)));
                }
                None => dated.date = None,
            }
        }
    }
}
