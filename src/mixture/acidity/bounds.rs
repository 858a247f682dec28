//! Between which two values the pH of a product must lie, by what was weighed into it. Nothing is measured: the upper
//! bound takes every alkali at its most, so that no acid counts which something may have held.

use super::acids::Acid;
use super::charge_balance::Solution;
use crate::mixture::OutOfRange;
use crate::units::{Abv, MassDensity, Temperature, in_grams_per_litre};

/// Alkalinity that tap water is taken to have at most: 300 mg/L as calcium carbonate, in equivalents a kilogram (ours;
/// `[house] water_alkalinity` lowers it).
pub const TAP_WATER_EQ_PER_KG: f64 = 0.006;
/// Acid that a gram of protein may hold, equivalents (from memory).
pub const PROTEIN_EQ_PER_GRAM: f64 = 0.001;
/// Acid that a gram of ash may hold where no minerals are known: all carbonate, equivalents (ours).
pub const ASH_EQ_PER_GRAM: f64 = 0.020;
/// Without any acid the pH of sugar, water and spirit is not below this.
pub const NO_ACID: f64 = 5.0;
/// Half of what the equations and the listed figures may be off by.
const ERROR: f64 = 0.05;
/// More of it with sugar above 50 g/L, and in full with 10 % vol of alcohol.
const SUGAR_ERROR: f64 = 0.1;
const ALCOHOL_ERROR: f64 = 0.1;

/// The two ends. `None` where nothing bounds it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PhBounds {
    /// It cannot be lower.
    pub low: Option<f64>,
    /// It cannot be higher.
    pub up: Option<f64>,
}

/// Sugar and alcohol, which widen the bounds.
#[derive(Clone, Copy, Debug)]
pub struct Beside {
    /// Sugar.
    pub sugar: MassDensity,
    /// Strength.
    pub abv: Abv,
}

/// The bounds of a solution: its acids in mol per kilogram of water, and the least and most charge of strong cations, in
/// equivalents per kilogram of water. Acid that is not listed must not be there: the caller says `None` then.
///
/// The shift of a pK by alcohol is not added: it moves what a meter shows and takes nothing from the acid.
pub fn bounds(
    acids: &[(&Acid, f64)],
    (least_eq, most_eq): (f64, f64),
    beside: Beside,
    temperature: Temperature,
) -> Result<PhBounds, OutOfRange> {
    let sweet = if in_grams_per_litre(beside.sugar) > 50.0 { SUGAR_ERROR } else { 0.0 };
    let error = ERROR + sweet + ALCOHOL_ERROR * (beside.abv.get() / 10.0).min(1.0);
    if acids.iter().all(|(_, molal)| *molal <= 0.0) {
        return Ok(PhBounds { low: Some(NO_ACID), up: None });
    }
    let at = |eq: f64| -> Result<Option<f64>, OutOfRange> {
        Ok(Solution::new(acids, eq, 0.0, temperature)?.balance().map(|balance| balance.ph.get()))
    };
    // where more is held than there is acid it is as if there were none: how far above it lies nobody can say
    let low = at(least_eq)?.map_or(NO_ACID, |ph| (ph - error).min(NO_ACID));
    let up = at(most_eq)?.map(|ph| ph + error);
    Ok(PhBounds { low: Some(low), up })
}
