//! A house: its settings, its larder, its cards by name; from a folder, or from texts.

pub mod costs;
#[cfg(feature = "cli")]
mod files;
pub mod instruments;
pub mod settings;
mod texts;

pub use costs::Costs;
#[cfg(feature = "cli")]
pub use files::{card_paths, first_bytes, place, read, replace, write_new};
pub use instruments::{Instruments, Jug, Scale};
pub use settings::{DayOne, LocalCode, Settings, Store};
pub use texts::{CardText, House, SourceFile};
