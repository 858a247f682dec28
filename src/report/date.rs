//! `date`: how long it keeps, store by store, and what to look out for.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::whatif::WhatIf;
use crate::assessment::{AllergenLists, Assessment, IdentityQuestion, Lot};
use crate::diagnostic::{Code, Diagnostic};
use crate::safety::STANDING_NOTE;
use crate::safety::hazards::PublishedLimit;
use crate::safety::intake::Intake;
use crate::shelf_life::reason::Note;
use crate::shelf_life::screen::{ScreenClass, ScreenTable};

use super::caution::CautionView;
use super::store::StoreView;
use super::{Report, View};

pub(crate) type DateReport = Report<DateView>;

/// How long a product keeps.
#[derive(Clone, Debug, Serialize)]
pub struct DateView {
    pub(crate) made: NaiveDate,
    pub(crate) lot: Lot,
    /// The answer of the pH and water activity tables.
    pub screen: Option<ScreenView>,
    /// The stores that were asked for.
    pub(crate) stores: Vec<StoreView>,
    pub(crate) planned: Option<String>,
    pub(crate) readings: Option<String>,
    #[serde(flatten)]
    pub(crate) allergens: AllergenView,
    pub(crate) allergens_listed_in: Vec<AllergenLists>,
    /// Its ingredients of which nothing says that they are food.
    pub(crate) unidentified: Vec<IdentityQuestion>,
    pub(crate) what_if: Vec<WhatIf>,
    pub(crate) cautions: Vec<CautionView>,
    /// The most of substances that have a limit, by what is weighed in.
    pub(crate) doses: Vec<Intake>,
    pub(crate) limits: Vec<PublishedLimit>,
    pub(crate) note: &'static str,
}

/// The answer of the tables.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ScreenView {
    pub(crate) table: ScreenTable,
    /// What it says.
    pub class: ScreenClass,
    pub(crate) result: ScreenResult,
}

/// Whether a product needs control of time and temperature for safety.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum ScreenResult {
    /// Not by the tables.
    Stable,
    /// The tables, which ignore alcohol, say so; no growth is reported at its strength.
    Alcohol,
    /// It does, or nobody has shown that it does not.
    Control,
}

/// The allergens of a product, and of what nobody has said which it brings.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct AllergenView {
    pub(crate) allergens: Vec<String>,
    pub(crate) allergens_not_stated: Vec<String>,
    pub(crate) allergens_not_stated_for: Vec<String>,
    /// What is to be asked of ingredients whose names may be misspelt allergens.
    pub(crate) allergens_doubted: Vec<String>,
    /// The one sentence on all of it, as it is printed.
    pub(crate) allergens_say: String,
}

impl View for DateView {
    const VERB: &'static str = "date";
    const KEYS: &'static str = "made lot screen stores planned readings allergens allergens_not_stated allergens_not_stated_for allergens_doubted allergens_say allergens_listed_in unidentified what_if cautions doses limits note";

    fn stops(&self) -> bool {
        self.cautions.iter().any(CautionView::stops)
    }
}

impl From<&Assessment> for AllergenView {
    fn from(judged: &Assessment) -> Self {
        let (for_these, doubted) = (&judged.allergens_open, &judged.allergens_doubted);
        Self {
            allergens: judged.allergens.clone(),
            allergens_not_stated: for_these.iter().chain(doubted).cloned().collect(),
            allergens_not_stated_for: for_these.clone(),
            allergens_doubted: doubted.clone(),
            allergens_say: judged.allergens_say.clone(),
        }
    }
}

impl ScreenView {
    /// The screen of a judged product: none where it is only asked for frozen.
    pub(super) fn of_judged(judged: &Assessment) -> Option<Self> {
        let screen = judged.screen?;
        let verdict = judged.stores.iter().find_map(|store| store.verdict.as_ref())?;
        let result = match (verdict.held, screen.class) {
            (None, ScreenClass::NonTcs) => ScreenResult::Stable,
            (None, ScreenClass::Pa) if verdict.notes.contains(&Note::TableIgnoresAlcohol) => ScreenResult::Alcohol,
            _ => ScreenResult::Control,
        };
        Some(Self { table: screen.table, class: screen.class, result })
    }
}

impl DateView {
    /// The view of a judged product.
    pub fn new(judged: &Assessment) -> Self {
        Self {
            made: judged.lot.made,
            lot: judged.lot.clone(),
            screen: ScreenView::of_judged(judged),
            stores: judged.stores.iter().map(|store| StoreView::new(store, &judged.cautions)).collect(),
            planned: judged.stores.get(judged.planned).map(|s| s.store.name.clone()),
            readings: judged.readings.clone(),
            allergens: AllergenView::from(judged),
            allergens_listed_in: judged.lists.clone(),
            unidentified: judged.unidentified.clone(),
            what_if: judged.what_if.clone(),
            cautions: CautionView::all(&judged.cautions),
            doses: judged.doses.clone(),
            limits: judged.hazards.clone(),
            note: STANDING_NOTE,
        }
    }

    /// Where there is no number a program is told why, as it is of every other property.
    pub(crate) fn without_date(&self) -> impl Iterator<Item = Diagnostic> {
        let undated = self.stores.iter().filter(|s| s.date.is_none());
        undated.map(|s| Diagnostic::note(Code::NoDate, s.says.clone()))
    }
}
