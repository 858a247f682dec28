//! `solve`: the weigh sheet, and what the batch is.

mod acids;
pub(crate) mod assumed;
pub(crate) mod bench;
pub mod crystals;
pub(crate) mod dosing;
pub(crate) mod label_grade;
pub mod law;
pub(crate) mod serving;
pub(crate) mod stage;

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::{self, Which};
use crate::card::{Card, Makes};
use crate::diagnostic::Diagnostic;
use crate::house::House;
use crate::mixture::Mixture;
use crate::properties::{Properties, Subject};
use crate::safety::{Market, STANDING_NOTE};
use crate::shelf_life::Draws;
use crate::solver::vessel::{check_size, vessel_l};
use crate::solver::{Solved, weighing};
use crate::uncertainty;
use crate::units::{Temperature, celsius, in_grams, in_millilitres};

use super::caution::CautionView;
use super::date::{AllergenView, ScreenView};
use super::parts::{AmountView, BatchView, PartView, parts};
use super::store::StoreView;
use super::uncertainty::{UncertaintyView, UncertaintyViews};
use super::{Report, View};

pub(crate) use stage::StageView;

pub(crate) type SolveReport = Report<SolveView>;

/// Everything that is said of one solved card.
#[derive(Clone, Debug, Serialize)]
pub struct SolveView {
    /// The size that was asked for, if one was.
    pub makes: Option<MakesView>,
    /// The parts, exactly.
    pub parts: Vec<PartView>,
    /// What they make.
    #[serde(rename = "yield")]
    pub yields: AmountView,
    /// Properties of that.
    pub properties: Properties,
    /// What the rounded sheet makes: this is what is printed.
    pub as_weighed: BatchView,
    /// How sure the headline numbers are.
    pub doubt: UncertaintyViews,
    /// Whether the strength is good enough for a label, by tolerance.
    pub label_tolerance: Vec<label_grade::LabelGrade>,
    /// The stages as they are worked.
    pub stages: Vec<StageView>,
    /// Other cards that go in.
    pub inner: Vec<InnerView>,
    /// How the bottles are filled, if bottles were asked for.
    pub fill: Option<bench::Fills>,
    /// How it is made by the jug, if it is a spirit that is thinned.
    pub make_up: Option<bench::MakeUp>,
    /// What is in the pan, before any of it is left behind.
    pub pan: AmountView,
    /// The smallest usual vessel that holds the batch, litres.
    pub vessel_l: Option<f64>,
    /// Acids that are dosed in two goes, with a taste between.
    pub dosing: Vec<dosing::Dose>,
    /// What the maker can check.
    pub checks: bench::Checks,
    /// What to add when the reading is off.
    pub fixes: Vec<bench::Fix>,
    /// Whether it stays clear, store by store.
    pub crystals: Option<crystals::Crystals>,
    /// One measure.
    pub serving: Option<serving::Serving>,
    /// The method, a step a line.
    pub method: Vec<String>,
    /// What was taken for granted.
    pub assumed: Vec<String>,
    /// Where the card comes from.
    pub source: Option<String>,
    /// What else the maker should know.
    pub note: Option<String>,
    /// The answer of the pH and water activity tables.
    pub screen: Option<ScreenView>,
    /// What the sheet says of the date.
    pub keeping: Option<KeepingView>,
    /// The answer for the store that it is planned for, whole.
    pub date: Option<StoreView>,
    /// Its readings in words, where they count.
    pub readings: Option<String>,
    /// Its allergens.
    #[serde(flatten)]
    pub allergens: AllergenView,
    /// Every caution of that store, and what is carried out of inner cards.
    pub cautions: Vec<CautionView>,
    /// What has to stand beside every date.
    pub standing_note: &'static str,
}

/// A size.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
#[expect(missing_docs, reason = "the units are the names")]
pub enum MakesView {
    Volume { volume_ml: f64 },
    Mass { mass_g: f64 },
    Bottles { count: f64, each_ml: f64 },
}

/// Another card that goes in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct InnerView {
    /// Its name.
    pub formula: String,
    /// Grams, exactly.
    pub mass_g: f64,
    /// Grams for the rounded sheet.
    pub weighed_g: f64,
}

/// The date where it is planned to be kept, as the sheet says it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct KeepingView {
    /// The store.
    pub store: String,
    /// The last day.
    pub date: Option<NaiveDate>,
    /// The rule that decided.
    pub rule: Option<String>,
    /// Why there is no date.
    pub refused: Vec<String>,
    /// The answer in a line.
    pub says: String,
}

impl From<&StoreView> for KeepingView {
    fn from(store: &StoreView) -> Self {
        Self {
            store: store.store.clone(),
            date: store.date,
            rule: store.decided_by.as_ref().map(ToString::to_string),
            refused: store.refusals.clone(),
            says: store.says.clone(),
        }
    }
}

impl View for SolveView {
    const VERB: &'static str = "solve";
    const KEYS: &'static str = "makes parts yield properties as_weighed doubt label_tolerance stages inner fill make_up pan vessel_l dosing checks fixes crystals serving method assumed source note screen keeping date readings allergens allergens_not_stated allergens_not_stated_for allergens_doubted cautions standing_note";

    fn stops(&self) -> bool {
        self.cautions.iter().any(CautionView::stops)
    }
}

impl SolveView {
    /// Puts the sheet of a solved card together, with what could not be said and why. `makes` is the size that was asked
    /// for, at `at` the properties are given, on `made` the batch is made.
    pub fn new(
        card: &Card,
        exact: &Solved,
        house: &House,
        makes: Option<Makes>,
        at: Temperature,
        made: NaiveDate,
    ) -> (Self, Vec<Diagnostic>) {
        let instruments = &house.settings.instruments;
        let hows = weighing::ways(exact, instruments);
        let weighed = &weighing::as_weighed(exact, &hows);
        let span = card.name.span;
        let acidity = acids::of(exact, instruments);
        let altitude = house.settings.altitude.unwrap_or_default();
        let properties_of = |solved: &Solved, at| {
            let subject = Subject::new(solved.bottled(), at, altitude, &acidity, span);
            if solved.is_dry() { Properties::of_dried(subject) } else { Properties::of(subject) }
        };
        let (properties, mut found) = properties_of(exact, at);
        let (as_weighed, _) = properties_of(weighed, at);
        let (at_20, _) = properties_of(weighed, celsius(20.0));
        let uncertainties = uncertainty::of_headlines(exact, instruments);
        let markets: Vec<Market> = house.settings.markets.clone();
        let (judged, of_judgement) = assessment::assess(exact, house, made, Which::Planned, Draws::default());
        found.extend(of_judgement);
        found.extend(law::of_class(card, exact));
        found.extend(check_size(exact, instruments).map(|d| d.at(span, "of this product")));
        found.extend(crystals::over_saturated(exact.bottled()).map(|d| d.at(span, "of this product")));
        let planned = judged.stores.get(judged.planned).map(|store| StoreView::new(store, &judged.cautions));
        let view = Self {
            makes: makes.map(MakesView::from),
            parts: parts(exact),
            yields: AmountView::made(exact),
            label_tolerance: label_grade::grades(weighed.bottled(), as_weighed.abv_pct, &uncertainties, &markets),
            properties,
            as_weighed: BatchView { parts: parts(weighed), yields: AmountView::made(weighed), properties: as_weighed },
            doubt: UncertaintyViews(uncertainties.iter().map(UncertaintyView::from).collect()),
            stages: stage::stages(exact, weighed, &hows, instruments),
            inner: inner(exact, weighed),
            fill: makes.and_then(|makes| bench::Fills::of(&makes, weighed)),
            make_up: bench::MakeUp::of(weighed),
            pan: AmountView::of_card(&in_the_pan(weighed), weighed),
            vessel_l: vessel_l(weighed),
            dosing: dosing::doses(card, weighed),
            checks: bench::Checks::of(weighed, &at_20),
            fixes: bench::fixes(weighed, &at_20),
            crystals: crystals::Crystals::of(weighed, house),
            serving: card.serving.map(|s| serving::Serving::of(in_millilitres(s.value), &at_20)),
            method: card.steps.clone(),
            assumed: assumed::assumed(card, exact, house),
            source: card.source.clone(),
            note: card.notes.clone(),
            screen: ScreenView::of_judged(&judged),
            keeping: planned.as_ref().map(KeepingView::from),
            date: planned,
            readings: judged.readings.clone(),
            allergens: AllergenView::from(&judged),
            cautions: CautionView::all(&judged.cautions),
            standing_note: STANDING_NOTE,
        };
        (view, found.into_iter().map(|d| d.in_file(&card.file)).collect())
    }
}

impl From<Makes> for MakesView {
    fn from(makes: Makes) -> Self {
        match makes {
            Makes::Volume(volume) => Self::Volume { volume_ml: in_millilitres(volume) },
            Makes::Mass(mass) => Self::Mass { mass_g: in_grams(mass) },
            Makes::Bottles { count, each } => Self::Bottles { count, each_ml: in_millilitres(each) },
        }
    }
}

fn inner(exact: &Solved, weighed: &Solved) -> Vec<InnerView> {
    let both = exact.inner.iter().zip(&weighed.inner);
    both.map(|(inner, weighed)| InnerView {
        formula: inner.card.name.clone(),
        mass_g: inner.grams,
        weighed_g: weighed.grams,
    })
    .collect()
}

/// The liquid in the pan: heated and strained, before any of it is left behind.
fn in_the_pan(solved: &Solved) -> Mixture {
    let course = &solved.last().course;
    course.out.per_gram() * (course.out.total_grams() + course.left_behind_g)
}
