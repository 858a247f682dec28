//! `date`: how long it keeps, store by store, and what to look out for.

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::whatif::WhatIf;
use crate::assessment::{AllergenLists, Assessment, IdentityQuestion, Lot};
use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::safety::STANDING_NOTE;
use crate::safety::hazards::PublishedLimit;
use crate::safety::intake::Intake;
use crate::shelf_life::class::Quoted;
use crate::shelf_life::hurdles::Screened;
use crate::shelf_life::screen::{ScreenClass, ScreenTable};
use crate::vocabulary::ProductClass;

use super::caution::CautionView;
use super::guest::{Guest, GuestView};
use super::store::{StoreView, said_by_recipe};
use super::{Report, View};

pub(crate) type DateReport = Report<DateView>;

/// How long a product keeps.
#[derive(Clone, Debug, Serialize)]
pub struct DateView {
    pub(crate) made: NaiveDate,
    pub(crate) lot: Lot,
    /// The answer of the pH and water activity tables.
    pub screen: Option<ScreenView>,
    /// What it may be called, by what is in it.
    pub class: Option<ProductClass>,
    /// Why the word of the card is ignored.
    pub class_ignored: Option<String>,
    /// How long its recipe says that it keeps, beside what the rules give.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub recipe_keeps: Option<String>,
    /// What is usually quoted for such a product: beside the date, never in its place.
    pub quoted: Vec<&'static Quoted>,
    /// The stores where its date has passed.
    pub(crate) passed: Vec<String>,
    /// What was assumed, the day of its parts first.
    pub assumed: Vec<String>,
    /// The stores that were asked for.
    pub(crate) stores: Vec<StoreView>,
    pub(crate) planned: Option<String>,
    pub(crate) readings: Option<String>,
    #[serde(flatten)]
    pub(crate) allergens: AllergenView,
    #[serde(flatten)]
    pub(crate) guest: GuestView,
    pub(crate) allergens_listed_in: Vec<AllergenLists>,
    /// Its ingredients of which nothing says that they are food.
    pub(crate) unidentified: Vec<IdentityQuestion>,
    pub(crate) what_if: Vec<WhatIf>,
    pub(crate) cautions: Vec<CautionView>,
    /// Those that the dates, the allergens or the card of a part say already.
    pub(crate) cautions_said_elsewhere: Vec<CautionView>,
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
    /// What follows, with what else is known.
    pub(crate) result: ScreenResult,
    /// What in it asks for cold whatever the tables say; null where nothing does.
    pub(crate) cold_for: Option<&'static str>,
    /// The highest pH that it can have; null where nobody knows.
    pub(crate) ph_up: Option<f64>,
    /// The highest water activity of its sugar and salt.
    pub(crate) aw_up: f64,
    /// The lowest strength, % vol.
    pub(crate) abv_low: f64,
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
    const KEYS: &'static str = "made lot screen class class_ignored quoted passed assumed stores planned readings allergens allergens_not_stated allergens_not_stated_for allergens_doubted allergens_say allergens_for_a_guest allergens_for_a_guest_not_stated allergens_listed_in unidentified what_if cautions cautions_said_elsewhere doses limits note";

    /// A stop, or no date anywhere but in the freezer.
    fn stops(&self) -> bool {
        let mut thawed = self.stores.iter().filter(|s| !s.frozen).peekable();
        let undated = thawed.peek().is_some() && thawed.all(|s| !s.refusals.is_empty());
        undated || self.cautions.iter().any(CautionView::stops)
    }
}

impl AllergenView {
    /// The line of the allergens; where one is named, with whom it is for.
    pub(crate) fn told(&self) -> String {
        self.told_beside("")
    }

    /// The same with what is said of what a guest gets beside it.
    pub(crate) fn told_beside(&self, beside: &str) -> String {
        let is_none = self.allergens.is_empty() && beside.is_empty();
        let guest = match (is_none, self.allergens_not_stated.is_empty()) {
            (false, _) => "; tell every guest",
            (true, false) => "; read the label before you say none",
            (true, true) => "",
        };
        format!("{}{beside}{guest}", self.allergens_say)
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
    /// The screen of a judged product.
    pub(super) fn of_judged(judged: &Assessment) -> Self {
        let result = match judged.hurdles.screened {
            Screened::Stable | Screened::NoFood => ScreenResult::Stable,
            Screened::Alcohol => ScreenResult::Alcohol,
            Screened::Control => ScreenResult::Control,
        };
        let contents = judged.product.contents;
        let cold_for = if judged.product.raw_juice > 0.0 {
            Some("raw juice")
        } else {
            contents.emulsion_or_milk().then_some("milk, cream or egg")
        };
        Self {
            table: judged.hurdles.table,
            class: judged.hurdles.by_table,
            result,
            cold_for,
            ph_up: judged.hurdles.ph_up,
            aw_up: judged.hurdles.aw_up,
            abv_low: judged.hurdles.abv,
        }
    }
}

impl DateView {
    /// The view of a judged product.
    pub fn new(judged: &Assessment) -> Self {
        let (cautions, cautions_said_elsewhere) = CautionView::parted(&judged.cautions);
        Self {
            made: judged.lot.made,
            lot: judged.lot.clone(),
            screen: Some(ScreenView::of_judged(judged)),
            class: judged.named.class,
            class_ignored: judged.named.ignored.clone(),
            quoted: judged.named.quoted.clone(),
            passed: Vec::new(),
            recipe_keeps: None,
            assumed: judged.assumed.clone(),
            stores: judged.stores.iter().map(|store| StoreView::new(store, &judged.cautions)).collect(),
            planned: judged.stores.get(judged.planned).map(|s| s.store.name.clone()),
            readings: judged.readings.clone(),
            allergens: AllergenView::from(judged),
            guest: GuestView::default(),
            allergens_listed_in: judged.lists.clone(),
            unidentified: judged.unidentified.clone(),
            what_if: judged.what_if.clone(),
            cautions,
            cautions_said_elsewhere,
            doses: judged.doses.clone(),
            limits: judged.hazards.clone(),
            note: STANDING_NOTE,
        }
    }

    /// The same with how long the recipe says that it keeps.
    #[must_use]
    pub(crate) fn beside_recipe(self, judged: &Assessment, card: &Card) -> Self {
        let planned = judged.stores.get(judged.planned);
        Self { recipe_keeps: planned.and_then(|store| said_by_recipe(card, store)), ..self }
    }

    /// The same with what goes in for a guest beside what was judged of its card.
    #[must_use]
    pub fn for_a_guest(self, (card, judged): (&Card, &Assessment), house: &House) -> Self {
        Self { guest: Guest::of(card, house).beside_judged(judged), ..self }
    }

    /// Marks the stores where the date has passed.
    pub(crate) fn say_what_has_passed(&mut self, today: NaiveDate) {
        let passed = |store: &&StoreView| store.date.is_some_and(|date| date < today);
        self.passed = self.stores.iter().filter(passed).map(|store| store.store.clone()).collect();
    }

    /// Where there is no number a program is told why, as it is of every other property.
    pub(crate) fn without_date(&self) -> impl Iterator<Item = Diagnostic> {
        let undated = self.stores.iter().filter(|s| s.date.is_none());
        undated.map(|s| Diagnostic::note(Code::NoDate, s.says.clone()))
    }
}
