//! What a mixture is made of and how it behaves. Pure functions of composition and temperature:
//! no files, no dates, no money, no ink.

pub mod acidity;
pub mod composition;
pub mod estimate;

mod ethanol_water_table;
mod phase;
mod polynomial;
pub mod root;

pub mod alcohol;
pub mod density;
pub mod sweetness;

pub use composition::{Component, Mineral, Mixture};
pub use estimate::{Estimate, OutOfRange};
