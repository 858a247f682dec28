//! What is in a glass, in the numbers that guests, laws and scales use.

use serde::Serialize;
use uom::si::energy::{kilocalorie, kilojoule};

use crate::mixture::nutrition::{uk_units, us_standard_drinks};
use crate::mixture::{Component, Mixture};
use crate::properties::{TargetKind, value_of};
use crate::solver::target::volume_ml;
use crate::units::{Abv, millilitres};

/// What one glass holds.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Figures {
    /// Grams.
    pub mass_g: f64,
    /// Millilitres at 20 °C.
    pub volume_ml: f64,
    /// Strength, % vol.
    pub abv_pct: f64,
    /// Alcohol, grams.
    pub alcohol_g: f64,
    /// UK units: 10 ml of pure alcohol each.
    pub uk_units: f64,
    /// US standard drinks: about 14 g each.
    pub us_standard_drinks: f64,
    /// Sugar, grams.
    pub sugar_g: f64,
    /// The same in a litre.
    pub sugar_g_l: f64,
    /// Acid as citric, grams; `None` where it cannot be told.
    pub acid_g: Option<f64>,
    /// The same in a litre.
    pub acid_g_l: Option<f64>,
    /// Energy, kcal.
    pub kcal: f64,
    /// Energy, kJ.
    pub kj: f64,
}

impl Figures {
    /// Of a liquid; `None` where it has no volume.
    pub fn of(liquid: &Mixture) -> Option<Self> {
        let ml = volume_ml(liquid)?;
        let abv = Abv::new(value_of(TargetKind::Abv, liquid)?)?;
        let energy = liquid.energy_per_100_ml().ok()?;
        let acid_g_l = value_of(TargetKind::Acid, liquid).map(|acid| acid.max(0.0));
        let sugar_g = liquid.sugar_grams();
        let volume = millilitres(ml);
        Some(Self {
            mass_g: liquid.total_grams(),
            volume_ml: ml,
            abv_pct: abv.get(),
            alcohol_g: liquid.grams_of(Component::Ethanol),
            uk_units: uk_units(volume, abv),
            us_standard_drinks: us_standard_drinks(volume, abv),
            sugar_g,
            sugar_g_l: 1000.0 * sugar_g / ml,
            acid_g: acid_g_l.map(|acid| acid * ml / 1000.0),
            acid_g_l,
            kcal: energy.kilocalories.get::<kilocalorie>() * ml / 100.0,
            kj: energy.kilojoules.get::<kilojoule>() * ml / 100.0,
        })
    }
}
