//! The date in one store, as every report shows it.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::DatedStore;
use crate::assessment::store::OnceOpened;
use crate::card::Card;
use crate::paste::life_told;
use crate::safety::{Caution, Level};
use crate::shelf_life::Verdict;
use crate::shelf_life::calendar::in_words;
use crate::shelf_life::reason::{DateRule, Mark, Note};
use crate::shelf_life::staling::Tier;
use crate::shelf_life::verdict::Growth;
use crate::units::degrees_celsius;
use crate::units::display::temperature_text;

use super::caution::CautionView;

/// The answer for one store.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct StoreView {
    /// Its name.
    pub store: String,
    pub(crate) temperature_c: f64,
    /// Its name and temperature, as printed.
    pub(crate) place: String,
    /// The answer in a line: the date, or why there is none.
    pub(crate) says: String,
    /// The day alone, or that there is none.
    pub(crate) short: String,
    /// Whole days from the day made; 0 is "use at once".
    pub(crate) days: Option<u32>,
    /// The last day.
    pub(crate) date: Option<NaiveDate>,
    /// What kind of date it is.
    pub(crate) mark: Mark,
    /// The one rule that decided.
    pub(crate) decided_by: Option<String>,
    /// How good the evidence of that rule is.
    pub(crate) tier: Option<Tier>,
    /// Why there is no date, in one text.
    pub(crate) refused: Option<String>,
    /// The same, reason by reason.
    pub(crate) refusals: Vec<String>,
    /// What law, staling and spoiled lots allow, in days.
    pub(crate) ceiling_days: Option<f64>,
    /// Growth over all lots, where it was drawn; null where it cannot decide.
    pub(crate) growth_days: Option<Growth>,
    /// The share of lots in which nothing grows.
    pub(crate) p_no_growth: Option<f64>,
    /// Days that the house's own lots bear here, where it has accepted them.
    pub(crate) quality_days: Option<f64>,
    /// Whether the clock stops here.
    pub(crate) frozen: bool,
    /// Days that are left from the day it is thawed, while it is in the freezer.
    pub(crate) days_left_when_thawed: Option<u64>,
    /// Its life once it is opened, where that is shorter.
    pub(crate) opened: Option<OnceOpened>,
    /// What else must be said; null where the clock stops.
    pub(crate) notes: Option<Vec<Note>>,
    /// The cautions if it is kept here.
    pub(crate) cautions: Vec<CautionView>,
    /// Stops for this store that are not among the cautions of the planned one, nor its refusals.
    pub(crate) stops_here: Vec<CautionView>,
}

impl StoreView {
    /// The view of one store; `planned` are the cautions of the store that the card is planned for.
    pub(crate) fn new(dated: &DatedStore, planned: &[Caution]) -> Self {
        let verdict = dated.verdict.as_ref();
        let with_date = verdict.filter(|_| dated.refused.is_empty());
        let growth = with_date.and_then(|v| v.growth.as_ref());
        let refusals: Vec<String> = dated.refused.iter().map(ToString::to_string).collect();
        let elsewhere = |c: &&Caution| {
            let said = planned.contains(c) || dated.refused.iter().any(|why| why.why == c.message);
            c.severity == Level::Stop && !said
        };
        Self {
            store: dated.store.name.clone(),
            temperature_c: degrees_celsius(dated.store.temperature),
            place: place(dated),
            says: in_store(dated),
            short: short(dated),
            days: dated.days,
            date: dated.date,
            mark: dated.mark,
            decided_by: dated.decided_by.as_ref().map(ToString::to_string),
            tier: dated.tier,
            refused: (!refusals.is_empty()).then(|| refusals.join("; ")),
            refusals,
            ceiling_days: verdict.and_then(Verdict::ceiling_days),
            growth_days: growth.cloned(),
            p_no_growth: growth.map(|g| g.never),
            quality_days: with_date.and_then(|v| v.of_lots_days()),
            frozen: verdict.is_none(),
            days_left_when_thawed: dated.left_when_thawed,
            opened: dated.opened.clone(),
            notes: verdict.map(|v| v.notes.clone()),
            cautions: CautionView::all(&dated.cautions),
            stops_here: CautionView::all(dated.cautions.iter().filter(elsewhere)),
        }
    }
}

/// How long its recipe says itself that it keeps, beside what the rules give in this store: their date stands.
pub(crate) fn said_by_recipe(card: &Card, planned: &DatedStore) -> Option<String> {
    let said = life_told(card)?;
    let by_rules = planned.days.map_or_else(|| "no date".to_owned(), in_words);
    Some(format!("\"{said}\"; by the rules {by_rules} ({}), and that counts", planned.store.name))
}

fn place(store: &DatedStore) -> String {
    format!("{} ({})", store.store.name, temperature_text(store.store.temperature))
}

/// The day alone, where there is one.
pub(crate) fn dated_heading(store: &DatedStore) -> String {
    let place = place(store);
    let mark = if store.mark == Mark::BestBefore { "best before" } else { "use by" };
    match (store.days, store.date) {
        (Some(days), Some(date)) => format!("{place}: {mark} {}, {}", date.format("%a %-d %b %Y"), in_words(days)),
        _ => in_store(store),
    }
}

/// The day, or that there is none.
fn short(store: &DatedStore) -> String {
    let mark = if store.mark == Mark::BestBefore { "best before" } else { "use by" };
    match (store.date, store.left_when_thawed) {
        (Some(date), _) => format!("{mark} {}", date.format("%a %-d %b %Y")),
        (None, Some(left)) => format!("in the freezer, days left when thawed: {left}"),
        (None, None) if store.verdict.is_none() && store.refused.is_empty() => {
            format!("the count stops, up to {}", in_words(store.freezer_days as u32))
        }
        (None, None) => "no date".to_owned(),
    }
}

/// One sentence: the day, how long that is, and why.
pub(crate) fn in_store(store: &DatedStore) -> String {
    let place = place(store);
    let mark = if store.mark == Mark::BestBefore { "best before" } else { "use by" };
    match (store.days, store.date) {
        (Some(days), Some(date)) => {
            let because = match &store.decided_by {
                // the law says its days and why in one
                Some(rule @ DateRule::Control { .. }) => format!(", because {rule}"),
                Some(rule) => format!(": {}, {rule}", in_words(days)),
                None => format!(": {}", in_words(days)),
            };
            format!("{place}: {mark} {}{because}", date.format("%a %-d %b %Y"))
        }
        _ if store.verdict.is_none() && store.refused.is_empty() => {
            format!("{place}: the count stops; up to {} in there", in_words(store.freezer_days as u32))
        }
        _ if let Some(left) = store.left_when_thawed => {
            let words = match left {
                0 => "use it the day it is thawed".to_owned(),
                1 => "1 day is left, the day it is thawed".to_owned(),
                _ => format!("{left} days are left, the day it is thawed the first of them"),
            };
            format!("{place}: it is in the freezer; {words}; thaw it at 5 °C or below")
        }
        _ => {
            let why = store.refused.first().map_or_else(|| "not known".to_owned(), ToString::to_string);
            format!("{place}: no date: {why}")
        }
    }
}
