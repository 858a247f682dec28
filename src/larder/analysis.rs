//! From an analysis of 100 g to the mixture of one gram: the sum is closed, the minerals are accounted for.

use crate::mixture::acidity::juice::{Minerals, bound_cations};
use crate::mixture::{Component, Mineral, Mixture};

/// Grams of components and milligrams of minerals in 100 g as used, as far as they are known.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Analysis {
    pub(super) grams: Mixture,
    pub(super) minerals: Minerals,
}

/// Milligrams of minerals, each asked for by its key.
pub(super) fn minerals(mut mg: impl FnMut(Mineral) -> Option<f64>) -> Minerals {
    Minerals {
        potassium_mg: mg(Mineral::Potassium),
        sodium_mg: mg(Mineral::Sodium),
        calcium_mg: mg(Mineral::Calcium),
        magnesium_mg: mg(Mineral::Magnesium),
        phosphorus_mg: mg(Mineral::Phosphorus),
    }
}

/// Molar mass of sodium, g/mol (IUPAC standard atomic weight).
const SODIUM_G_PER_MOL: f64 = 22.9898;
/// Molar mass of sodium chloride, g/mol (IUPAC standard atomic weights).
const SALT_G_PER_MOL: f64 = 58.443;

impl Analysis {
    /// What the components miss to 100 g (above zero), or have too much (below).
    pub(super) fn gap_grams(&self) -> f64 {
        100.0 - self.grams.total_grams()
    }

    /// Pure substances have no minerals to know of, but for the sodium of the salt.
    pub(super) fn take_blanks_as_none(&mut self) {
        let of_salt = 1000.0 * self.grams.grams_of(Component::Salt) / SALT_G_PER_MOL * SODIUM_G_PER_MOL;
        let Minerals { potassium_mg, sodium_mg, calcium_mg, magnesium_mg, phosphorus_mg } = &mut self.minerals;
        sodium_mg.get_or_insert(of_salt);
        for mg in [potassium_mg, calcium_mg, magnesium_mg, phosphorus_mg] {
            mg.get_or_insert(0.0);
        }
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

    /// With the minerals as charge. Unknown is never zero: the ash (and what is not known at all) of an
    /// ingredient whose minerals or acids are not known is counted apart, and makes the pH of a mixture unknown.
    fn accounted(&self) -> Mixture {
        let mut mixture = self.grams;
        // Sodium comes as table salt, analysed or weighed in.
        mixture.sodium_mol = match self.minerals.sodium_mg {
            Some(mg) => mg / 1000.0 / SODIUM_G_PER_MOL,
            None => mixture.grams_of(Component::Salt) / SALT_G_PER_MOL,
        };
        let ash = mixture.grams_of(Component::Ash);
        match bound_cations(&self.minerals) {
            Some(bound) => {
                mixture.bound_cations_eq = bound.bound_cations_eq;
                // no fruit is an alkali: minerals that would hold more than all of its acid are held by what nobody listed
                let is_held = mixture.titratable_acid_grams() >= 0.0;
                if mixture.grams_of_all(&Component::ACIDS) == 0.0 || !is_held {
                    let [_, middle, _] = bound.bound_cations_eq;
                    mixture.unaccounted_ash_g = ash;
                    mixture.unaccounted_cations_eq = middle;
                }
            }
            None => {
                mixture.unaccounted_ash_g = ash + mixture.grams_of(Component::Other) + self.gap_grams().max(0.0);
            }
        }
        mixture
    }
}
