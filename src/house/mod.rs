//! A house: its settings, its larder, its cards by name; from a folder, or from texts.

mod bundle;
pub(crate) mod costs;
#[cfg(feature = "cli")]
mod files;
#[cfg(feature = "cli")]
mod for_page;
mod hand_over;
pub(crate) mod instruments;
mod local_code;
mod of_book;
pub mod settings;
mod texts;

pub(crate) use bundle::is_bundle;
#[cfg(feature = "cli")]
pub use files::{card_paths, place, read, replace};
#[cfg(feature = "cli")]
pub(crate) use files::{first_bytes, read_from, reason, write_new};
#[cfg(feature = "cli")]
pub(crate) use for_page::for_page;
pub use hand_over::hand_over;
pub use instruments::{Instruments, Scale};
pub(crate) use local_code::LocalCode;
pub use of_book::{LotBrings, OfBook};
pub use settings::{DayOne, Store};
pub(crate) use settings::{Settings, which_store};
pub use texts::House;
pub(crate) use texts::{HotClause, LARDER, OF_HOUSE, SourceFile, WeighedDrink};

/// The keys of `house.toml` as a JSON Schema (draft 2020-12), from the list of keys that reads it.
///
/// ```
/// let schema = stillroom::house::schema();
/// assert_eq!(schema["properties"]["stores"]["type"], "object");
/// ```
pub fn schema() -> serde_json::Value {
    crate::input::schema("a house file", <Settings as crate::input::Laid>::LAYOUT)
}
