//! What the batch is worked in.

use super::Solved;

/// A vessel is this many times as large as what is stirred in it (common practice, no source).
pub const HEADROOM: f64 = 1.25;

/// Vessels of a usual kitchen, litres (common practice, no source).
const VESSELS_L: [f64; 12] = [0.5, 1.0, 2.0, 3.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0, LARGEST_L];
/// The largest of them.
pub const LARGEST_L: f64 = 100.0;

/// The smallest usual vessel that holds the fullest stage with room to stir, litres.
pub fn vessel_l(solved: &Solved) -> Option<f64> {
    let fullest = solved.fullest_l();
    (fullest > 0.0).then(|| VESSELS_L.into_iter().find(|v| *v >= HEADROOM * fullest)).flatten()
}
