//! The answer for one store, and what takes a date away or shortens it there.

use std::fmt;

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, Store};
use crate::input::quoted;
use crate::safety::identity::FoodIdentity;
use crate::safety::{Caution, Storage};
use crate::shelf_life::Verdict;
use crate::shelf_life::calendar::STOPS_C;
use crate::shelf_life::reason::{DateRule, Mark};
use crate::shelf_life::staling::Tier;
use crate::solver::Solved;
use crate::spelling::nearest;
use crate::units::degrees_celsius;

use super::identity::IdentityQuestion;

/// At and below this a store is cold: FDA Food Code 2022, 3-501.16(A)(2).
const CHILL_C: f64 = 5.0;

/// How a store keeps, by its temperature.
pub fn storage(store: &Store) -> Storage {
    match degrees_celsius(store.temperature) {
        t if t <= STOPS_C => Storage::Frozen,
        t if t <= CHILL_C => Storage::Chill,
        _ => Storage::Ambient,
    }
}

/// The answer for one store.
#[derive(Clone, Debug)]
pub struct DatedStore {
    /// The store.
    pub store: Store,
    /// Whole days once it is opened, where that shortens its life or takes its date away.
    pub opened: Option<OnceOpened>,
    /// Days that are left from the day it is thawed, while it is in the freezer.
    pub left_when_thawed: Option<u64>,
    /// The verdict; `None` in the freezer, where the clock stops.
    pub verdict: Option<Verdict>,
    /// Whole days from the day made; `None` where a date is refused or the clock stops.
    pub days: Option<u32>,
    /// The last day.
    pub date: Option<NaiveDate>,
    /// What kind of date it is: that of the part that decided, where one did.
    pub mark: Mark,
    /// How good the evidence of the rule that decided is.
    pub tier: Option<Tier>,
    /// The one rule that decided.
    pub decided_by: Option<DateRule>,
    /// Why there is no date.
    pub refused: Vec<StoreRefusal>,
    /// The cautions if it is kept here, most serious first.
    pub cautions: Vec<Caution>,
    /// The shares of lots that show growth if the store is a degree warmer and a degree colder, as in
    /// [`Verdict::lives_days`]; only where a chart asks for them.
    pub band: Option<(Vec<f64>, Vec<f64>)>,
    /// How long it keeps its quality in a freezer, days.
    pub freezer_days: i64,
    /// There is raw juice in it.
    pub raw_juice: bool,
    /// Its clock runs from the day of its oldest part; else from the day it was made, and a part need only be in date on the day that it
    /// goes in.
    pub by_oldest_part: bool,
}

/// A product that was filled hot and closed, once it is opened.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct OnceOpened {
    /// Whole days from the day it is opened, never beyond the date of the closed bottle; `None` where it has no date.
    pub days: Option<u32>,
    /// The rule that decided, or the first reason why there is no date.
    pub because: String,
}

impl OnceOpened {
    pub(super) fn from_verdict(verdict: &Verdict) -> Self {
        let rule = verdict.decided_by.as_ref().map(ToString::to_string);
        let refusal = verdict.refusals().next().map(ToString::to_string);
        Self { days: verdict.days, because: refusal.or(rule).unwrap_or_default() }
    }
}

/// Why there is no date.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StoreRefusal {
    /// The card that goes in and is itself refused; `None` where it is the card's own.
    pub of: Option<String>,
    /// The reason, in words.
    pub why: String,
}

impl StoreRefusal {
    pub(super) fn own(why: impl ToString) -> Self {
        Self { of: None, why: why.to_string() }
    }
}

impl fmt::Display for StoreRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.of {
            Some(part) => write!(f, "{part}, which goes in: {}", self.why),
            None => f.write_str(&self.why),
        }
    }
}

impl DatedStore {
    pub(super) fn refuse(&mut self, why: StoreRefusal) {
        self.refused.push(why);
        self.no_date();
    }

    /// Whole days, to tell the shorter of two lives: none where it is refused, those of the freezer where the clock stops.
    pub(super) fn keeps_for(&self) -> u32 {
        let frozen = || self.verdict.is_none().then(|| u32::try_from(self.freezer_days).ok()).flatten();
        if self.refused.is_empty() { self.days.or_else(frozen).unwrap_or(u32::MAX) } else { 0 }
    }

    fn no_date(&mut self) {
        (self.days, self.date, self.decided_by) = (None, None, None);
        (self.mark, self.tier) = (Mark::None, None);
    }
}

/// What is not to be made or served has no date, and neither has what uses it: a date beside a `stop` would be read first.
pub(super) fn refuse_where_stopped(dated: &mut DatedStore, carried: &[Caution]) {
    if dated.verdict.is_none() {
        return;
    }
    for stop in dated.cautions.iter().chain(carried).filter(|c| c.stops()) {
        // A thing that goes in is said to be dangerous once, of itself or of what it went into.
        let why = stopped_for(stop);
        if dated.refused.iter().all(|said| said.why != why.why) {
            dated.refused.push(why);
        }
    }
    if !dated.refused.is_empty() {
        dated.no_date();
    }
}

fn stopped_for(stop: &Caution) -> StoreRefusal {
    let why = match stop.is_certain() {
        true => stop.message.to_owned(),
        false => format!("until it is said that it is not so: {}", stop.message),
    };
    StoreRefusal { of: stop.carried.as_ref().and_then(|carried| carried.path.last().cloned()), why }
}

/// What is dangerous by what it is, or stopped, is so in the freezer too: there no count runs that cold could stop, and
/// months beside a stop would be read first. The coldest store that is not frozen says it.
pub(super) fn refuse_frozen(dates: &mut [DatedStore], carried: &[Caution]) {
    let cold = |dated: &DatedStore| degrees_celsius(dated.store.temperature);
    let thawed = dates.iter().filter(|dated| dated.verdict.is_some());
    let Some(coldest) = thawed.min_by(|a, b| cold(a).total_cmp(&cold(b))) else { return };
    let by_nature = coldest.verdict.iter().flat_map(|v| &v.refused_by_nature).map(StoreRefusal::own);
    let stops = coldest.cautions.iter().chain(carried).filter(|c| c.stops()).map(stopped_for);
    let reasons: Vec<StoreRefusal> = by_nature.chain(stops).collect();
    for frozen in dates.iter_mut().filter(|dated| dated.verdict.is_none()) {
        for why in &reasons {
            if !frozen.refused.contains(why) {
                frozen.refused.push(why.clone());
            }
        }
    }
}

/// What may be anything has no date, in the freezer neither.
pub(super) fn refuse_unidentified(dated: &mut DatedStore, open: &[IdentityQuestion]) {
    let is_line = |question: &&IdentityQuestion| matches!(question.identity, FoodIdentity::Unanswered { .. });
    let (lines, others): (Vec<_>, Vec<_>) = open.iter().partition(is_line);
    // the lines themselves stand above, a question each
    if !lines.is_empty() {
        let (count, one) = (lines.len(), if lines.len() == 1 { "question" } else { "questions" });
        dated.refused.push(StoreRefusal::own(format!("NOT COMPLETE, the card still asks {count} {one}")));
    }
    dated.refused.extend(others.into_iter().map(|question| StoreRefusal::own(&question.question)));
    if !open.is_empty() {
        dated.no_date();
        dated.opened = None;
    }
}

/// A drink is made for a guest and not kept: a batch of it has a card and a date of its own.
pub(super) fn refuse_of_a_drink(dated: &mut DatedStore, solved: &Solved) {
    if solved.card.is_drink() {
        let why = "a drink is served at once; for a date of a batch: stillroom serve DRINK --make 40";
        dated.refused.insert(0, StoreRefusal::own(why));
        dated.no_date();
        (dated.opened, dated.left_when_thawed) = (None, None);
    }
}

/// What a part IS passes on, from whichever store of its own says it: raw egg, plants under oil, a steep that stood too warm,
/// a stop. Where it stands does not, and neither do its days: the hurdles of the finished product decide. A drink in a drink is made to
/// order with it: what takes the date of the one alone stops the other as little.
pub(super) fn take_over_nature(dated: &mut DatedStore, name: &str, part: &[DatedStore], to_order: bool) {
    let natures = part.iter().filter_map(|store| store.verdict.as_ref()).flat_map(|verdict| &verdict.refused_by_nature);
    let own = natures.filter(|_| !to_order).map(|why| StoreRefusal { of: Some(name.to_owned()), why: why.to_string() });
    let of_its_parts = part.iter().flat_map(|store| &store.refused).filter(|refusal| refusal.of.is_some()).cloned();
    for refusal in own.chain(of_its_parts) {
        // Two parts may be refused for one that goes into both.
        if !dated.refused.contains(&refusal) {
            dated.refused.push(refusal);
        }
    }
    if !dated.refused.is_empty() {
        dated.no_date();
    }
}

/// The place of the store that the card names, else of the coldest that is not frozen.
pub fn planned(solved: &Solved, stores: &[Store]) -> Option<usize> {
    let named = solved.card.keep.store.as_ref().map(|s| s.value.trim());
    let by_name = named.and_then(|name| stores.iter().position(|s| s.name.eq_ignore_ascii_case(name)));
    by_name.or_else(|| {
        let cold = |s: &Store| degrees_celsius(s.temperature);
        let thawed = stores.iter().enumerate().filter(|(_, s)| storage(s) != Storage::Frozen);
        thawed.min_by(|a, b| cold(a.1).total_cmp(&cold(b.1))).map(|(place, _)| place)
    })
}

/// A store that the card names and the house does not have: judged in another one, it could be judged too mildly.
pub(super) fn unknown_store(solved: &Solved, house: &House) -> Option<Diagnostic> {
    let named = solved.card.keep.store.as_ref()?;
    let names: Vec<&str> = house.settings.stores.iter().map(|s| s.name.as_str()).collect();
    if names.iter().any(|name| name.eq_ignore_ascii_case(named.value.trim())) {
        return None;
    }
    let found = Diagnostic::error(Code::UnknownWord, format!("the house has no store `{}`", named.value))
        .at(named.span, "where it is kept decides how long, and what is dangerous")
        .help(format!("its stores are: {}; they stand in house.toml under [stores]", names.join(", ")));
    let found = match nearest(&named.value, names.iter().copied()) {
        Some(meant) => found.fix(named.span, quoted(meant)),
        None => found,
    };
    Some(found.in_file(&solved.card.file))
}
