//! What one change would buy: the card dated again with one thing different, by the same rules and the same draws.
//!
//! A change counts only where the whole judgement, parts and cautions included, then gives a longer date. Nothing is
//! said of the taste.

use std::sync::Arc;

use chrono::NaiveDate;

use crate::card::{Heated, TargetKind};
use crate::diagnostic::Spanned;
use crate::house::House;
use crate::input::key;
use crate::instruments::ph_reading::PhInstrument;
use crate::mixture::{Component, Mixture};
use uom::si::time::minute;

use crate::properties::value_of;
use crate::safety::Caution;
use crate::shelf_life::Draws;
use crate::solver::Solved;
use crate::units::{Time, celsius, in_kg_per_m3};
use crate::vocabulary::{Kind, PhBy};

use super::{Assessment, DatedStore, Which};

/// Above this the tables ask for acid to lie lower (FDA Food Code 2022, 1-201.10(B)): 4.2 less the doubt of a calibrated meter.
const SOUR_PH: f64 = 4.0;
/// What a pH with its doubt may be at the most: below 4.2, from where the tables ask more (as [`SOUR_PH`]; the tenth below it is ours).
const SOUR_UP: f64 = 4.1;
/// What earns a drink the name of a shrub: this pH at the most, and so much acetic acid, g per 100 g (ours, as `class.rs` has them).
const SHRUB_UP: f64 = 3.6;
const SHRUB_ACETIC: f64 = 1.0;
/// Citric acid that is offered: tastes bear up to 3 g/L (common practice, no source).
const ACID_G_L: f64 = 2.0;
/// From here a syrup may well be made rich (ours).
const SWEET_BRIX: f64 = 45.0;
/// A rich syrup, °Bx: its water activity is below 0.88 with its doubt.
const RICH_BRIX: f64 = 65.0;
/// Where a stage is put cold (FDA Food Code 2022, 3-501.16: 5 °C at most).
const FRIDGE_C: f64 = 4.0;
/// A hold for any pH: 10 min at 90 °C (ECFF/FSA: six decades of cold-growing botulinum, the most that a pan gives).
const HOLD: (f64, f64) = (90.0, 10.0);

/// One change, and the stores where it would buy time; none: no credit.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct WhatIf {
    /// What is changed, to follow "if".
    #[serde(rename = "change")]
    pub words: String,
    /// What it buys.
    pub buys: Vec<LongerDate>,
}

/// A longer date in one store.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct LongerDate {
    /// The store.
    pub store: String,
    /// Days with the change.
    pub days: u32,
    /// The last day with the change.
    pub date: NaiveDate,
    /// Days without it; `None` where there is no date.
    #[serde(rename = "instead_of_days")]
    pub instead_of: Option<u32>,
}

/// The changes worth a word for a product that was dated: what its taste can bear, from the same engine.
pub fn what_if(solved: &Solved, house: &House, dated: &Assessment, draws: Draws) -> Vec<WhatIf> {
    let liquid = solved.bottled();
    if dated.product.contents.dried || dated.hurdles.abv >= 20.0 {
        return Vec::new();
    }
    let unread = solved.card.measured.ph.is_none() && dated.hurdles.ph_up.is_none_or(|ph| ph > SOUR_PH);
    let sober = liquid.grams_of(Component::Ethanol) <= 0.0;
    let heated = solved.card.last.heated.is_some();
    let tries = [
        stood_cold(solved),
        Some(soured(solved)).filter(|_| dated.hurdles.ph_up.is_none_or(|ph| ph > SOUR_PH)),
        sweetened(solved).filter(|_| sober),
        Some(hot_bottled(solved)).filter(|_| sober && !heated && solved.card.keep.opened != Some(true)),
        Some(read_by_meter(solved, SOUR_UP)).filter(|_| unread && dated.hurdles.control()),
        Some(read_by_meter(solved, SHRUB_UP)).filter(|_| {
            let is_open = solved.card.measured.ph.is_none() && dated.hurdles.ph_up.is_none_or(|ph| ph > SHRUB_UP);
            is_open && sober && !dated.hurdles.control() && dated.product.acetic_pct >= SHRUB_ACETIC
        }),
        strained_out(solved),
    ];
    let mut found = Vec::new();
    for (words, changed) in tries.into_iter().flatten() {
        let (then, _) = super::assess(&changed, house, dated.lot.clone(), Which::All, draws);
        let buys: Vec<LongerDate> = dated.stores.iter().zip(&then.stores).filter_map(bought).collect();
        if !buys.is_empty() {
            found.push(WhatIf { words, buys });
        }
    }
    found
}

fn bought((now, then): (&DatedStore, &DatedStore)) -> Option<LongerDate> {
    let (days, date) = then.days.zip(then.date)?;
    let stopped = then.cautions.iter().any(Caution::stops);
    let longer = now.days.is_none_or(|before| days > before && worth_telling(days) != worth_telling(before));
    (longer && !stopped).then(|| LongerDate { store: now.store.name.clone(), days, date, instead_of: now.days })
}

/// A date that moves by less than a week, once it is longer than two, is not worth a change of the recipe (ours).
fn worth_telling(days: u32) -> u32 {
    if days < 14 { days } else { 14 + days / 7 }
}

/// The words, and the card so changed.
type Try = (String, Solved);

fn with_liquid(solved: &Solved, change: impl FnOnce(&mut Mixture)) -> Solved {
    let mut changed = solved.clone();
    if let Some(last) = changed.stages.last_mut() {
        change(&mut last.course.out);
    }
    changed
}

/// The stages of which nobody says where they stand, in the fridge.
fn stood_cold(solved: &Solved) -> Option<Try> {
    let mut changed = solved.clone();
    let card = Arc::make_mut(&mut changed.card);
    let mut names = Vec::new();
    for stage in card.stages.iter_mut().chain([&mut card.last]).filter(|s| s.takes.is_some() && s.at.is_none()) {
        stage.at = Some(celsius(FRIDGE_C));
        names.push(stage.name.as_ref().map_or("it", |name| &name.value).to_owned());
    }
    let stands = if names.len() == 1 { "stands" } else { "stand" };
    let words = format!("{} {stands} at 4 °C meanwhile (at = \"4 °C\")", names.join(" and "));
    (!names.is_empty()).then_some((words, changed))
}

/// Citric acid that hardly any taste minds.
fn soured(solved: &Solved) -> Try {
    let litres =
        solved.bottled().density(celsius(20.0)).map_or(0.0, |d| solved.bottled().total_grams() / in_kg_per_m3(d.value));
    let mut changed = with_liquid(solved, |out| {
        out.set_grams(Component::Citric, out.grams_of(Component::Citric) + ACID_G_L * litres);
    });
    let card = Arc::make_mut(&mut changed.card);
    (card.measured.ph, card.measured.acid) = (None, None);
    (format!("{ACID_G_L:.0} g/L citric acid more"), changed)
}

/// White sugar stirred in until 65 °Bx, where it is not far from it.
fn sweetened(solved: &Solved) -> Option<Try> {
    let liquid = solved.bottled();
    let brix = value_of(TargetKind::Brix, liquid).filter(|brix| (SWEET_BRIX..RICH_BRIX - 0.5).contains(brix))?;
    // A hair more, so that rounding does not leave it below the line.
    let share = (RICH_BRIX + 1e-6) / 100.0;
    let sugar = liquid.total_grams() * (share - brix / 100.0) / (1.0 - share);
    let mut changed = with_liquid(solved, |out| {
        out.set_grams(Component::Sucrose, out.grams_of(Component::Sucrose) + sugar);
    });
    Arc::make_mut(&mut changed.card).measured.brix = None;
    Some((format!("65 °Bx instead of {brix:.0}"), changed))
}

/// The highest reading that shows so much.
fn read_by_meter(solved: &Solved, up: f64) -> Try {
    let value = |kind| value_of(kind, solved.bottled()).unwrap_or(0.0);
    let by = PhInstrument::Meter { calibrated: true };
    let most = up - by.doubt(0.0, value(TargetKind::Brix), value(TargetKind::Abv));
    // as a meter shows it: rounded up it would not earn what is promised
    let ph = (most * 10.0).floor() / 10.0;
    let mut changed = solved.clone();
    let card = Arc::make_mut(&mut changed.card);
    card.measured.ph = Some(Spanned { value: ph, span: card.name.span });
    (card.measured.ph_by, card.measured.calibrated, card.measured.on) = (Some(PhBy::Meter), true, None);
    (format!("a calibrated meter reads pH {ph:.1} or less"), changed)
}

/// Fruit of which nobody says that it is strained out again counts as pressed.
fn strained_out(solved: &Solved) -> Option<Try> {
    let mut changed = with_liquid(solved, |out| {
        Component::UNDISSOLVED.iter().for_each(|&of| out.set_grams(of, 0.0));
    });
    let mut named = Vec::new();
    for part in changed.stages.iter_mut().flat_map(|stage| &mut stage.parts) {
        let is_fruit = part.found.what.ingredient().is_some_and(|i| i.kind == Some(Kind::Fruit));
        if is_fruit && part.feed.holds.is_none() {
            part.feed.holds = Some(0.0);
            named.push(format!("{} = {{ …, strained = true }}", key(&part.label)));
        }
    }
    (!named.is_empty()).then(|| (format!("the fruit is strained out again ({})", named.join(", ")), changed))
}

fn hot_bottled(solved: &Solved) -> Try {
    let mut changed = solved.clone();
    let card = Arc::make_mut(&mut changed.card);
    let heated = Heated { to: celsius(HOLD.0), hold: Some(Time::new::<minute>(HOLD.1)), bubbles: None };
    card.last.heated = Some(Spanned { value: heated, span: card.name.span });
    (card.keep.hot_filled, card.keep.closed) = (Some(true), Some(true));
    let into = if card.keep.is_hot_in_plastic() { " into glass" } else { "" };
    card.keep.container = None;
    (format!("held at 90 °C for 10 min, filled hot{into} and closed"), changed)
}
