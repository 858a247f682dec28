//! The plain inputs of a date. What is not known is `None` and counts as the worst it could be.

use super::data::ShelfLifeTables;
use super::delle;
use super::heat::Curve;
use super::screen::{self, Screen, ScreenTable};
use crate::units::{Abv, Brix, MassDensity, Ph, WaterActivity, grams_per_litre};

/// A value and its doubt, one-sided, in the same unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doubted<Q> {
    /// The value.
    pub value: Q,
    /// How far off it may be.
    pub doubt: f64,
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
    pub const WORST: Self = Self {
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
    pub fn hot_bottled(&self) -> bool {
        self.hot_filled == Some(true) && self.closed == Some(true) && !self.opened
    }
}

/// A product to be dated.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Product {
    /// pH of the finished product.
    pub ph: Option<Doubted<Ph>>,
    /// Its water activity.
    pub water_activity: Option<Doubted<WaterActivity>>,
    /// Its strength; unknown counts as none.
    pub abv: Option<Abv>,
    /// Sugar per volume, for Delle units; unknown counts as none.
    pub sugar: Option<MassDensity>,
    /// Dissolved solids.
    pub brix: Option<Brix>,
    /// The class that chooses its ceiling (see [`super::ceilings`]).
    pub class: Option<String>,
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
    pub fn abv_pct(&self) -> f64 {
        self.abv.map_or(0.0, Abv::get)
    }

    /// What is in it, unknown as everything.
    pub fn contents_or_worst(&self) -> Contents {
        self.contents.unwrap_or(Contents::WORST)
    }

    /// The pH at its cautious end.
    pub fn cautious_ph(&self) -> Option<f64> {
        self.ph.and_then(|ph| upper(ph.value.get(), ph.doubt))
    }

    /// The water activity at its cautious end.
    pub fn cautious_aw(&self) -> Option<f64> {
        self.water_activity.and_then(|aw| upper(aw.value.get(), aw.doubt)).map(|aw| aw.min(1.0))
    }

    /// Delle units.
    pub fn delle_units(&self) -> f64 {
        let (none, zero) = (grams_per_litre(0.0), Abv::new(0.0));
        self.abv.or(zero).map_or(0.0, |abv| delle::units(self.sugar.unwrap_or(none), abv))
    }

    /// Whether it was heated as its pH asks for: five decades of the pathogens of acidified food.
    pub fn five_log(&self, tables: &ShelfLifeTables) -> bool {
        let process = tables.heat.for_ph(self.cautious_ph());
        self.process.heating.as_ref().zip(process).is_some_and(|(heating, p)| p.fulfilled(heating) >= 1.0)
    }

    /// Whether it was heated as its pH asks for, then filled hot and closed.
    pub fn pasteurised(&self, tables: &ShelfLifeTables) -> bool {
        self.process.hot_bottled() && self.five_log(tables)
    }

    /// Whether vegetative cells were destroyed and nothing could get in since: what table A asks for. The hold is that of
    /// the 5-log process for its pH where that is milder, else of the most severe of vegetative pathogens.
    fn vegetative_cells_destroyed(&self, tables: &ShelfLifeTables) -> bool {
        let severest = tables.heat.severest_vegetative();
        let heating = self.process.heating.as_ref().zip(severest);
        self.pasteurised(tables) || (self.process.hot_bottled() && heating.is_some_and(|(h, p)| p.fulfilled(h) >= 1.0))
    }

    /// The screen at the cautious corner.
    pub fn screen(&self, tables: &ShelfLifeTables) -> Screen {
        let table = if self.vegetative_cells_destroyed(tables) { ScreenTable::A } else { ScreenTable::B };
        Screen { table, class: screen::look_up(table, self.cautious_ph(), self.cautious_aw()) }
    }

    /// log10 CFU/mL at the start, after any heating, and h0.
    pub fn start(&self, tables: &ShelfLifeTables) -> (f64, f64) {
        let (counts, lag) = (&tables.organisms.initial_count, &tables.organisms.lag);
        let contents = self.contents_or_worst();
        let rich = contents.juice || contents.nut || contents.garlic_or_herb;
        let raw = if contents.juice {
            counts.fresh_squeezed_juice
        } else if rich {
            counts.nut_or_herb_solids
        } else if self.process.hot_dissolved {
            counts.hot_dissolved_clean_bottle
        } else {
            counts.cold_mixed
        };
        let n0 = match &self.process.heating {
            Some(heating) => tables.heat.count_after(raw, heating, self.process.hot_bottled()),
            None => raw,
        };
        (n0, if rich { lag.juice_h0 } else { lag.syrup_h0 })
    }
}

/// The upper end; a doubt that is no number makes the value unknown.
fn upper(value: f64, doubt: f64) -> Option<f64> {
    (doubt.is_finite() && doubt >= 0.0).then_some(value + doubt)
}
