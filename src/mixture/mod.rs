//! What a mixture is made of and how it behaves. Pure functions of composition and temperature:
//! no files, no dates, no money, no ink.

pub mod acidity;
pub(crate) mod composition;
pub(crate) mod estimate;

mod ethanol_water;
mod ethanol_water_table;
mod phase;
pub mod polynomial;
pub mod root;
mod sugar_water;

pub mod alcohol;
pub mod boiling;
pub mod chill;
pub mod density;
pub mod flash_point;
pub mod freezing;
pub mod gas;
pub mod heat;
pub mod nutrition;
pub mod refraction;
pub mod solubility;
pub mod sweetness;
pub(crate) mod viscosity;
pub mod water_activity;

pub use composition::Component;
pub(crate) use composition::Mineral;
pub use composition::Mixture;
pub use estimate::{Estimate, OutOfRange};
