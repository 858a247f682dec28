//! Unknown amounts from targets. One engine ([`balance`]) for every verb; `card` brings a card to
//! it, [`stage`] runs the answer forward, and `explain` says why there is none.

pub mod adjust;
pub(crate) mod asked;
pub mod balance;
pub(crate) mod bottle_holds;
pub(crate) mod by_hand;
mod card;
pub(crate) mod evaporation;
mod explain;
mod ice_water;
mod ph;
mod poured_out;
pub mod reach;
pub mod resolve;
pub mod room;
pub mod simplex;
mod solved;
pub mod square;
pub mod stage;
pub mod swap;
pub mod target;
pub(crate) mod vessel;
pub mod weighing;

pub(crate) use card::NONE;
pub(crate) use card::asked_ml;
pub use card::{BatchSize, Melt, Options, SolveOutcome, solve};
pub(crate) use card::{DEEPEST, faults};
pub use card::{Offer, offer};
pub(crate) use card::{is_hot, may_be_warm};
pub(crate) use explain::not_on_card;
pub use explain::reach::SolveError;
pub(crate) use explain::room::{no_room, range_words};
pub use ice_water::{IceWater, WeighedAlike};
pub(crate) use poured_out::{PouredPart, inner_drink, parts_of_drink, poured_out};
pub(crate) use solved::SolvedStage;
pub use solved::{InnerCard, Solved, SolvedPart};
