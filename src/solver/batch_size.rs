//! Whether a batch is of a size that somebody can make.

use crate::diagnostic::{Code, Diagnostic};
use crate::house::Instruments;
use crate::units::display::{grouped, short};
use crate::units::in_grams;

use super::weighing::TRUSTED_STEPS;
use super::{Solved, vessel};

/// An error for a batch that no scale of the house shows, a warning for one that none weighs truly, or that no usual
/// vessel holds (the limits are ours).
pub fn check(solved: &Solved, instruments: &Instruments) -> Option<Diagnostic> {
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
    (fullest_l > 0.0 && vessel::vessel_l(solved).is_none()).then(|| {
        let largest = vessel::LARGEST_L;
        let batches = (vessel::HEADROOM * fullest_l / largest).ceil();
        let title = format!("{} L are more than any usual vessel holds with room to stir", grouped(fullest_l, 0));
        Diagnostic::warning(Code::DoesNotFit, title)
            .help(format!("make {} batches for a vessel of {largest} L, or a smaller one", grouped(batches, 0)))
    })
}
