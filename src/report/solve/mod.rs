//! `solve`: the weigh sheet, and what the batch is.

mod acids;
pub(crate) mod assumed;
pub(crate) mod bench;
pub mod crystals;
pub(crate) mod label_grade;
pub mod law;
pub(crate) mod room;
pub(crate) mod stage;

use chrono::NaiveDate;
use serde::Serialize;

use crate::assessment::{self, IdentityQuestion, Which};
use crate::card::{Card, Makes, Stage};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::mixture::Mixture;
use crate::paste::held_to_steps;
use crate::properties::{Properties, Subject};
use crate::safety::{Market, STANDING_NOTE};
use crate::shelf_life::Draws;
use crate::shelf_life::reason::Note;
use crate::solver::vessel::{check_size, vessel_l};
use crate::solver::{Solved, evaporation, weighing};
use crate::uncertainty::{self, Uncertainty};
use crate::units::{Temperature, celsius, in_millilitres};
use crate::vocabulary::MeasureSystem;

use super::caution::CautionView;
use super::cost::BatchCostView;
use super::date::{AllergenView, ScreenView};
use super::guest::{Guest, GuestView};
use super::parts::{AmountView, BatchView, PartView, by_property, parts};
use super::store::{StoreView, said_by_recipe};
use super::{Report, View};

pub(crate) use stage::StageView;

pub(crate) type SolveReport = Report<SolveView>;

/// Everything that is said of one solved card.
#[derive(Clone, Debug, Serialize)]
pub struct SolveView {
    /// The size that was asked for, if one was.
    pub makes: Option<Makes>,
    /// What was chosen where the card leaves room.
    pub(crate) room: Option<room::RoomView>,
    /// By which measures the house works, where it says so.
    pub(crate) measures: Option<MeasureSystem>,
    /// What is counted of it, where the card says so.
    pub(crate) pieces: Option<bench::Pieces>,
    /// The parts, exactly.
    pub parts: Vec<PartView>,
    #[serde(rename = "yield")]
    pub(crate) yields: AmountView,
    /// Properties of that.
    pub properties: Properties,
    /// What the rounded sheet makes: this is what is printed.
    pub as_weighed: BatchView,
    /// How sure the headline numbers are.
    #[serde(serialize_with = "by_property")]
    pub doubt: Vec<Uncertainty>,
    /// Between which strengths it is, % vol, where heat may have driven alcohol off and nobody has read it.
    pub(crate) abv_between_pct: Option<[f64; 2]>,
    pub(crate) label_tolerance: Vec<label_grade::LabelGrade>,
    /// The stages as they are worked.
    pub stages: Vec<StageView>,
    pub(crate) inner: Vec<InnerView>,
    /// How the bottles are filled, if bottles were asked for.
    pub fill: Option<bench::Fills>,
    pub(crate) make_up: Option<bench::MakeUp>,
    pub(crate) pan: AmountView,
    /// The smallest usual vessel that holds the batch, litres.
    pub vessel_l: Option<f64>,
    /// Acids that are dosed in two goes, with a taste between.
    pub dosing: Vec<bench::Dose>,
    pub(crate) checks: bench::Checks,
    pub(crate) fixes: Vec<bench::Fix>,
    /// Whether it stays clear, store by store.
    pub crystals: Option<crystals::Crystals>,
    /// That sugar comes out of it as it stands or where it is kept, in a sentence.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) crystallises: Option<String>,
    pub(crate) serving: Option<bench::Serving>,
    pub(crate) method: Vec<String>,
    pub(crate) assumed: Vec<String>,
    pub(crate) source: Option<String>,
    pub(crate) note: Option<String>,
    /// Of what is bottled ahead: how a guest gets it.
    pub(crate) for_a_guest: Option<String>,
    /// The answer of the pH and water activity tables.
    pub screen: Option<ScreenView>,
    pub(crate) keeping: Option<KeepingView>,
    pub(crate) date: Option<StoreView>,
    /// How long its recipe says that it keeps, beside what the rules give.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) recipe_keeps: Option<String>,
    pub(crate) readings: Option<String>,
    #[serde(flatten)]
    pub(crate) allergens: AllergenView,
    #[serde(flatten)]
    pub(crate) guest: GuestView,
    /// Its ingredients of which nothing says that they are food.
    pub(crate) unidentified: Vec<IdentityQuestion>,
    /// What the steps do and the lines do not say; what else of the work is open.
    pub(crate) steps_ask: Vec<String>,
    pub(crate) cautions: Vec<CautionView>,
    /// Those that the date, the allergens or the card of a part say already.
    pub(crate) cautions_said_elsewhere: Vec<CautionView>,
    pub(crate) standing_note: &'static str,
    /// What it costs, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) cost: Option<Box<BatchCostView>>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct InnerView {
    pub(crate) formula: String,
    /// Grams, exactly.
    pub mass_g: f64,
    pub(crate) weighed_g: f64,
}

/// The date where it is planned to be kept, as the sheet says it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct KeepingView {
    /// The store.
    pub store: String,
    pub(crate) date: Option<NaiveDate>,
    pub(crate) rule: Option<String>,
    pub(crate) refused: Vec<String>,
    pub(crate) says: String,
}

/// Where it is to be used at once, what is known of why, and where the cure is told.
fn with_a_cure(store: &StoreView) -> String {
    let stood_warm = store.notes.iter().flatten().any(|note| *note == Note::StoodWarm);
    let warm = if stood_warm { "; it stood warm: where it did not, at = \"4 °C\"" } else { "" };
    match store.days {
        Some(0) => format!("{}{warm}; what buys days: stillroom date", store.says),
        _ => store.says.clone(),
    }
}

impl From<&StoreView> for KeepingView {
    fn from(store: &StoreView) -> Self {
        Self {
            store: store.store.clone(),
            date: store.date,
            rule: store.decided_by.as_ref().map(ToString::to_string),
            refused: store.refusals.clone(),
            says: with_a_cure(store),
        }
    }
}

impl View for SolveView {
    const VERB: &'static str = "solve";
    const KEYS: &'static str = "makes measures room pieces parts yield properties as_weighed doubt abv_between_pct label_tolerance stages inner fill make_up pan vessel_l dosing checks fixes crystals serving method assumed source note for_a_guest screen keeping date readings allergens allergens_not_stated allergens_not_stated_for allergens_doubted allergens_say allergens_for_a_guest allergens_for_a_guest_not_stated unidentified steps_ask cautions cautions_said_elsewhere standing_note";

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
        let told = assessment::as_told(exact, house);
        let exact = told.as_ref().map_or(exact, |told| &told.solved);
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
        let over_saturated = of_judgement.iter().find(|found| found.code == Code::OverSaturated);
        let over_saturated = over_saturated.map(|found| found.title.clone());
        found.extend(of_judgement);
        found.extend(judged.unidentified.iter().map(IdentityQuestion::diagnostic));
        found.extend(law::of_class(card, exact));
        let mut of_steps = held_to_steps(card, exact, house);
        of_steps.extend(told.as_ref().and_then(|told| told.moved.clone()));
        // what steams off and which curd is kept is asked of the solved card, and the bench has to know it as well
        let of_solved = evaporation::asked(card).chain(assessment::curd_asked(exact));
        let steps_ask =
            of_steps.iter().map(|told| told.title.clone()).chain(of_solved.map(|asked| asked.title)).collect();
        found.extend(of_steps);
        found.extend(check_size(exact, instruments).map(|d| d.at(span, "of this product")));
        let crystals = crystals::Crystals::of(weighed, house);
        let kept_in = judged.stores.get(judged.planned).map(|dated| dated.store.name.as_str());
        let in_store =
            crystals.as_ref().filter(|_| over_saturated.is_none()).and_then(|crystals| crystals.warning(kept_in));
        let crystallises = over_saturated.or_else(|| in_store.as_ref().map(|said| said.title.clone()));
        found.extend(in_store.map(|d| d.at(span, "of this product")));
        let guest = Guest::of(card, house);
        found.extend(guest.of_lots.clone());
        let planned = judged.stores.get(judged.planned).map(|store| StoreView::new(store, &judged.cautions));
        let (cautions, cautions_said_elsewhere) = CautionView::parted(&judged.cautions);
        let abv_between_pct = as_weighed.abv_pct.and_then(|abv| judged.strength_between(abv));
        let stated = as_weighed.abv_pct.filter(|_| abv_between_pct.is_none());
        let view = Self {
            makes,
            room: card.landed.as_ref().map(room::RoomView::from),
            measures: house.settings.measures,
            pieces: card.pieces.map(|count| bench::Pieces { count, each_g: weighed.bottled().total_grams() / count }),
            parts: parts(exact),
            yields: AmountView::made(exact),
            label_tolerance: label_grade::grades(weighed.bottled(), stated, &uncertainties, &markets),
            abv_between_pct,
            properties,
            as_weighed: BatchView { parts: parts(weighed), yields: AmountView::made(weighed), properties: as_weighed },
            doubt: uncertainties,
            stages: stage::stages(exact, weighed, &hows, instruments),
            inner: inner(exact, weighed),
            fill: makes.and_then(|makes| bench::Fills::of(&makes, weighed)),
            make_up: bench::MakeUp::of(weighed),
            pan: AmountView::of_card(&in_the_pan(weighed), weighed),
            vessel_l: vessel_l(weighed),
            dosing: bench::doses(card, weighed),
            checks: bench::Checks::of(weighed, &at_20),
            fixes: bench::fixes(weighed, &at_20),
            crystals,
            crystallises,
            serving: card.serving.map(|s| bench::Serving::of(in_millilitres(s.value), &at_20)),
            method: method(card),
            assumed: assumed::assumed(card, exact, house),
            source: card.source.clone(),
            note: card.notes.clone(),
            for_a_guest: card.for_a_guest.clone(),
            screen: Some(ScreenView::of_judged(&judged)),
            keeping: planned.as_ref().map(KeepingView::from),
            date: planned,
            recipe_keeps: judged.stores.get(judged.planned).and_then(|store| said_by_recipe(card, store)),
            readings: judged.readings.clone(),
            allergens: AllergenView::from(&judged),
            guest: guest.beside_judged(&judged),
            unidentified: judged.unidentified.clone(),
            steps_ask,
            cautions,
            cautions_said_elsewhere,
            standing_note: STANDING_NOTE,
            cost: None,
        };
        (view, found.into_iter().map(|d| d.in_file(&card.file)).collect())
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

/// The steps in the order of the work; the first of a stage says which one it is of.
fn method(card: &Card) -> Vec<String> {
    let of_stage = |stage: &Stage| {
        let name = stage.name.as_ref().map(|name| name.value.clone());
        let heads = name.into_iter().map(Some).chain(std::iter::repeat(None));
        let steps = stage.steps.iter().zip(heads);
        steps
            .map(|(step, head)| head.map_or_else(|| step.clone(), |name| format!("{name}: {step}")))
            .collect::<Vec<_>>()
    };
    card.stages.iter().flat_map(of_stage).chain(card.steps.iter().cloned()).collect()
}
