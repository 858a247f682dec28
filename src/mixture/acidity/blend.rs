//! Acid powder that brings a juice to a strength, and what the trade's rule leaves it at.

use super::acids::Acid;
use super::titration::as_citric;
use crate::mixture::OutOfRange;
use crate::units::{
    Mass, MassDensity, MassFraction, Volume, grams, grams_per_litre, in_grams, in_grams_per_litre, in_millilitres,
};

/// Millilitres that a gram of dissolved acid powder adds: citric about 0.60, malic about 0.62 (densities of their
/// solutions, from memory). An error of 0.03 moves the powder for a 6 % juice by 0.2 %.
pub const GAIN_ML_PER_GRAM: f64 = 0.61;

/// Powders and their shares of the blend by mass, in any unit ("3.2 citric to 2 malic").
pub type AcidMix<'a> = [(&'a Acid, f64)];

/// Powder for a target by mass, as titratable acidity in anhydrous citric acid:
/// x = m (target − TA) / (e − target), e = Σ share × 64.0412 / grams per equivalent, all as fractions.
/// Exact, and good for pure powder without water. Fails when the juice is sourer than the target or the target
/// sourer than the powder.
///
/// ```
/// use stillroom::mixture::acidity::{acids::CITRIC, blend};
/// use stillroom::units::{MassFraction, grams, in_grams};
///
/// let share = MassFraction::saturating;
/// let powder = blend::powder_by_mass(grams(1000.0), share(0.01), share(0.06), &[(&CITRIC, 1.0)]).unwrap();
/// assert!((in_grams(powder) - 1000.0 * 0.05 / 0.94).abs() < 1e-9);
/// ```
pub fn powder_by_mass(
    juice: Mass,
    ta: MassFraction,
    target: MassFraction,
    blend: &AcidMix,
) -> Result<Mass, OutOfRange> {
    let parts: f64 = blend.iter().map(|&(_, share)| share).sum();
    let strength = blend.iter().map(|&(acid, share)| as_citric(share, acid)).sum::<f64>() / parts;
    let x = in_grams(juice) * (target.get() - ta.get()) / (strength - target.get());
    checked(x, strength > target.get()).map(grams)
}

/// Powder for a target in grams of acid as weighed in each litre (the trade's "6 %"), counting the volume that the
/// powder adds: x = V (target − own) / (1 − target v), v = [`GAIN_ML_PER_GRAM`].
///
/// ```
/// use stillroom::mixture::acidity::blend;
/// use stillroom::units::{grams_per_litre, in_grams, millilitres};
///
/// let powder = blend::powder_by_volume(millilitres(1000.0), grams_per_litre(8.0), grams_per_litre(60.0)).unwrap();
/// assert_eq!(in_grams(powder).round(), 54.0, "not the 52 g of the trade");
/// ```
pub fn powder_by_volume(juice: Volume, own: MassDensity, target: MassDensity) -> Result<Mass, OutOfRange> {
    let (own, target) = (in_grams_per_litre(own) / 1000.0, in_grams_per_litre(target) / 1000.0);
    let x = in_millilitres(juice) * (target - own) / (1.0 - target * GAIN_ML_PER_GRAM);
    checked(x, target * GAIN_ML_PER_GRAM < 1.0).map(grams)
}

/// The powder of each acid of the blend.
pub fn each(powder: Mass, blend: &AcidMix) -> Vec<Mass> {
    let parts: f64 = blend.iter().map(|&(_, share)| share).sum();
    blend.iter().map(|&(_, share)| powder * (share / parts)).collect()
}

/// Acid as weighed in each litre after this much powder went in. The trade's 52 g in a litre of juice that has
/// 8 g gives 58 g/L, not 60.
pub fn strength_after(juice: Volume, own: MassDensity, powder: Mass) -> MassDensity {
    let (ml, powder) = (in_millilitres(juice), in_grams(powder));
    let acid = in_grams_per_litre(own) / 1000.0 * ml + powder;
    grams_per_litre(1000.0 * acid / (ml + GAIN_ML_PER_GRAM * powder))
}

fn checked(x: f64, reachable: bool) -> Result<f64, OutOfRange> {
    let why = if !reachable {
        "the powder is not strong enough for this target"
    } else if x < 0.0 {
        "the juice is sourer than the target: thin it instead"
    } else if !x.is_finite() {
        "an amount is not a number, or the blend is empty"
    } else {
        return Ok(x);
    };
    Err(OutOfRange::new("acid powder", why))
}
