//! The plain inputs of a date. What is not known is `None` and counts as the worst it could be.

use super::delle;
use super::heat::Curve;
use crate::units::{Abv, Brix, MassDensity, Ph, WaterActivity, grams_per_litre};
use crate::vocabulary::ProductClass;

/// A value and its uncertainty, one-sided, in the same unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UncertainValue<Q> {
    /// The value.
    pub value: Q,
    /// How far off it may be.
    pub uncertainty: f64,
}

/// What is in it, as far as a date cares.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Contents {
    /// Fresh juice that was not heated.
    pub juice: bool,
    /// Such juice is half of its weight or more.
    pub mostly_juice: bool,
    /// Solids of fruit or wine: food for lactic bacteria.
    pub fruit_or_wine: bool,
    /// Fresh herbs, garlic or other plant solids.
    pub garlic_or_herb: bool,
    /// Nuts.
    pub nut: bool,
    /// Milk or cream.
    pub dairy: bool,
    /// Egg.
    pub egg: bool,
    /// Egg that was not pasteurised, neither before nor here.
    pub raw_egg: bool,
    /// Cooked starch.
    pub cooked_starch: bool,
}

impl Contents {
    /// Everything that could be in it.
    pub(crate) const WORST: Self = Self {
        juice: true,
        mostly_juice: true,
        fruit_or_wine: true,
        garlic_or_herb: true,
        nut: true,
        dairy: true,
        egg: true,
        raw_egg: true,
        cooked_starch: true,
    };
}

/// How it is made and bottled.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Treatment {
    /// Dissolved or boiled hot and put in a clean bottle.
    pub hot_dissolved: bool,
    /// The heating of the finished product.
    pub heating: Option<Curve>,
    /// Filled hot.
    pub hot_filled: Option<bool>,
    /// Closed at once, so that nothing gets in.
    pub closed: Option<bool>,
    /// Has been opened.
    pub opened: bool,
}

impl Treatment {
    /// Filled hot, closed, and not opened since.
    pub(crate) fn hot_bottled(&self) -> bool {
        self.hot_filled == Some(true) && self.closed == Some(true) && !self.opened
    }
}

/// A product to be dated.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Product {
    /// pH of the finished product.
    pub ph: Option<UncertainValue<Ph>>,
    /// Its water activity.
    pub water_activity: Option<UncertainValue<WaterActivity>>,
    /// Its strength; unknown counts as none.
    pub abv: Option<Abv>,
    /// Sugar per volume, for Delle units; unknown counts as none.
    pub sugar: Option<MassDensity>,
    /// Dissolved solids.
    pub brix: Option<Brix>,
    /// The class that chooses its ceiling (see [`super::ceilings`]).
    pub class: Option<ProductClass>,
    /// What is in it; unknown counts as everything.
    pub contents: Option<Contents>,
    /// How it is made.
    pub process: Treatment,
    /// How many different preservatives were added: one earns nothing, several refuse a date.
    pub preservatives: u8,
    /// The earliest age in days at which a lot of it showed gas, haze, film, mould or a swollen cap.
    pub spoiled_lot_days: Option<f64>,
}

impl Product {
    /// ABV in % vol, unknown as none.
    pub(crate) fn abv_pct(&self) -> f64 {
        self.abv.map_or(0.0, Abv::get)
    }

    /// What is in it, unknown as everything.
    pub(crate) fn contents_or_worst(&self) -> Contents {
        self.contents.unwrap_or(Contents::WORST)
    }

    /// The pH at its cautious end.
    pub(crate) fn cautious_ph(&self) -> Option<f64> {
        self.ph.and_then(|ph| upper(ph.value.get(), ph.uncertainty))
    }

    /// The water activity at its cautious end.
    pub(crate) fn cautious_aw(&self) -> Option<f64> {
        self.water_activity.and_then(|aw| upper(aw.value.get(), aw.uncertainty)).map(|aw| aw.min(1.0))
    }

    /// Delle units.
    pub fn delle_units(&self) -> f64 {
        let (none, zero) = (grams_per_litre(0.0), Abv::new(0.0));
        self.abv.or(zero).map_or(0.0, |abv| delle::units(self.sugar.unwrap_or(none), abv))
    }

    /// Whether its class is one that lives by being dry.
    pub(crate) fn lives_by_dryness(&self) -> bool {
        self.class == Some(ProductClass::DriedFruit)
    }
}

/// The upper end; an uncertainty that is no number makes the value unknown.
fn upper(value: f64, uncertainty: f64) -> Option<f64> {
    (uncertainty.is_finite() && uncertainty >= 0.0).then_some(value + uncertainty)
}
