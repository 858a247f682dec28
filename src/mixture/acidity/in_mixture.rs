//! What a mixture's acids, minerals, salt and alcohol are per kilogram of its water.
//!
//! Dissolving sugar adds no water, so it leaves the molality and the pH of the model alone: sucrose up to 50 % by mass
//! did not change the pH of lemon juice or of citric solutions (Sinclair and Eny, Stability of the buffer system of
//! lemon juice, read). Moles per litre would raise the pH of a syrup by 0.1 to 0.2, which is wrong.

use super::Solution;
use super::acids::Acid;
use crate::mixture::{Component, Mixture, OutOfRange, alcohol};
use crate::units::Temperature;

/// Rise of a carboxylic pK for each % vol of ethanol: Prenesti et al., The Scientific World Journal 2012, 249041,
/// Table 4 (12 % raises lactic from 3.70 to 3.87, the succinic steps by 0.16 to 0.2), read. Beyond 20 % supported
/// only from memory (acetic 4.76, 5.12, 5.42, 5.84 at 0, 20, 35, 50 % by mass).
const PK_RISE_PER_ABV: f64 = 0.0140;

/// Molar mass of sodium chloride, g/mol (IUPAC atomic weights).
const SALT_GRAMS_PER_MOL: f64 = 58.443;

pub(super) fn water_kg(mixture: &Mixture) -> f64 {
    mixture.grams_of(Component::Water) / 1000.0
}

/// Acid to pH 8.1 before minerals take their part, in equivalents.
pub(super) fn acid_eq(mixture: &Mixture) -> f64 {
    acids(mixture).map(|(acid, g)| g / acid.grams_per_equivalent()).sum()
}

pub(super) fn acids(mixture: &Mixture) -> impl Iterator<Item = (&'static Acid, f64)> {
    let grams = *mixture;
    Component::ACIDS
        .iter()
        .filter_map(move |&c| Some((Acid::of_component(c)?, grams.grams_of(c))))
        .filter(|&(_, g)| g > 0.0)
}

impl Solution {
    /// The solution in the water of a mixture, with this charge of strong cations (equivalents in the whole mixture).
    /// Fails without water and outside 0 to 60 °C.
    pub fn of(mixture: &Mixture, strong_cation_eq: f64, temperature: Temperature) -> Result<Self, OutOfRange> {
        let water = water_kg(mixture);
        if water <= 0.0 {
            return Err(OutOfRange::new("pH", "there is no water"));
        }
        let molal: Vec<_> = acids(mixture).map(|(acid, g)| (acid, g / acid.molar_mass / water)).collect();
        // A larder may give salt as salt, as sodium, or as both: the larger counts.
        let salt = mixture.sodium_mol.max(mixture.grams_of(Component::Salt) / SALT_GRAMS_PER_MOL);
        let solution = Self::new(&molal, strong_cation_eq / water, salt / water, temperature)?;
        Ok(solution.with_carboxylic_pk_raised(PK_RISE_PER_ABV * alcohol::solvent_abv(mixture).get()))
    }
}
