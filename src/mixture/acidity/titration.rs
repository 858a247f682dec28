//! Titratable acidity: the base that brings a liquid to an endpoint, told as grams of one acid.

use super::Solution;
use super::acids::{Acid, CITRIC};
use super::in_mixture::{acid_eq, water_kg};
use crate::mixture::{Mixture, OutOfRange};
use crate::units::{MassDensity, MassFraction, Ph, Temperature, Volume, grams_per_litre, in_millilitres};

/// Grams of anhydrous citric acid that give one mole of protons: 64.0412.
pub const CITRIC_GRAMS_PER_EQUIVALENT: f64 = CITRIC.molar_mass / CITRIC.titrated_protons;

impl Mixture {
    /// Titratable acid to pH 8.1 in grams of anhydrous citric acid: every acid by its equivalents, less
    /// the acid that the bound cations (their middle value) hold as salt. Cations of an ingredient without
    /// listed acids (white sugar) are held by what nobody knows: they take nothing away from the others' acid.
    ///
    /// TA = 64.0412 (Σ grams / grams per equivalent − bound equivalents). High by what the last proton of
    /// citric acid keeps back at pH 8.1: 0.1 % at 0.05 mol/kg, at most 0.45 % in the juices of the table,
    /// against the charge balance. Exactly linear in the mixture, which is what a target needs. Minerals
    /// that outweigh the acid make it negative: whoever prints it clamps it.
    pub fn titratable_acid_grams(&self) -> f64 {
        (acid_eq(self) - (self.bound_cations_eq[1] - self.unaccounted_cations_eq)) * CITRIC_GRAMS_PER_EQUIVALENT
    }
}

impl Solution {
    /// Base that brings it to the endpoint, in equivalents per kg of water; negative when it lies above.
    pub fn base_to(&self, endpoint: Ph) -> Option<f64> {
        Some(self.strong_cation_at(endpoint)? - self.strong_cation_eq())
    }

    /// Base that raises the pH by one unit, at its pH: equivalents per kg of water, from the base
    /// between 0.05 below and 0.05 above.
    pub fn buffer_capacity(&self) -> Option<f64> {
        let ph = self.balance()?.ph.get();
        let (below, above) = (Ph::new(ph - 0.05)?, Ph::new(ph + 0.05)?);
        Some((self.strong_cation_at(above)? - self.strong_cation_at(below)?) / 0.1)
    }
}

/// Titratable acidity of a mixture to any endpoint by the charge balance (base found = base added, not by the linear
/// rule), as grams of anhydrous citric acid per gram; [`as_acid`] tells it as another. Never below zero.
/// Error: that of the acids of the table.
///
/// ```
/// use stillroom::mixture::{Component, Mixture, acidity::titration};
/// use stillroom::units::{Ph, celsius};
///
/// let sour = Mixture::of(&[(Component::Citric, 5.0), (Component::Water, 95.0)]);
/// let acid = titration::to_endpoint(&sour, Ph::new(8.1).unwrap(), celsius(20.0)).unwrap();
/// assert!((acid.get() / 0.05 - 1.0).abs() < 0.01);
/// ```
pub fn to_endpoint(mixture: &Mixture, endpoint: Ph, temperature: Temperature) -> Result<MassFraction, OutOfRange> {
    let solution = Solution::of(mixture, mixture.bound_cations_eq[1], temperature)?;
    let fraction = solution
        .base_to(endpoint)
        .map(|base| base.max(0.0) * water_kg(mixture) * CITRIC_GRAMS_PER_EQUIVALENT / mixture.total_grams());
    fraction.and_then(MassFraction::new).ok_or_else(|| {
        OutOfRange::new("titratable acidity", "the charge balance has no answer for so strong a solution")
    })
}

/// The same acidity told as another acid. Phosphoric acid stands for its protons to pH 8.1 alone.
pub fn as_acid(as_citric: f64, acid: &Acid) -> f64 {
    as_citric * acid.grams_per_equivalent() / CITRIC_GRAMS_PER_EQUIVALENT
}

/// Grams of an acid told as anhydrous citric acid: the inverse of [`as_acid`].
pub fn as_citric(grams: f64, acid: &Acid) -> f64 {
    grams * CITRIC_GRAMS_PER_EQUIVALENT / acid.grams_per_equivalent()
}

/// Titratable acidity from a titration: base of this normality (equivalents per litre) that a sample took.
/// TA = grams per equivalent × normality × titre / sample. `None` for a sample that is nothing.
pub fn from_titre(sample: Volume, normality: f64, titre: Volume, acid: &Acid) -> Option<MassDensity> {
    let (sample, titre) = (in_millilitres(sample), in_millilitres(titre));
    let found = acid.grams_per_equivalent() * normality * titre / sample;
    (sample > 0.0 && found.is_finite() && found >= 0.0).then(|| grams_per_litre(found))
}
