//! The properties that a card may aim at, and how a number of one is counted in a mixture.

use serde::Serialize;

use crate::mixture::alcohol::ETHANOL_G_PER_ML;
use crate::mixture::{Component, Mixture};
use crate::units::{celsius, in_kg_per_m3};

/// What a target or a reading is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum TargetKind {
    /// Dissolved solids, g per 100 g.
    Brix,
    /// Percent alcohol by volume at 20 °C.
    Abv,
    /// Sugars as weighed, g/L at 20 °C.
    Sugar,
    /// Titratable acid to pH 8.1 as citric, g/L at 20 °C.
    Acid,
    /// pH at 20 °C.
    Ph,
}

impl TargetKind {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Brix, Self::Abv, Self::Sugar, Self::Acid, Self::Ph];

    pub(crate) fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == key)
    }

    /// The key in `[target]`.
    pub fn key(self) -> &'static str {
        match self {
            Self::Brix => "brix",
            Self::Abv => "abv",
            Self::Sugar => "sugar",
            Self::Acid => "acid",
            Self::Ph => "ph",
        }
    }
}

/// What a target counts in a mixture: grams of solids, sugar or acid, millilitres of ethanol; nothing for pH.
pub fn amount_for(kind: TargetKind, mixture: &Mixture) -> f64 {
    match kind {
        TargetKind::Brix => mixture.solids_grams(),
        TargetKind::Abv => mixture.grams_of(Component::Ethanol) / *ETHANOL_G_PER_ML,
        TargetKind::Sugar => mixture.sugar_grams(),
        TargetKind::Acid => mixture.titratable_acid_grams(),
        TargetKind::Ph => 0.0,
    }
}

/// The factor from a target's number to its amount in one gram of liquid of this density (g/ml).
pub(crate) fn per_gram_of_liquid(kind: TargetKind, rho: f64) -> f64 {
    match kind {
        TargetKind::Brix => 0.01,
        TargetKind::Abv => 0.01 / rho,
        TargetKind::Sugar | TargetKind::Acid => 0.001 / rho,
        TargetKind::Ph => 0.0,
    }
}

/// The value of a target's property in a liquid: °Bx, % vol or g/L at 20 °C. `None` where its density cannot be
/// computed, and for pH.
pub fn value_of(kind: TargetKind, liquid: &Mixture) -> Option<f64> {
    let per_gram = liquid.per_gram();
    let rho = match kind {
        TargetKind::Ph => return None,
        TargetKind::Brix => 1.0,
        _ => in_kg_per_m3(liquid.density(celsius(20.0)).ok()?.value) / 1000.0,
    };
    Some(amount_for(kind, &per_gram) / per_gram_of_liquid(kind, rho))
}
