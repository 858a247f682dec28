//! Titratable acidity.

use super::acids::{Acid, CITRIC_GRAMS_PER_EQUIVALENT};
use crate::mixture::{Component, Mixture};

impl Mixture {
    /// Titratable acid to pH 8.1 in grams of anhydrous citric acid: every acid by its equivalents, less
    /// the acid that the bound cations (their middle value) hold as salt.
    ///
    /// TA = 64.0412 (Σ grams / grams per equivalent − bound equivalents). At pH 8.1 the acids of fruit
    /// have given 99.9 % of their protons, so this differs by less than 0.2 % from the charge balance. Exactly linear in the
    /// mixture, which is what a target needs. Minerals without acid make it negative: that is the acid they
    /// would use up, and whoever prints it clamps it.
    pub fn titratable_acid_grams(&self) -> f64 {
        let given_eq: f64 = Component::ACIDS
            .iter()
            .filter_map(|&component| Some(self.grams_of(component) / Acid::of(component)?.grams_per_equivalent()))
            .sum();
        (given_eq - self.bound_cations_eq[1]) * CITRIC_GRAMS_PER_EQUIVALENT
    }
}
