//! What the maker can check at the bench, and what to do when it is off.

use serde::Serialize;

use crate::card::{Makes, TargetKind};
use crate::mixture::{Component, Mixture};
use crate::properties::amount_for;
use crate::solver::Solved;
use crate::solver::target::g_per_ml;
use crate::solver::target::volume_ml;
use crate::units::{celsius, in_millilitres};

use crate::properties::Properties;

/// Pure alcohol at 20 °C in a liquid, millilitres.
pub(super) fn pure_alcohol_ml(liquid: &Mixture) -> f64 {
    amount_for(TargetKind::Abv, liquid)
}

/// One line of the fix table: what to add to the batch when the reading is off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fix {
    /// By how many °Bx the reading is off: above zero is too sweet.
    pub off_brix: f64,
    /// Grams to add: water when too sweet, sugar when too thin.
    pub add_g: f64,
}

/// What the maker can check, at 20 °C.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Checks {
    /// What 100 ml weigh, grams.
    pub hundred_ml_g: Option<f64>,
    /// What a refractometer shows, °Bx.
    pub refractometer_brix: Option<f64>,
    /// What it shows when the batch is thinned 1:1 by weight with water.
    pub refractometer_brix_thinned: Option<f64>,
}

impl Checks {
    /// The checks for what a sheet makes.
    pub(super) fn of(weighed: &Solved, at_20: &Properties) -> Self {
        let thinned = weighed.bottled().per_gram() + Mixture::of(&[(Component::Water, 1.0)]);
        let reading_of = |m: &Mixture| m.refractometer_reading(celsius(20.0)).ok().map(|r| r.value.get());
        Self {
            hundred_ml_g: at_20.density_kg_m3.map(|d| d / 10.0),
            refractometer_brix: at_20.refractometer_brix,
            refractometer_brix_thinned: at_20.refractometer_brix.and_then(|_| reading_of(&thinned)),
        }
    }
}

/// What to add when the reading is off. Empty for spirits, whose reading is not their sugar.
pub(super) fn fixes(weighed: &Solved, at_20: &Properties) -> Vec<Fix> {
    let batch = weighed.bottled();
    let syrup = batch.grams_of(Component::Ethanol) == 0.0;
    let Some(brix) = at_20.brix.filter(|brix| syrup && *brix > 5.0 && *brix < 90.0) else { return Vec::new() };
    let fix = |off_brix| Fix { off_brix, add_g: fix_g(batch.total_grams(), brix, off_brix) };
    [2.0, 1.0, -1.0, -2.0].map(fix).to_vec()
}

/// Grams of water (too sweet) or sugar (too thin) that bring `grams` of a syrup that is off by
/// `off` back to `brix`: solids and total mass balance.
fn fix_g(grams: f64, brix: f64, off: f64) -> f64 {
    if off > 0.0 { grams * off / brix } else { grams * -off / (100.0 - brix) }
}

/// How a batch with spirit is made by the jug: spirit and water take less room together than apart, so the
/// water is not measured but the whole is made up to its volume.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MakeUp {
    /// What the jug is made up with.
    pub with: String,
    /// To this volume at 20 °C, millilitres.
    pub to_ml: f64,
    /// How much less that is than the volumes that are poured, where all parts are poured.
    pub shrinks_ml: Option<f64>,
}

impl MakeUp {
    /// For a last stage with spirit, thinned with water, from which nothing goes up or is strained out.
    pub(super) fn of(weighed: &Solved) -> Option<Self> {
        let last = weighed.last();
        let stays = last.course.evaporated_g == 0.0 && last.parts.iter().all(|p| p.feed.holds.is_none());
        let has_spirit = last.course.combined.grams_of(Component::Ethanol) > 0.0;
        let water = last.parts.iter().find(|p| p.mass_g > 0.0 && p.feed.per_gram.grams_of(Component::Water) == 1.0)?;
        let to_ml = volume_ml(&last.course.combined).filter(|_| stays && has_spirit)?;
        let poured: Option<f64> = last.parts.iter().map(|p| p.volume_ml()).sum();
        Some(Self { with: water.label.clone(), to_ml, shrinks_ml: poured.map(|ml| ml - to_ml) })
    }
}

/// How the bottles are filled.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fills {
    /// How many.
    pub count: f64,
    /// What one holds, millilitres at 20 °C.
    pub each_ml: f64,
    /// What that weighs, grams: fill on the scale.
    pub each_g: f64,
}

impl Fills {
    /// The fill weight, if bottles were asked for and the density is known.
    pub(super) fn of(makes: &Makes, weighed: &Solved) -> Option<Self> {
        let Makes::Bottles { count, each } = makes else { return None };
        let each_ml = in_millilitres(*each);
        Some(Self { count: *count, each_ml, each_g: each_ml * g_per_ml(weighed.bottled())? })
    }
}
