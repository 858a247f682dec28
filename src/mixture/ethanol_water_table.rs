//! SpiritRows rows of ethanol-water that no formula was found for.

use std::sync::LazyLock;

use crate::vocabulary::table::rows;

/// By mass fraction of ethanol: a number of each row that has one.
struct SpiritRows {
    refractive_index_20c: Vec<(f64, f64)>,
    freezing_depression_k: Vec<(f64, f64)>,
}

static MEASURED: LazyLock<SpiritRows> = LazyLock::new(|| {
    let all: Vec<(f64, f64, Option<f64>)> = rows("ethanol-water.csv", include_str!("ethanol-water.csv"));
    SpiritRows {
        refractive_index_20c: all.iter().map(|&(p, index, _)| (p, index)).collect(),
        freezing_depression_k: all.iter().filter_map(|&(p, _, depression)| Some((p, depression?))).collect(),
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
