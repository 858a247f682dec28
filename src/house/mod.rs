//! A house: its settings, its larder, its cards by name; from a folder, or from texts.

pub mod costs;
#[cfg(feature = "cli")]
mod files;
pub mod instruments;
mod local_code;
pub mod settings;
mod texts;

pub use costs::Costs;
#[cfg(feature = "cli")]
pub use files::{card_paths, first_bytes, place, read, replace, write_new};
pub use instruments::{Instruments, Jug, Scale};
pub use local_code::LocalCode;
pub use settings::{DayOne, Settings, Store};
pub use texts::{CardText, House, SourceFile};

/// The keys of `house.toml` as a JSON Schema (draft 2020-12), from the list of keys that reads it.
///
/// ```
/// let schema = stillroom::house::schema();
/// assert_eq!(schema["properties"]["stores"]["type"], "object");
/// ```
pub fn schema() -> serde_json::Value {
    crate::input::schema("a house file", <Settings as crate::input::Laid>::LAYOUT)
}
