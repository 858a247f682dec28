//! What the maker can check at the bench, and what to do when it is off; how it is dosed, bottled and served.

use serde::Serialize;

use crate::card::{Amount, Card, Makes, TargetKind};
use crate::larder::{Form, Ingredient};
use crate::mixture::{Component, Mixture, nutrition};
use crate::properties::{Properties, amount_for};
use crate::solver::resolve::Material;
use crate::solver::target::{g_per_ml, volume_ml};
use crate::solver::{Solved, SolvedPart};
use crate::units::{Abv, celsius, in_millilitres, millilitres};
use crate::vocabulary::Tag;

/// Pure alcohol at 20 °C in a liquid, millilitres.
pub(super) fn pure_alcohol_ml(liquid: &Mixture) -> f64 {
    amount_for(TargetKind::Abv, liquid)
}

/// One line of the fix table: what to add to the batch when the reading is off.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct Fix {
    /// By how many °Bx the reading is off: above zero is too sweet.
    pub(crate) off_brix: f64,
    /// What is added: water, or the part that carries the solids.
    pub(crate) of: String,
    pub(crate) add_g: f64,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub(crate) struct Checks {
    pub(crate) hundred_ml_g: Option<f64>,
    pub(crate) refractometer_brix: Option<f64>,
    /// Thinned 1:1 by weight with water.
    pub(crate) refractometer_brix_thinned: Option<f64>,
}

impl Checks {
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

/// Beyond this share of the batch nothing is put right by adding: something went wrong that has to be found (ours).
const MOST_ADDED: f64 = 0.2;

/// What to add when the reading is off. Only where Brix is what the card asks for, without spirit, whose reading is not its
/// sugar.
pub(super) fn fixes(weighed: &Solved, at_20: &Properties) -> Vec<Fix> {
    let batch = weighed.bottled();
    let asked = weighed.targets.iter().any(|(kind, _)| *kind == TargetKind::Brix);
    let syrup = asked && batch.grams_of(Component::Ethanol) == 0.0;
    let Some(brix) = at_20.brix.filter(|_| syrup) else { return Vec::new() };
    let parts = || weighed.last().parts.iter().filter(|p| p.mass_g > 0.0 && p.feed.holds.is_none());
    let brix_of = |part: &SolvedPart| part.feed.per_gram.brix().get();
    let richest = parts().max_by(|a, b| brix_of(a).total_cmp(&brix_of(b)));
    let water = parts().find(|p| p.is_water()).map_or("water", |p| &p.label);
    let fix = |off_brix: f64| {
        let (of, add_g) = match off_brix > 0.0 {
            true => (water, fix_g(batch.total_grams(), brix, off_brix, 0.0)),
            false => richest.map(|p| (p.label.as_str(), fix_g(batch.total_grams(), brix, off_brix, brix_of(p))))?,
        };
        let bears = add_g > 0.0 && add_g <= MOST_ADDED * batch.total_grams();
        bears.then(|| Fix { off_brix, of: of.to_owned(), add_g })
    };
    [2.0, 1.0, -1.0, -2.0].into_iter().filter_map(fix).collect()
}

/// Grams of a part of so many °Bx that bring `grams` of a syrup that is off by `off` back to `brix`: the balance of solids
/// and mass.
fn fix_g(grams: f64, brix: f64, off: f64, part_brix: f64) -> f64 {
    grams * off / (brix - part_brix)
}

/// How a batch with spirit is made by the jug: spirit and water take less room together than apart, so the
/// water is not measured but the whole is made up to its volume.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct MakeUp {
    pub(crate) with: String,
    /// To this volume at 20 °C, millilitres.
    pub(crate) to_ml: f64,
    /// How much less that is than the volumes that are poured, where all parts are poured.
    pub(crate) shrinks_ml: Option<f64>,
}

impl MakeUp {
    /// For a last stage with spirit, thinned with water, from which nothing goes up or is strained out.
    pub(super) fn of(weighed: &Solved) -> Option<Self> {
        let last = weighed.last();
        let stays = last.course.evaporated_g == 0.0 && last.parts.iter().all(|p| p.feed.holds.is_none());
        let has_spirit = last.course.combined.grams_of(Component::Ethanol) > 0.0;
        let water = last.parts.iter().find(|p| p.mass_g > 0.0 && p.is_water() && p.melts.is_none())?;
        let to_ml = volume_ml(&last.course.combined).filter(|_| stays && has_spirit)?;
        let poured: Option<f64> = last.parts.iter().map(|p| p.volume_ml()).sum();
        Some(Self { with: water.label.clone(), to_ml, shrinks_ml: poured.map(|ml| ml - to_ml) })
    }
}

/// What is counted: "100 pieces, one about 0.6 g".
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(crate) struct Pieces {
    /// How many the card says that it makes.
    pub(crate) count: f64,
    /// What one weighs, grams, where they are alike.
    pub(crate) each_g: f64,
}

/// How the bottles are filled.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fills {
    /// How many.
    pub count: f64,
    /// What one holds, millilitres at 20 °C.
    pub(crate) each_ml: f64,
    /// What that weighs, grams: fill on the scale.
    pub each_g: f64,
    /// How many of them the batch fills.
    pub full: f64,
    /// What is then left, millilitres.
    pub left_ml: f64,
}

impl Fills {
    /// The fill weight, if bottles were asked for and the density is known.
    pub(super) fn of(makes: &Makes, weighed: &Solved) -> Option<Self> {
        let Makes::Bottles { count, each } = makes else { return None };
        let each_ml = in_millilitres(*each);
        // Rounding to the scale takes a few grams from the last one: it is full all the same.
        const ENOUGH: f64 = 0.98;
        let made_ml = volume_ml(weighed.bottled())?;
        let full = (made_ml / each_ml + 1.0 - ENOUGH).floor().min(*count);
        let left_ml = (made_ml - full * each_ml).max(0.0);
        Some(Self { count: *count, each_ml, each_g: each_ml * g_per_ml(weighed.bottled())?, full, left_ml })
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(crate) struct Serving {
    pub(crate) ml: f64,
    pub(crate) sugar_g: Option<f64>,
    pub(crate) uk_units: Option<f64>,
    pub(crate) us_drinks: Option<f64>,
    pub(crate) energy_kj: Option<f64>,
    pub(crate) energy_kcal: Option<f64>,
}

impl Serving {
    pub(super) fn of(ml: f64, at_20: &Properties) -> Self {
        let strength = at_20.abv_pct.and_then(Abv::new);
        let in_it = |x: Option<f64>, per_ml: f64| x.map(|x| x * ml / per_ml);
        Self {
            ml,
            sugar_g: in_it(at_20.sugar_g_l, 1000.0),
            uk_units: strength.map(|abv| nutrition::uk_units(millilitres(ml), abv)),
            us_drinks: strength.map(|abv| nutrition::us_standard_drinks(millilitres(ml), abv)),
            energy_kj: in_it(at_20.energy_kj_100ml, 100.0),
            energy_kcal: in_it(at_20.energy_kcal_100ml, 100.0),
        }
    }
}

/// The share that goes in before anybody tastes: common practice, no source. Juices differ by more than a tenth.
const FIRST: f64 = 0.9;

/// One acid.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Dose {
    /// The part as the card calls it.
    pub of: String,
    /// All of it, grams.
    pub mass_g: f64,
    pub(crate) first_g: f64,
    /// What each litre of the juice takes of it, grams: the volume that it adds itself is counted.
    pub g_per_litre_of_juice: Option<f64>,
}

pub(super) fn doses(card: &Card, weighed: &Solved) -> Vec<Dose> {
    let parts = || weighed.last().parts.iter().zip(&card.last.parts).filter(|(_, written)| !written.is_strained());
    let juice_ml: Vec<_> = parts().filter(|(p, _)| is_juice(p)).map(|(p, _)| p.volume_ml()).collect();
    if juice_ml.is_empty() {
        return Vec::new();
    }
    let litres = juice_ml.into_iter().sum::<Option<f64>>().map(|ml| ml / 1000.0).filter(|l| *l > 0.0);
    let acid = |part: &SolvedPart| part.found.per_gram.is_acid();
    let in_ratio = |amount: Amount| matches!(amount, Amount::Parts { .. });
    let blend = card.last.parts.iter().zip(&weighed.last().parts).all(|(w, p)| !in_ratio(w.amount.value) || acid(p));
    parts()
        .filter(|(p, w)| acid(p) && (p.solved || (blend && in_ratio(w.amount.value))))
        .map(|(p, _)| Dose {
            of: p.label.clone(),
            mass_g: p.mass_g,
            first_g: FIRST * p.mass_g,
            g_per_litre_of_juice: litres.map(|l| p.mass_g / l),
        })
        .collect()
}

fn is_juice(part: &SolvedPart) -> bool {
    let tagged = |i: &Ingredient, tag: Tag| i.tags.iter().any(|t| *t == tag);
    match &part.found.what {
        Material::Ingredient(i) => tagged(i, Tag::RawJuice) || (tagged(i, Tag::Citrus) && i.form == Form::Liquid),
        Material::Stage(_) | Material::Card(_) => false,
    }
}
