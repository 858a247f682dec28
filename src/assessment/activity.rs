//! The water activity that a date takes: of sugar and salt alone, with its doubt.

use crate::mixture::{Component, Mixture};
use crate::units::celsius;

/// Doubt of the water activity of weighed sugar and salt, and where solids come from a range (ours).
pub(super) const AW_DOUBT: (f64, f64) = (0.008, 0.015);

/// Of sugar and salt in the water alone, with its own doubt: alcohol counts once, through the strength.
pub(super) fn water_activity(liquid: &Mixture) -> Option<(f64, f64)> {
    let mut sober = *liquid;
    sober.set_grams(Component::Ethanol, 0.0);
    let activity = sober.water_activity(celsius(20.0)).ok()?;
    let (value, upper) = (activity.estimate.value.get(), activity.upper.get());
    // A cautious value of 1 far from the middle says that nothing is known of what is dissolved (dried whole fruit).
    (upper < 1.0 || value > 0.98).then_some((value, upper - value))
}
