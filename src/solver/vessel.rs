//! What the batch is worked in, and whether it is of a size that somebody can make.

use crate::diagnostic::{Code, Diagnostic};
use crate::house::Instruments;
use crate::units::display::{grouped, short};
use crate::units::in_grams;

use super::Solved;
use super::weighing::TRUSTED_STEPS;

/// A vessel is this many times as large as what is stirred in it (common practice, no source).
pub(crate) const HEADROOM: f64 = 1.25;

/// Vessels of a usual kitchen, litres (common practice, no source).
const VESSELS_L: [f64; 12] = [0.5, 1.0, 2.0, 3.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0, LARGEST_L];
const LARGEST_L: f64 = 100.0;

/// The smallest usual vessel that holds the fullest stage with room to stir, litres.
pub(crate) fn vessel_l(solved: &Solved) -> Option<f64> {
    let fullest = solved.fullest_l();
    (fullest > 0.0).then(|| VESSELS_L.into_iter().find(|v| *v >= HEADROOM * fullest)).flatten()
}

/// An error for a batch that no scale of the house shows, a warning for one that none weighs truly, or that no usual
/// vessel holds (the limits are ours).
pub(crate) fn check_size(solved: &Solved, instruments: &Instruments) -> Option<Diagnostic> {
    let grams = solved.bottled().total_grams();
    let finest = instruments.fine_scale.unwrap_or(instruments.scale);
    let steps = grams / in_grams(finest.step);
    let scale = format!("the finest scale of the house shows {} g", short(in_grams(finest.step)));
    let make_more = "make a larger batch, or write a finer scale into house.toml";
    if steps < 1.0 {
        let title = format!("the batch is {} g, and {scale}: it cannot be weighed", short(grams));
        return Some(Diagnostic::error(Code::DoesNotFit, title).help(make_more));
    }
    if steps < TRUSTED_STEPS {
        let title = format!("the batch is {} g, and {scale}: nothing in it is weighed truly", short(grams));
        return Some(Diagnostic::warning(Code::DoesNotFit, title).help(make_more));
    }
    let fullest_l = solved.fullest_l();
    (fullest_l > 0.0 && vessel_l(solved).is_none()).then(|| {
        let largest = LARGEST_L;
        let batches = (HEADROOM * fullest_l / largest).ceil();
        let title = format!("{} L are more than any usual vessel holds with room to stir", grouped(fullest_l, 0));
        Diagnostic::warning(Code::DoesNotFit, title)
            .help(format!("make {} batches for a vessel of {largest} L, or a smaller one", grouped(batches, 0)))
    })
}
