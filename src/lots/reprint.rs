//! Labels that say what is not so any more: the date of the lot was changed after they were printed, or what its product
//! brings is known better now.

use chrono::NaiveDate;
use serde::Serialize;

use super::book::{LotBook, LotState};
use super::due::{Soon, soon};
use super::event::UseBy;
use crate::vocabulary::{Allergen, Open};

/// A lot whose label is to be printed again.
#[derive(Clone, Debug, PartialEq)]
pub struct Reprint<'a> {
    /// The lot.
    pub lot: &'a LotState,
    /// What changed, never nothing.
    pub changed: Vec<LabelChange>,
}

/// What a label says wrongly.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LabelChange {
    /// Its date.
    Date {
        /// The day on the label; none in the freezer.
        on_label: Option<NaiveDate>,
        /// The date that it has.
        now: Box<UseBy>,
    },
    /// Allergens that are not on it.
    Allergens {
        /// Which.
        missing: Vec<String>,
    },
}

/// The allergens of a lot: what it was recorded with, and what its product brings as its card and the larder stand now. What
/// is known later is never known to the better: nothing that was recorded is taken off. Each is called as it is today: an older book has
/// coconut among the tree nuts.
pub fn allergens(recorded: &[String], now: &[String]) -> Vec<String> {
    let mut all: Vec<String> =
        recorded.iter().chain(now).map(|one| Open::<Allergen>::read(one).as_str().to_owned()).collect();
    all.sort();
    all.dedup();
    all
}

/// The labels to print again on a day: of lots that may still be used and were labelled. `brings` are the allergens of the
/// product of a lot as its card and the larder stand now.
pub fn reprints(book: &LotBook, on: NaiveDate, mut brings: impl FnMut(&LotState) -> Vec<String>) -> Vec<Reprint<'_>> {
    // what must go is not labelled anew
    let stays = |lot: &&LotState| soon(lot, on).is_some_and(|soon| soon != Soon::MustGo);
    let one = |lot| {
        let changed = changes(lot, &brings(lot))?;
        Some(Reprint { lot, changed })
    };
    book.lots().filter(|lot| lot.labelled.is_some()).filter(stays).filter_map(one).collect()
}

fn changes(lot: &LotState, brings: &[String]) -> Option<Vec<LabelChange>> {
    let label = lot.labelled.as_ref()?;
    let now = &lot.use_by;
    let mut changed = Vec::new();
    if (label.day, label.days_left_when_thawed) != (now.day, now.days_left_when_thawed) {
        changed.push(LabelChange::Date { on_label: label.day, now: Box::new(now.clone()) });
    }
    let labelled = allergens(&label.allergens, &[]);
    let mut missing = allergens(&lot.recorded.allergens, brings);
    missing.retain(|allergen| !labelled.contains(allergen));
    if !missing.is_empty() {
        changed.push(LabelChange::Allergens { missing });
    }
    (!changed.is_empty()).then_some(changed)
}
