//! What the batch is worked in.

use crate::quantity::{celsius, in_kg_per_m3};

use super::Solved;

/// Vessels of a usual kitchen, litres (common practice, no source).
const VESSELS_L: [f64; 12] = [0.5, 1.0, 2.0, 3.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0, 100.0];
/// Room to stir in (common practice, no source).
const HEADROOM: f64 = 1.25;

/// The smallest usual vessel that holds the fullest stage with room to stir, litres.
pub fn vessel_l(solved: &Solved) -> Option<f64> {
    let fullest = solved
        .stages
        .iter()
        .filter_map(|stage| {
            let density = stage.course.combined.density(celsius(20.0)).ok()?;
            Some(stage.course.combined.total_grams() / in_kg_per_m3(density.value))
        })
        .fold(0.0, f64::max);
    (fullest > 0.0).then(|| VESSELS_L.into_iter().find(|v| *v >= HEADROOM * fullest)).flatten()
}
