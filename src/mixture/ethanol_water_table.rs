//! Measured rows of ethanol-water that no formula was found for.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::vocabulary::table::rows;

/// By mass fraction of ethanol: a number of each row that has one.
struct SpiritRows {
    refractive_index_20c: Vec<(f64, f64)>,
    freezing_depression_k: Vec<(f64, f64)>,
}

#[derive(Deserialize)]
struct MeasuredRow {
    mass_fraction: f64,
    refractive_index: f64,
    freezing_depression_k: Option<f64>,
}

static MEASURED: LazyLock<SpiritRows> = LazyLock::new(|| {
    let all: Vec<MeasuredRow> = rows("ethanol-water.csv", include_str!("ethanol-water.csv"));
    SpiritRows {
        refractive_index_20c: all.iter().map(|row| (row.mass_fraction, row.refractive_index)).collect(),
        freezing_depression_k: all
            .iter()
            .filter_map(|row| Some((row.mass_fraction, row.freezing_depression_k?)))
            .collect(),
    }
});

/// Mass fraction of ethanol and refractive index (589 nm, 20 °C, against air).
pub(super) fn refractive_index_20c() -> &'static [(f64, f64)] {
    &MEASURED.refractive_index_20c
}

/// Mass fraction of ethanol and how far below 0 °C ice appears, in K.
pub(super) fn freezing_depression_k() -> &'static [(f64, f64)] {
    &MEASURED.freezing_depression_k
}
