//! Acids: the pH of a mixture with its uncertainty, titratable acidity, what the minerals of a juice
//! bind, and the powder that brings a juice to a strength.

pub mod acids;
pub mod activity;
pub mod blend;
pub mod bounds;
pub mod charge_balance;
mod in_mixture;
pub mod juice;
pub mod ph;
pub mod titration;

pub use acids::Acid;
pub use charge_balance::{Balance, Solution};

/// The share of an acid with this pK that is not dissociated: `1 / (1 + 10^(pH - pK))`, Henderson and Hasselbalch.
pub fn undissociated(ph: f64, pk: f64) -> f64 {
    1.0 / (1.0 + 10f64.powf(ph - pk))
}
