//! What stands behind a number: its equation, range, stated error and sources, told without computing it.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::references::Key;
use crate::vocabulary::table::{self, List};

#[derive(Debug, Deserialize)]
pub(crate) struct Equation {
    pub name: String,
    pub unit: String,
    pub equation: String,
    pub range: String,
    pub error: String,
    pub sources: List<Key>,
}

static EQUATIONS: LazyLock<Vec<Equation>> =
    LazyLock::new(|| table::rows("equations.csv", include_str!("equations.csv")));

/// Everything that can be explained: properties in the order of a sheet, then methods.
pub(crate) fn equations() -> &'static [Equation] {
    &EQUATIONS
}
