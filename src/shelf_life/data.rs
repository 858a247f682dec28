//! The embedded tables of this room, read once.

use std::sync::LazyLock;

use serde::de::DeserializeOwned;

use super::{heat, organisms};

/// A table that is compiled in.
///
/// # Panics
/// Where it cannot be read: every test that touches it fails.
pub(super) fn embedded<T: DeserializeOwned>(name: &str, text: &str) -> T {
    toml::from_str(text).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// Everything that a date is looked up in.
#[derive(Debug)]
pub struct ShelfLifeTables {
    /// Spoilage organisms, their scatter, initial counts.
    pub organisms: organisms::Organisms,
    /// Heat processes.
    pub heat: heat::HeatProcesses,
}

/// The embedded tables.
pub fn tables() -> &'static ShelfLifeTables {
    static TABLES: LazyLock<ShelfLifeTables> = LazyLock::new(|| ShelfLifeTables {
        organisms: embedded("organisms.toml", include_str!("data/organisms.toml")),
        heat: embedded("heat.toml", include_str!("data/heat.toml")),
    });
    &TABLES
}
