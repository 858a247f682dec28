//! How long it keeps: growth, quality, the screen and what is usually quoted, brought down to one date with its reason.
//! Pure functions of plain inputs; what is not known counts as the worst it could be, and nothing lengthens a ceiling.
//!
//! - [`verdict`]: the one date, from a [`product`] at a store, under an [`authority`]; [`refusal`]: when there is none;
//!   [`reason`]: its words; [`calendar`]: from days to a day on the label.
//! - [`screen`]: does it need control for safety; [`ceilings`]: what its class allows.
//! - [`growth`], [`organisms`], [`time_to_level`], [`delle`], [`heat`]: spoilage; [`decay`]: quality.
//! - [`draws`], [`simulate`]: their uncertainty. [`data`]: the embedded tables.

pub(crate) mod authority;
pub mod calendar;
pub(crate) mod ceilings;
pub mod data;
pub mod decay;
pub mod delle;
pub(crate) mod draws;
pub mod growth;
pub mod heat;
pub(crate) mod organisms;
pub(crate) mod product;
pub mod reason;
pub mod refusal;
pub mod screen;
pub mod simulate;
pub mod time_to_level;
mod treated;
pub(crate) mod verdict;

pub use authority::Authority;
pub use product::{Contents, Product, Treatment, UncertainValue};
pub use simulate::Draws;
pub use verdict::{Verdict, verdicts};
