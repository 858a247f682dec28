//! What could hurt somebody: cautions as data, and what they are judged by.
//!
//! [`evaluate`] takes [`Facts`] and gives the [`Caution`]s that they raise. The cautions stand in
//! `data/cautions.toml`; each has a [`trigger`], answered true, false or not known, and what is not known is never
//! taken as favourable. The facts are gathered elsewhere: this room looks nothing up and knows no dates.
//!
//! Beside it: [`names`] (what an ingredient's name gives away), [`allergens`] and [`hazards`] by [`Market`],
//! [`doses`], [`alcohol_bands`], `label`, `law` and `warnings`. It advises; local law decides ([`STANDING_NOTE`]).

pub mod alcohol_bands;
pub mod allergens;
mod brought;
pub(crate) mod called;
pub mod catalogue;
mod caution;
mod cleaning;
mod denied;
pub mod doses;
pub(crate) mod dressing;
mod e_numbers;
mod egg_parts;
pub mod facts;
mod figures;
pub(crate) mod foods;
pub mod hazards;
mod heads;
pub mod identity;
pub mod intake;
pub(crate) mod label;
pub(crate) mod law;
mod makers_own;
mod members;
pub mod names;
pub(crate) mod overdoses;
mod raw_milk;
pub(crate) mod standing;
pub(crate) mod step_words;
pub(crate) mod steps;
mod stones;
pub mod trigger;
pub mod variables;
mod vessels;
pub(crate) mod warnings;

pub use crate::vocabulary::Market;
pub(crate) use crate::vocabulary::or_all;
pub use catalogue::Level;
pub(crate) use caution::carry_with_it;
pub(crate) use caution::evaluate_stage;
pub use caution::{Caution, STANDING_NOTE, carry, evaluate, gather};
pub use facts::{Fact, Member};
pub use facts::{Facts, Storage, Tcs};
pub use identity::FoodIdentity;
pub use members::Members;
