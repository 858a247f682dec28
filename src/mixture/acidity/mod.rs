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
