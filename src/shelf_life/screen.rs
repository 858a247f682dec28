//! The screen: does the product need time and temperature control for safety? FDA Food Code 2022, 1-201.10(B), Tables A
//! and B, looked up at the cautious corner. The tables give no credit for alcohol, preservatives or cold.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

/// Which of the two tables.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum ScreenTable {
    /// Heated, and packed so that nothing gets in again.
    A,
    /// Everything else, and everything that was opened.
    B,
}

/// What the table says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ScreenClass {
    /// No control needed.
    NonTcs,
    /// Product assessment required: to be treated as needing control until assessed.
    Pa,
}

/// The answer of the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Screen {
    /// Which table was used.
    pub table: ScreenTable,
    /// What it says.
    pub class: ScreenClass,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Edge {
    Below(f64),
    UpTo(f64),
}

#[derive(Debug, Deserialize)]
struct Cells {
    ph: Vec<Edge>,
    aw: Vec<Edge>,
    cells: Vec<Vec<ScreenClass>>,
}

#[derive(Debug, Deserialize)]
struct ScreenTables {
    a: Cells,
    b: Cells,
}

/// The column or row of a value; the last one when it is not known.
fn place(edges: &[Edge], value: Option<f64>) -> usize {
    // 4.1 + 0.1 is not quite 4.2 in binary; the edge itself must fall where the code puts it
    let value = value.map(|v| (v * 1e9).round() / 1e9);
    edges
        .iter()
        .position(|edge| match (edge, value) {
            (_, None) => false,
            (Edge::Below(limit), Some(v)) => v < *limit,
            (Edge::UpTo(limit), Some(v)) => v <= *limit,
        })
        .unwrap_or(edges.len())
}

/// The cell for a pH and a water activity, both already at their cautious corner. Unknown is the worst column or row.
///
/// ```
/// use stillroom::shelf_life::screen::{ScreenClass, ScreenTable, look_up};
///
/// assert_eq!(look_up(ScreenTable::B, Some(4.0), Some(0.95)), ScreenClass::NonTcs);
/// assert_eq!(look_up(ScreenTable::B, None, Some(0.95)), ScreenClass::Pa);
/// ```
pub fn look_up(table: ScreenTable, ph: Option<f64>, aw: Option<f64>) -> ScreenClass {
    static TABLES: LazyLock<ScreenTables> = LazyLock::new(|| {
        let read = toml::from_str(include_str!("data/screen.toml"));
        read.unwrap_or_else(|error| panic!("screen.toml: {error}"))
    });
    let cells = match table {
        ScreenTable::A => &TABLES.a,
        ScreenTable::B => &TABLES.b,
    };
    let row = cells.cells.get(place(&cells.aw, aw));
    row.and_then(|row| row.get(place(&cells.ph, ph))).copied().unwrap_or(ScreenClass::Pa)
}
