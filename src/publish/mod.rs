//! The bench page: what stands on it, what it asks and what it is answered.
//!
//! A page is written once and read where there is no signal. What it says without a script and what its solver says later
//! come from the same functions here, of the same reports as on a terminal.

mod ask;
pub(crate) mod card;
#[cfg(feature = "cli")]
pub(crate) mod pages;
#[cfg(feature = "cli")]
pub(crate) mod site;

pub use ask::answer;
