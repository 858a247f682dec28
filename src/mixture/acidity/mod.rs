//! Acids: the pH of a mixture with its doubt, titratable acidity, what the minerals of a juice
//! bind, and the powder that brings a juice to a strength.

pub mod acids;
pub mod juice;
pub mod titration;

pub use acids::Acid;
