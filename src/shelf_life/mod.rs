//! How long it keeps: the hurdles of the finished product, staling and growth brought down to one date with its reason.
//! Pure functions of plain inputs; what is not known counts as the worst it could be, and no word lengthens a date.
//!
//! - [`verdict`]: the one date, from a [`product`] at a store, under an `authority`; [`refusal`]: when there is none;
//!   [`reason`]: its words; [`calendar`]: from days to a day on the label.
//! - [`hurdles`]: what keeps it, each at its cautious end; [`screen`]: the tables of the Food Code; [`warmth`]: time and
//!   warmth before it was bottled; [`staling`]: when it is no longer good; [`class`]: what it may be called.
//! - [`lots`], [`simulate`], `draws`: growth, its doubt, and the lots that never had the yeast; [`growth`],
//!   `organisms`, [`time_to_level`], [`delle`], [`heat`]: the equations behind; [`decay`]: quality by temperature.
//! - [`data`]: the embedded tables.

pub(crate) mod authority;
pub mod calendar;
pub mod class;
pub mod data;
pub mod decay;
pub mod delle;
pub mod draws;
pub mod growth;
pub mod heat;
pub mod hurdles;
pub mod lots;
pub(crate) mod organisms;
pub mod product;
pub mod reason;
pub mod refusal;
pub mod screen;
pub mod simulate;
pub mod staling;
pub mod survival;
pub mod time_to_level;
pub mod verdict;
pub mod warmth;

pub use authority::Authority;
pub use product::{Contents, Dairy, Egg, Filled, HouseQuality, Product};
pub use simulate::Draws;
pub use verdict::{Asked, Verdict, verdicts};
pub use warmth::StageWarmth;
pub(crate) use warmth::{COLD_C, HOT_C};
