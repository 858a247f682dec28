//! The text file that a maker writes: read with the place of every value, and checked for what
//! can be known without a larder.

pub(crate) mod model;

mod amount;
mod check;
mod layout;
mod property;
mod ratio;
mod read;
mod treatment;

use crate::input::{self, Laid};

pub use crate::properties::TargetKind;
pub use model::{Amount, Card, Keep, Loss, Makes, Part};
pub(crate) use model::{Heated, Measured, Stage};
pub(crate) use property::target_value;
pub use read::{LARGEST, read};

/// The keys of a card as a JSON Schema (draft 2020-12), from the list of keys that reads it.
///
/// ```
/// let schema = stillroom::card::schema();
/// assert_eq!(schema["properties"]["parts"]["description"], "what it is made of");
/// ```
pub fn schema() -> serde_json::Value {
    input::schema("a card", Card::LAYOUT)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_example_is_read() {
        input::examples_are_read(Card::LAYOUT, &layout::HINTS);
    }
}
