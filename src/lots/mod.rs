//! What was made: the book of lots. Immutable events, merged by their ids whatever device they were written on, and what
//! follows from them: what is there, by when it goes, what went into what.
//!
//! The book is a folder of JSON Lines, one file a writer, so that any file sync carries it and no two devices write into one
//! file. Nothing is ever changed or removed: a correction is an event that withdraws another. `files` alone opens them.

pub mod again;
pub(crate) mod ahead;
mod below_growth;
pub mod book;
pub mod cause;
pub mod code;
pub mod due;
pub mod event;
#[cfg(feature = "cli")]
pub mod files;
mod frozen;
pub mod group;
mod kept;
pub mod learn;
pub mod losses;
pub mod not_on_book;
pub mod on_shelf;
mod part_used;
mod parts;
pub mod poured;
pub mod recall;
pub mod record;
pub mod reprint;
mod request;
pub mod sheet;
pub mod standing;
pub mod strike;
mod told_lot;
pub mod untold;
mod weighed;

/// The folder of the book, beside the cards.
pub const FOLDER: &str = "lots";

pub(crate) use parts::{more_than_is_left, no_such_day};
pub(crate) use told_lot::told_lot;

pub use book::{LotBook, LotStanding, LotState};
pub use event::{Event, Happened, PartFrom, PartUsed, Recorded, Taste};
