//! The text file that a maker writes: read with the place of every value, and checked for what
//! can be known without a larder.

pub mod model;

pub use model::{Amount, Formula, Loss, Makes, Measured, Part, Stage, Target, TargetKind};
