//! The date in one store, as every report shows it.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::store::OnceOpened;
use crate::assessment::{DatedStore, Decision};
use crate::safety::{Caution, Level};
use crate::shelf_life::calendar::in_words;
use crate::shelf_life::ceilings::Tier;
use crate::shelf_life::reason::{Mark, Note};
use crate::shelf_life::verdict::{CeilingFigure, Growth, Staleness};
use crate::units::degrees_celsius;
use crate::units::display::temperature_text;

use super::caution::CautionView;

/// The answer for one store.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct StoreView {
    /// Its name.
    pub store: String,
    pub(crate) temperature_c: f64,
    /// The answer in a line: the date, or why there is none, and a stop that may apply.
    pub(crate) says: String,
    /// Whole days from the day made; 0 is "use at once".
    pub(crate) days: Option<u32>,
    pub(crate) date: Option<NaiveDate>,
    pub(crate) mark: Mark,
    pub(crate) decided_by: Option<Decision>,
    pub(crate) tier: Option<Tier>,
    pub(crate) refused: Option<String>,
    pub(crate) refusals: Vec<String>,
    pub(crate) ceiling_days: Option<f64>,
    pub(crate) ceiling: Option<CeilingFigure>,
    /// The growth model; null where it may not be shown.
    pub(crate) growth_days: Option<Growth>,
    pub(crate) p_no_growth: Option<f64>,
    pub(crate) quality_days: Option<Staleness>,
    pub(crate) frozen: bool,
    pub(crate) days_left_when_thawed: Option<u64>,
    pub(crate) opened: Option<OnceOpened>,
    pub(crate) notes: Option<Vec<Note>>,
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
            says: in_a_line(dated),
            days: dated.days,
            date: dated.date,
            mark: dated.mark,
            decided_by: dated.decided_by.clone(),
            tier: dated.tier,
            refused: (!refusals.is_empty()).then(|| refusals.join("; ")),
            refusals,
            ceiling_days: verdict.and_then(|v| v.ceiling_days),
            ceiling: verdict.and_then(|v| v.ceiling),
            growth_days: growth.cloned(),
            p_no_growth: growth.map(|g| g.p_no_growth),
            quality_days: with_date.and_then(|v| v.quality.clone()),
            frozen: verdict.is_none(),
            days_left_when_thawed: dated.left_when_thawed,
            opened: dated.opened.clone(),
            notes: verdict.map(|v| v.notes.clone()),
            cautions: CautionView::all(&dated.cautions),
            stops_here: CautionView::all(dated.cautions.iter().filter(elsewhere)),
        }
    }
}

fn in_a_line(store: &DatedStore) -> String {
    match stop_in_doubt(store) {
        Some(doubt) => format!("{}; {doubt}", in_store(store)),
        None => in_store(store),
    }
}

/// A stop that hangs on what is not stated: the date must not be read without it.
pub(crate) fn stop_in_doubt(store: &DatedStore) -> Option<String> {
    let stop = store.cautions.iter().find(|c| c.severity == Level::Stop).filter(|_| store.date.is_some())?;
    Some(format!("a STOP may apply, not stated: {}", stop.not_stated.join("; ")))
}

pub(crate) fn in_store(store: &DatedStore) -> String {
    let place = format!("{} ({})", store.store.name, temperature_text(store.store.temperature));
    let mark = if store.mark == Mark::BestBefore { "best before" } else { "use by" };
    match (store.days, store.date) {
        (Some(days), Some(date)) => format!("{place}: {mark} {} ({})", date.format("%a %-d %b %Y"), in_words(days)),
        _ if store.verdict.is_none() => format!("{place}: the clock stops"),
        _ if let Some(left) = store.left_when_thawed => {
            let words = if left == 1 { "1 day is".to_owned() } else { format!("{left} days are") };
            format!("{place}: it is in the freezer; {words} left from the day it is thawed, that day counted")
        }
        _ => {
            let why = store.refused.first().map_or_else(|| "not known".to_owned(), ToString::to_string);
            format!("{place}: no date: {why}")
        }
    }
}
