//! The liquid that a date takes, and its water activity: of sugar and salt alone, with its doubt.

use crate::mixture::{Component, Mixture};
use crate::units::celsius;

/// Doubt of the water activity of weighed sugar and salt, and where solids come from a range (ours).
pub(super) const AW_DOUBT: (f64, f64) = (0.008, 0.015);

/// Of what is dissolved in something dry so much may be unknown, as a share (ours).
const MOST_UNKNOWN: f64 = 0.5;

/// Of sugar and salt in the water alone, with its own doubt: alcohol counts once, through the strength.
pub(super) fn water_activity(liquid: &Mixture) -> Option<(f64, f64)> {
    let mut sober = *liquid;
    sober.set_grams(Component::Ethanol, 0.0);
    let activity = sober.water_activity(celsius(20.0)).ok()?;
    let (value, upper) = (activity.estimate.value.get(), activity.upper.get());
    // Of dried whole fruit the acid and the minerals are known, and most of what was dissolved in it is not.
    let is_unknown = liquid.is_dry() && liquid.grams_of(Component::Other) > MOST_UNKNOWN * liquid.solids_grams();
    // A cautious value of 1 far from the middle says that nothing is known of what is dissolved.
    (upper < 1.0 && !is_unknown || value > 0.98).then_some((value, upper - value))
}

/// What is dated of a liquid: crystals at the bottom keep nothing. All that is said of a water activity is of 20 °C; a fridge holds
/// 2 °Bx less, which is 0.012 of it. A strength that was read lower than it was weighed dissolves no more sugar. What was dried has no
/// liquid.
pub(super) fn dated_liquid(read: &Mixture, weighed: &Mixture, is_dried: bool) -> Mixture {
    if is_dried {
        return *read;
    }
    let [mut held, most] = [read, weighed].map(|liquid| liquid.above_crystals(celsius(20.0)));
    for solid in [Component::Sucrose, Component::Salt] {
        held.set_grams(solid, held.grams_of(solid).min(most.grams_of(solid)));
    }
    held
}

/// The same with all its doubt: `of_solids` is that of what is dissolved, and of Brix, which is off by so many °Bx, what that makes.
pub(super) fn water_activity_with_doubt(
    liquid: &Mixture,
    (brix, off): (Option<f64>, f64),
    of_solids: f64,
) -> (Option<f64>, f64) {
    let Some((aw, own)) = water_activity(liquid) else { return (None, 0.0) };
    let of_brix = water_activity(&thinned(liquid, brix, off)).map_or(0.0, |(thin, _)| thin - aw);
    (Some(aw), own.max(of_solids).max(of_brix))
}

/// The liquid with as much more water as its Brix is in doubt: what the solids in a strainer keep of it nobody weighed, and a date
/// stands on the thinner of what may be in the bottle.
fn thinned(liquid: &Mixture, brix: Option<f64>, doubt: f64) -> Mixture {
    /// Of its Brix at the least so much is left, as a share (ours).
    const LEAST: f64 = 0.05;
    let mut thin = *liquid;
    if let Some(brix) = brix.filter(|brix| *brix > 0.0) {
        let low = (brix - doubt).max(LEAST * brix);
        let more = liquid.total_grams() * (brix / low - 1.0);
        thin.set_grams(Component::Water, thin.grams_of(Component::Water) + more);
    }
    thin
}
