//! The salts of a juice: its minerals hold part of its acid. From a table, or from a measured pH and acidity.

use super::Solution;
use super::acids::Acid;
use super::titration::CITRIC_GRAMS_PER_EQUIVALENT;
use crate::mixture::OutOfRange;
use crate::units::{MassFraction, Ph, Temperature};

/// Shares of the mineral charge that the organic acids hold: low, middle, high. Above 0.5 in
/// grapefruit and above 0.7 in oranges: Sinclair and Eny (papers on the buffer system of citrus juice), read;
/// the band 0.5 to 1.0 is taken from that.
pub const SHARE_HELD: [f64; 3] = [0.5, 0.7, 1.0];

/// The minerals of an amount of juice, in milligrams; `None` where the table is blank.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Minerals {
    /// Potassium.
    pub potassium_mg: Option<f64>,
    /// Sodium.
    pub sodium_mg: Option<f64>,
    /// Calcium.
    pub calcium_mg: Option<f64>,
    /// Magnesium.
    pub magnesium_mg: Option<f64>,
    /// Phosphorus.
    pub phosphorus_mg: Option<f64>,
}

/// What the minerals of a juice do to its acid; the two fields of a mixture of those names.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// Strong cations that hold acid as salt, in equivalents, for each share of [`SHARE_HELD`].
    pub bound_cations_eq: [f64; 3],
    /// Sodium, taken as table salt, in moles.
    pub sodium_mol: f64,
}

/// Bound cations = k (K/39.0983 + 2 Ca/40.078 + 2 Mg/24.305 − P/30.9738), in milliequivalents from
/// milligrams, for k of [`SHARE_HELD`]: phosphate (one charge at the pH of a juice) is a strong anion's
/// share, sodium counts as table salt. Never below none. `None` when one of the five is not known: a blank is
/// not zero.
pub fn bound_cations(minerals: &Minerals) -> Option<Bound> {
    let charge_meq =
        minerals.potassium_mg? / 39.0983 + 2.0 * minerals.calcium_mg? / 40.078 + 2.0 * minerals.magnesium_mg? / 24.305
            - minerals.phosphorus_mg? / 30.9738;
    let charge_eq = charge_meq.max(0.0) / 1000.0;
    Some(Bound {
        bound_cations_eq: SHARE_HELD.map(|k| k * charge_eq),
        sodium_mol: minerals.sodium_mg? / 22.9898 / 1000.0,
    })
}

/// A juice as its measured acidity and pH have it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CalibratedJuice {
    /// All acid, free and bound, as a share of the juice by mass.
    pub acid_total: MassFraction,
    /// Strong cations that hold acid as salt, eq per kg of water.
    pub strong_cation_eq_per_kg_water: f64,
}

/// pH to which the acidity of a juice is measured.
const ENDPOINT: f64 = 8.1;

/// Total acid and strong cations from a measured titratable acidity (to pH 8.1, as anhydrous citric acid) and a
/// measured pH: two unknowns, two readings. At each trial of total acid the cations are those that give the
/// pH; the trial is halved in on the one that gives the acidity. `kinds` are the acids by share of mass, `water` the
/// share of water in the juice. Error: ±0.1 pH for what is then made of the juice.
pub fn calibrate(
    kinds: &[(&Acid, f64)],
    titratable: MassFraction,
    ph: Ph,
    water: MassFraction,
    temperature: Temperature,
) -> Result<CalibratedJuice, OutOfRange> {
    let shares: f64 = kinds.iter().map(|&(_, share)| share).sum();
    let fail = |why: &str| OutOfRange::new("calibration of a juice", why);
    if !(water.get() > 0.0 && shares > 0.0 && titratable.get() > 0.0 && ph.get() < ENDPOINT) {
        return Err(fail("it takes an acid, water, an acidity above zero and a pH below 8.1"));
    }
    let endpoint = Ph::new(ENDPOINT).ok_or_else(|| fail("no endpoint"))?;
    let wanted = titratable.get() / CITRIC_GRAMS_PER_EQUIVALENT * 1000.0 / water.get();
    // For this much acid, grams per kg of water: the cations at the pH, and the base from there to the endpoint.
    let trial = |acid_g: f64| -> Result<(f64, f64), OutOfRange> {
        let molal: Vec<_> =
            kinds.iter().map(|&(acid, share)| (acid, acid_g * share / shares / acid.molar_mass)).collect();
        let solution = Solution::new(&molal, 0.0, 0.0, temperature)?;
        let too_strong = || fail("no total acid of a juice agrees with both readings: measure again");
        let cation = solution.strong_cation_at(ph).ok_or_else(too_strong)?;
        let base = solution.with_strong_cation(cation).base_to(endpoint).ok_or_else(too_strong)?;
        Ok((cation, base))
    };
    // Free acid is part of all acid. Nearly all is free at a low pH, little near the endpoint: widen until the
    // acidity is reached, then halve.
    let heaviest = kinds.iter().map(|(acid, _)| acid.grams_per_equivalent()).fold(0.0, f64::max);
    let (mut low, mut high) = (0.0, wanted * heaviest);
    while trial(high)?.1 < wanted {
        (low, high) = (high, 2.0 * high);
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if trial(middle)?.1 < wanted { low = middle } else { high = middle }
    }
    let strong_cation_eq_per_kg_water = trial(high)?.0;
    // A pH meter that reads 0.05 low in a lemon asks for about this much less than no cations.
    if strong_cation_eq_per_kg_water < -0.005 {
        return Err(fail("the pH is lower than so much of these acids can give: measure again"));
    }
    let acid_total = MassFraction::new(high / 1000.0 * water.get()).ok_or_else(|| fail("more acid than juice"))?;
    Ok(CalibratedJuice { acid_total, strong_cation_eq_per_kg_water })
}
