//! The text file that a maker writes: read with the place of every value, and checked for what
//! can be known without a larder.

pub mod model;

mod amount;
mod check;
mod keys;
mod process;
mod property;
mod ratio;
mod read;
mod reader;

pub use model::{Amount, Card, Heated, Keep, Loss, Makes, Measured, Part, Stage, Target, TargetKind, folded};
pub use property::target_value;
pub use read::{CLASSES, LARGEST, PROCESSES, read};
