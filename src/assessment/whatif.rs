//! What one change would buy: the card dated again with one thing different, by the same rules and the same draws.
//!
//! A change counts only where the whole judgement, parts and cautions included, then gives a longer date. Nothing is
//! said of the taste.

use std::sync::Arc;

use chrono::NaiveDate;

use crate::card::{Heated, TargetKind};
use crate::diagnostic::Spanned;
use crate::house::House;
use crate::mixture::{Component, Mixture};
use uom::si::time::minute;

use crate::properties::value_of;
use crate::safety::Caution;
use crate::shelf_life::Draws;
use crate::shelf_life::calendar::in_words;
use crate::shelf_life::screen::ScreenClass;
use crate::solver::Solved;
use crate::units::{Time, celsius};
use crate::vocabulary::ProductClass;

use super::{Assessment, DatedStore, Which};

/// Above this no tables ask for acid to lie lower (FDA Food Code 2022, 1-201.10(B)): 4.2 with a meter's uncertainty of 0.1 to 0.2.
const SOUR_PH: f64 = 4.0;
/// Where the tables of the Food Code ask no pH of a syrup of white sugar (water activity 0.88 and its uncertainty), °Bx.
const RICH_BRIX: f64 = 65.0;
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

/// The changes worth a word for a product that was dated.
pub fn what_if(solved: &Solved, house: &House, dated: &Assessment, draws: Draws) -> Vec<WhatIf> {
    let liquid = solved.bottled();
    if liquid.is_dry() || value_of(TargetKind::Abv, liquid).is_none_or(|abv| abv >= 20.0) {
        return Vec::new();
    }
    let held = dated.screen.is_some_and(|s| s.class == ScreenClass::Pa);
    let sober = liquid.grams_of(Component::Ethanol) <= 0.0;
    let unread = solved.card.measured.ph.is_none();
    let sour = solved.card.measured.ph.is_some_and(|ph| ph.value <= SOUR_PH);
    let heated = solved.card.last.heated.is_some();
    let tries = [
        sweetened(solved).filter(|_| sober),
        Some(acid_by_meter(solved)).filter(|_| !sour),
        Some(hot_bottled(solved)).filter(|_| sober && !heated && solved.card.keep.opened != Some(true)),
    ];
    let mut found = Vec::new();
    for (words, changed, by_acid) in tries.into_iter().flatten() {
        let (then, _) = super::assess(&changed, house, dated.lot.clone(), Which::All, draws);
        let buys: Vec<LongerDate> = dated.stores.iter().zip(&then.stores).filter_map(bought).collect();
        let bought = !buys.is_empty();
        if bought || (by_acid && held) {
            found.push(WhatIf { words, buys });
        }
        if bought && by_acid && unread {
            found.push(WhatIf {
                words: "5 g/L more citric acid is added and no meter reads it".to_owned(),
                buys: Vec::new(),
            });
        }
    }
    found
}

fn bought((now, then): (&DatedStore, &DatedStore)) -> Option<LongerDate> {
    let (days, date) = then.days.zip(then.date)?;
    let stopped = then.cautions.iter().any(Caution::stops);
    let longer = now.days.is_none_or(|before| days > before && in_words(days) != in_words(before));
    (longer && !stopped).then(|| LongerDate { store: now.store.name.clone(), days, date, instead_of: now.days })
}

/// The words, the card so changed, and whether it is by acid: of that makers expect much, so it is said where it buys nothing.
type Try = (String, Solved, bool);

fn with_liquid(solved: &Solved, change: impl FnOnce(&mut Mixture)) -> Solved {
    let mut changed = solved.clone();
    if let Some(last) = changed.stages.last_mut() {
        change(&mut last.course.out);
    }
    changed
}

/// White sugar stirred in until 65 °Bx; a plain syrup then is a rich one.
fn sweetened(solved: &Solved) -> Option<Try> {
    let liquid = solved.bottled();
    let brix = value_of(TargetKind::Brix, liquid).filter(|brix| *brix < RICH_BRIX - 0.5)?;
    // A hair more, so that rounding does not leave it below the line.
    let share = (RICH_BRIX + 1e-6) / 100.0;
    let sugar = liquid.total_grams() * (share - brix / 100.0) / (1.0 - share);
    let mut changed = with_liquid(solved, |out| {
        out.set_grams(Component::Sucrose, out.grams_of(Component::Sucrose) + sugar);
    });
    let card = Arc::make_mut(&mut changed.card);
    card.measured.brix = None;
    let plain = card.class.as_mut().filter(|class| class.value == ProductClass::PlainSyrup);
    if let Some(class) = plain {
        class.value = ProductClass::RichSyrup.into();
    }
    Some((format!("it had 65 °Bx instead of {brix:.0}"), changed, false))
}

fn acid_by_meter(solved: &Solved) -> Try {
    let mut changed = solved.clone();
    let card = Arc::make_mut(&mut changed.card);
    card.measured.ph = Some(Spanned { value: SOUR_PH, span: card.name.span });
    ("a calibrated meter reads pH 4.0 (add acid until it does)".to_owned(), changed, true)
}

fn hot_bottled(solved: &Solved) -> Try {
    let mut changed = solved.clone();
    let card = Arc::make_mut(&mut changed.card);
    let heated = Heated { to: celsius(HOLD.0), hold: Some(Time::new::<minute>(HOLD.1)) };
    card.last.heated = Some(Spanned { value: heated, span: card.name.span });
    (card.keep.hot_filled, card.keep.closed) = (Some(true), Some(true));
    ("it is held at 90 °C for 10 min, filled hot and closed".to_owned(), changed, false)
}
