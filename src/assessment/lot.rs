//! What is known of one lot beside its card: when it was made, how old its oldest part was, and its time in the freezer.

use chrono::{Days, NaiveDate};

use crate::safety::Facts;
use crate::shelf_life::calendar::{self, DayOne, Frozen, LastDay};
use crate::shelf_life::{HouseQuality, Product};
use crate::vocabulary::Tag;

use super::part_kept::PartKept;
use super::store::{DatedStore, StoreRefusal};

/// Days in the freezer after which quality is lost: raw juice, dairy, fruit or plant, anything else (common practice, no
/// source).
const FREEZER_DAYS: [i64; 4] = [90, 60, 180, 365];
/// Raw juice keeps no longer than this once it is thawed, the day of thawing counted (ours).
const THAWED_JUICE_DAYS: u64 = 2;

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
    /// Its parts that the book tells the day of, one by one.
    #[serde(skip)]
    pub parts: Vec<PartKept>,
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
    pub(crate) fn start(&self, passes_on: bool, counts: impl Fn(&PartKept) -> bool) -> NaiveDate {
        let of_parts = self.parts.iter().filter_map(|part| part.oldest(&counts));
        self.oldest_part.into_iter().chain(of_parts).filter(|_| passes_on).fold(self.made, NaiveDate::min)
    }

    /// Whether a day is told of any of its parts.
    pub(super) fn tells_a_day(&self) -> bool {
        self.oldest_part.is_some() || !self.parts.is_empty()
    }

    /// What is left of another day is as old as that day, and where nobody says it there is none to count from.
    pub(super) fn untold_leftover(&self, facts: &Facts) -> Option<StoreRefusal> {
        let why = "a step takes what is left of another day: say of which with --oldest-part YEAR-MONTH-DAY";
        (facts.tags.has(Tag::Leftover) && !self.tells_a_day()).then(|| StoreRefusal::own(why))
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
        // of a lot the book knows it, and where parts are told one by one the oldest of them may be another
        let told = self.parts.iter().find(|part| part.of_lot.is_none() && part.is_called(name)).map(|part| part.made);
        let day = told.or(self.oldest_part.filter(|_| only && self.parts.is_empty()))?;
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
