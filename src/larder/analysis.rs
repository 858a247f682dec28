//! From an analysis of 100 g to the mixture of one gram: the sum is closed, the minerals are accounted for.

use crate::mixture::{Component, Mineral, Mixture};

/// Grams (and milligrams of minerals) in 100 g as used, as far as they are known.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Analysis {
    /// Grams of each component.
    pub(super) grams: Mixture,
    /// Milligrams of each mineral, in the order of [`Mineral::ALL`]; `None` is unknown.
    pub(super) minerals_mg: [Option<f64>; Mineral::ALL.len()],
    /// What has no minerals by its nature: a pure substance or a spirit.
    pub(super) pure: bool,
}

impl Analysis {
    /// What the components miss to 100 g (above zero), or have too much (below).
    pub(super) fn gap_grams(&self) -> f64 {
        100.0 - self.grams.total_grams()
    }

    /// One gram. What is missing to 100 is `other`; what is above 100 is scaled down, minerals with it,
    /// so that the ratio of minerals to water (which the pH depends on) stays as analysed.
    pub(super) fn per_gram(&self) -> Mixture {
        let mut mixture = self.accounted();
        let gap = self.gap_grams();
        if gap > 0.0 {
            mixture.set_grams(Component::Other, mixture.grams_of(Component::Other) + gap);
        }
        mixture.per_gram()
    }

    /// The minerals as charge. Unknown is never zero: ash (and what is not known at all) of an ingredient
    /// whose minerals or acids are not known is kept apart, and makes the pH of a mixture unknown.
    fn accounted(&self) -> Mixture {
        let mut mixture = self.grams;
        let known = |mineral: Mineral| {
            let written =
                Mineral::ALL.iter().zip(self.minerals_mg).find(|(m, _)| **m == mineral).and_then(|(_, mg)| mg);
            written.or(self.pure.then_some(0.0))
        };
        let sodium_mg = known(Mineral::Sodium);
        mixture.sodium_mol = match sodium_mg {
            Some(mg) => mg / 1000.0 / SODIUM_G_PER_MOL,
            None => mixture.grams_of(Component::Salt) / SALT_G_PER_MOL,
        };
        let minerals = [Mineral::Potassium, Mineral::Calcium, Mineral::Magnesium, Mineral::Phosphorus].map(known);
        let ash = mixture.grams_of(Component::Ash);
        match minerals {
            [Some(k), Some(ca), Some(mg), Some(p)] => {
                let cations = bound_cations_eq(k, ca, mg, p);
                if mixture.grams_of_all(&Component::ACIDS) > 0.0 {
                    mixture.bound_cations_eq = cations;
                } else {
                    // Held by what, nobody knows: they take no acid away from the others, and count as doubt.
                    let [_, middle, _] = cations;
                    mixture.unaccounted_ash_g = ash;
                    mixture.unaccounted_cations_eq = middle.abs();
                }
            }
            _ => {
                let unknown = mixture.grams_of(Component::Other) + self.gap_grams().max(0.0);
                mixture.unaccounted_ash_g = ash + unknown;
            }
        }
        mixture
    }
}

/// Molar mass of sodium, g/mol (IUPAC standard atomic weight, abridged, 2021).
const SODIUM_G_PER_MOL: f64 = 22.990;
/// Molar mass of sodium chloride, g/mol (IUPAC standard atomic weights, abridged, 2021).
const SALT_G_PER_MOL: f64 = 58.44;

fn bound_cations_eq(k_mg: f64, ca_mg: f64, mg_mg: f64, p_mg: f64) -> [f64; 3] {
    let all = (k_mg / 39.0983 + 2.0 * ca_mg / 40.078 + 2.0 * mg_mg / 24.305 - p_mg / 30.9738) / 1000.0;
    [0.5, 0.7, 1.0].map(|share| share * all)
}
