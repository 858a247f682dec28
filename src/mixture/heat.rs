//! The heat that a mixture takes up.

use super::{Component, Mixture};

/// Specific heats, kJ/(kg K). Water 4.18 (steam tables, liquid between 20 and 90 °C) and ethanol 2.44 (CRC
/// Handbook, liquid at 25 °C, 112.3 J/(mol K)): `from memory`. All else as dissolved sugar, 1.6: what
/// `cp = 4.1868 - 0.0297 Bx + 7.5e-5 Bx t` (source `bubnik-heat`, `from memory`) leaves
/// for the sugar at 50 °C; water and sugar so added are within 1 % of it from 20 to 64 °Bx.
pub(crate) const WATER_KJ: f64 = 4.18;
pub(crate) const ETHANOL_KJ: f64 = 2.44;
const DISSOLVED_KJ: f64 = 1.6;

/// What a mixture takes up for each degree, kJ.
pub fn kj_per_kelvin(mixture: &Mixture) -> f64 {
    let (water, ethanol) = (mixture.grams_of(Component::Water), mixture.grams_of(Component::Ethanol));
    let rest = mixture.total_grams() - water - ethanol;
    (WATER_KJ * water + ETHANOL_KJ * ethanol + DISSOLVED_KJ * rest) / 1000.0
}
