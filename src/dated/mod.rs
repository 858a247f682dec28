//! What a solved card may be: a verdict for each store of the house, and the cautions that apply.
//!
//! Gathers the plain inputs of [`crate::shelf_life`] and [`crate::safety`] from the card, the larder, the house and
//! the solved mixture, in the order that keeps the arrows one way: screen, then date, then the cautions that need the
//! days. What is not stated stays unknown. A card that uses another card of the house never outlives it, takes over
//! its refusals, its allergens and its cautions.

pub mod authority;
pub mod facts;
pub mod product;

use chrono::NaiveDate;

use crate::diagnostic::Diagnostic;
use crate::house::{DayOne, House, Store};
use crate::quantity::degrees_celsius;
use crate::safety::{self, Caution, Facts, Level, Storage};
use crate::shelf_life::{Settings, Verdict, calendar, verdicts};
use crate::solve::Solved;

use authority::LocalLimits;

/// At and below this a store stops the clock, °C (frozen food at -18; anything that is hard frozen, ours).
const FROZEN_C: f64 = -10.0;
/// At and below this a store is cold: FDA Food Code 2022, 3-501.16(A)(2).
const CHILL_C: f64 = 5.0;

/// How a store keeps, by its temperature.
pub fn storage(store: &Store) -> Storage {
    match degrees_celsius(store.temperature) {
        t if t <= FROZEN_C => Storage::Frozen,
        t if t <= CHILL_C => Storage::Chill,
        _ => Storage::Ambient,
    }
}

/// The answer for one store.
#[derive(Clone, Debug)]
pub struct DatedStore {
    /// The store.
    pub store: Store,
    /// The verdict; `None` in the freezer, where the clock stops.
    pub verdict: Option<Verdict>,
    /// Whole days from the day made; `None` where a date is refused or the clock stops.
    pub days: Option<u32>,
    /// The last day.
    pub date: Option<NaiveDate>,
    /// The one rule that decided, in words.
    pub decided_by: Option<String>,
    /// Why there is no date, in words.
    pub refused: Vec<String>,
    /// The cautions if it is kept here, most serious first.
    pub cautions: Vec<Caution>,
}

/// The answer for a card.
#[derive(Clone, Debug)]
pub struct Dated {
    /// The day made.
    pub made: NaiveDate,
    /// The stores of the house, in its order.
    pub stores: Vec<DatedStore>,
    /// The store that the card is planned for: `[keep] store`, else the coldest that is not frozen.
    pub planned: usize,
    /// Every caution of the planned store, and what is carried out of inner cards.
    pub cautions: Vec<Caution>,
    /// Allergens, its own and those of inner cards.
    pub allergens: Vec<String>,
    /// Numbers of the authority that decided, with who entered them.
    pub local: Option<LocalLimits>,
}

impl Dated {
    /// Whether a caution says not to make or serve it as planned.
    pub fn stopped(&self) -> bool {
        self.cautions.iter().any(|c| c.severity == Level::Stop && c.is_certain())
    }
}

/// A card dated with its inner cards, and the facts that its outer cards take over.
struct Judged {
    stores: Vec<DatedStore>,
    facts: Facts,
    cautions: Vec<Caution>,
}

/// Dates a solved card made on a day.
pub fn of(solved: &Solved, house: &House, made: NaiveDate, draws: Settings) -> (Dated, Vec<Diagnostic>) {
    let (local, found) = authority::read(house);
    let judged = judge(solved, house, made, draws, local.as_ref());
    let planned = planned(solved, &judged.stores);
    let allergens = judged.facts.allergens.present.iter().cloned().collect();
    (Dated { made, planned, cautions: judged.cautions, allergens, stores: judged.stores, local }, found)
}

fn judge(solved: &Solved, house: &House, made: NaiveDate, draws: Settings, local: Option<&LocalLimits>) -> Judged {
    let inner: Vec<(String, Judged)> =
        solved.inner.iter().map(|(inner, _)| (inner.name.clone(), judge(inner, house, made, draws, local))).collect();
    let mut facts = facts::of_parts(solved, house);
    for (_, judged) in &inner {
        facts.take_in(&judged.facts);
    }
    facts.conclude();
    let product = product::of(solved, house, &facts);
    facts::of_product(&mut facts, solved, house, &product);

    let limits = authority::for_product(local, &solved.name);
    let thawed: Vec<&Store> = house.settings.stores.iter().filter(|s| storage(s) != Storage::Frozen).collect();
    let temperatures: Vec<_> = thawed.iter().map(|s| s.temperature).collect();
    let mut verdicts = verdicts(&product, &temperatures, &limits, draws).into_iter();
    let stores: Vec<DatedStore> = house
        .settings
        .stores
        .iter()
        .enumerate()
        .map(|(place, store)| {
            let verdict = if storage(store) == Storage::Frozen { None } else { verdicts.next() };
            let mut dated = one_store(store, verdict, made, house.settings.day_one, local);
            for (name, judged) in &inner {
                if let Some(part) = judged.stores.get(place) {
                    hold_to_part(&mut dated, name, part);
                }
            }
            facts::of_store(&mut facts, &dated);
            dated.cautions = safety::evaluate(&facts);
            dated.cautions.extend(facts::of_heated_stages(solved, house));
            dated.cautions.sort_by_key(|c| c.severity);
            dated
        })
        .collect();
    let own = stores.get(planned(solved, &stores)).map(|s| s.cautions.clone()).unwrap_or_default();
    let carried = inner.iter().flat_map(|(name, judged)| safety::carry(name, &judged.cautions));
    Judged { cautions: safety::gather(own, carried), stores, facts }
}

fn one_store(
    store: &Store,
    verdict: Option<Verdict>,
    made: NaiveDate,
    day_one: DayOne,
    local: Option<&LocalLimits>,
) -> DatedStore {
    let days = verdict.as_ref().and_then(|v| v.days);
    let count = match day_one {
        DayOne::DayMade => calendar::DayOne::DayMade,
        DayOne::DayAfter => calendar::DayOne::DayAfter,
    };
    let legal = verdict.as_ref().and_then(|v| v.legal_days);
    let decided_by = verdict.as_ref().and_then(|v| v.decided_by.as_ref()).map(|rule| {
        let words = rule.to_string();
        match local.filter(|_| words.contains("local code")) {
            Some(local) => format!("{words} ({})", local.entered),
            None => words,
        }
    });
    DatedStore {
        store: store.clone(),
        days,
        date: days.and_then(|d| calendar::last_day(made, d, legal, count)),
        decided_by,
        refused: verdict.iter().flat_map(|v| &v.refused).map(ToString::to_string).collect(),
        cautions: Vec::new(),
        verdict,
    }
}

/// A product never outlives the shortest of its parts, and what is refused for a part is refused for it.
fn hold_to_part(dated: &mut DatedStore, name: &str, part: &DatedStore) {
    dated.refused.extend(part.refused.iter().map(|why| format!("{name}, which goes in: {why}")));
    if !dated.refused.is_empty() {
        (dated.days, dated.date, dated.decided_by) = (None, None, None);
    } else if let (Some(own), Some(of_part)) = (dated.date, part.date) {
        if of_part < own {
            dated.date = Some(of_part);
            dated.days = part.days;
            dated.decided_by =
                Some(format!("its part {name}, made the same day: {}", part.decided_by.clone().unwrap_or_default()));
        }
    }
}

/// The store that the card names, else the coldest that is not frozen.
fn planned(solved: &Solved, stores: &[DatedStore]) -> usize {
    let named = solved.card.keep.store.as_ref().map(|s| s.value.to_lowercase());
    let by_name = named.and_then(|name| stores.iter().position(|s| s.store.name.to_lowercase() == name));
    let cold = |s: &DatedStore| degrees_celsius(s.store.temperature);
    by_name.unwrap_or_else(|| {
        let thawed = stores.iter().enumerate().filter(|(_, s)| storage(&s.store) != Storage::Frozen);
        thawed.min_by(|a, b| cold(a.1).total_cmp(&cold(b.1))).map_or(0, |(place, _)| place)
    })
}
