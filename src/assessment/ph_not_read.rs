//! A vegetable or herb whose pH nobody has read: what only a calculated pH keeps from spores stands in the cold.

use crate::safety::alcohol_bands::alcohol_keeps;
use crate::shelf_life::hurdles::Screened;
use crate::shelf_life::screen::{ScreenClass, look_up};
use crate::units::degrees_celsius;

use super::product::DateInputs;
use super::store::{DatedStore, StoreRefusal};

/// Up to here a calculated pH has room for what a vegetable may still take of the acid: above it 21 CFR 114.80 asks for a meter.
const CALCULATED_PH: f64 = 4.0;

/// Why it has no date in this store, warmer than `max_c`: its pH is near the limit, or pieces stay in it, which are not yet as sour as the
/// liquid. 21 CFR 114.80 asks for the pH of acidified food as it is found at equilibrium.
pub(super) fn refusal(inputs: &DateInputs, dated: &DatedStore, max_c: f64) -> Option<StoreRefusal> {
    let hurdles = dated.verdict.as_ref()?.hurdles;
    let is_near = inputs.product.contents.low_acid_plant && hurdles.ph_up.is_none_or(|up| up > CALCULATED_PH);
    let is_read = inputs.read.is_some_and(|read| read.counts());
    let asks_no_ph = look_up(hurdles.table, None, Some(hurdles.aw_up)) == ScreenClass::NonTcs;
    let hangs_on_it = (inputs.unlisted.pieces_g > 0.0 || is_near)
        && !is_read
        && hurdles.screened == Screened::Stable
        && !asks_no_ph
        && !alcohol_keeps(hurdles.abv, None, hurdles.aw_up);
    let is_warm = degrees_celsius(dated.store.temperature) > max_c;
    (hangs_on_it && is_warm && dated.refused.is_empty()).then(|| {
        StoreRefusal::own(format!(
            "keep at {max_c} °C or below: there is a vegetable or herb in it, and its pH is only calculated; read it blended, a day after it \
             was made, and write [measured] ph, ph_by = \"meter\", calibrated = true"
        ))
    })
}
