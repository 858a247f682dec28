//! Unknown amounts from targets. One engine ([`balance`]) for every verb; [`card`] brings a card to
//! it, [`stage`] runs the answer forward, [`error`] says why there is none, and `explain` says it in words.

pub mod adjust;
pub mod balance;
pub(crate) mod card;
pub mod error;
mod explain;
mod linear;
mod ph;
pub mod reach;
pub mod resolve;
mod solved;
pub mod square;
pub mod stage;
pub mod swap;
pub mod target;
mod unknowns;
pub(crate) mod vessel;
pub mod weighing;
mod why;

pub use card::solve;
pub use card::{BatchSize, Options, SolveOutcome};
pub(crate) use solved::SolvedStage;
pub use solved::{InnerCard, Solved, SolvedPart};
