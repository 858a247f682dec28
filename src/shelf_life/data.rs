//! The embedded tables of this room, read once. A table that cannot be read gives no numbers and so no date; the tests
//! hold that all of them can.

use std::sync::LazyLock;

use serde::de::DeserializeOwned;

use super::{ceilings, heat, organisms, screen};

fn read<T: DeserializeOwned>(text: &str) -> Option<T> {
    toml::from_str(text).ok()
}

/// Everything this room knows by table.
#[derive(Debug)]
pub struct ShelfLifeTables {
    /// Spoilage organisms, their doubt, initial counts.
    pub organisms: organisms::Organisms,
    /// The two tables of the screen.
    pub screen: screen::ScreenTables,
    /// Heat processes.
    pub heat: heat::Processes,
    /// Class ceilings and quality.
    pub ceilings: ceilings::Ceilings,
}

static TABLES: LazyLock<Option<ShelfLifeTables>> = LazyLock::new(|| {
    Some(ShelfLifeTables {
        organisms: read(include_str!("data/organisms.toml"))?,
        screen: read(include_str!("data/screen.toml"))?,
        heat: read(include_str!("data/heat.toml"))?,
        ceilings: read(include_str!("data/ceilings.toml"))?,
    })
});

/// The embedded tables.
pub fn tables() -> Option<&'static ShelfLifeTables> {
    TABLES.as_ref()
}
