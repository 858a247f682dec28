//! Where ice appears in a drink as it is cooled, and how much of it there is at a temperature below.

use crate::units::{Temperature, celsius, degrees_celsius, kelvins};

use super::ethanol_water_table::freezing_depression_k;
use super::phase::Phase;
use super::polynomial::through_rows;
use super::root::bracketed;
use super::water_activity::AqueousSolution;
use super::{Component, Estimate, Mixture, OutOfRange};

const PROPERTY: &str = "freezing point";
const ZERO_C_K: f64 = 273.15;
/// Molar heat of fusion of ice at 0 °C and what liquid water takes up more than ice for each degree, J/mol and J/(mol K):
/// the pair by which the depressions of the CRC Handbook (`crc-102`) are turned into water activities.
const FUSION_J_PER_MOL: f64 = 6009.5;
const FUSION_CP_J_PER_MOL_K: f64 = 38.1;
const R_J_PER_MOL_K: f64 = 8.3145;
/// Colder than this no drink is followed, °C (ours).
const COLDEST_C: f64 = -60.0;
/// The equation of sugar in water was checked to here, °C.
const SUGAR_CHECKED_C: f64 = -10.0;
const TOLERANCE_C: f64 = 1e-9;

/// Logarithm of the water activity that stands beside ice:
/// `ln aw = -(H/R)(1/T - 1/T0) + (C/R)(T0/T - 1 + ln(T/T0))`.
pub(crate) fn ln_activity_of_ice(t_c: f64) -> f64 {
    let t_k = t_c + ZERO_C_K;
    let of_heat = -(FUSION_J_PER_MOL / R_J_PER_MOL_K) * (1.0 / t_k - 1.0 / ZERO_C_K);
    of_heat + FUSION_CP_J_PER_MOL_K / R_J_PER_MOL_K * (ZERO_C_K / t_k - 1.0 + (t_k / ZERO_C_K).ln())
}

/// The temperature at which ice stands beside the liquid, °C; the coldest that is followed where there is no water.
pub(super) fn freezing_c(mixture: &Mixture) -> f64 {
    let Some(solution) = AqueousSolution::of(mixture) else { return COLDEST_C };
    let ethanol = Phase::sorted(mixture).ethanol_in_water();
    let of_ethanol = ln_activity_of_ice(-through_rows(freezing_depression_k(), ethanol));
    let over = |t_c: f64| ln_activity_of_ice(t_c) - of_ethanol - solution.linear(t_c + ZERO_C_K).ln();
    if over(0.0) <= 0.0 {
        return 0.0;
    }
    bracketed(over, COLDEST_C, 0.0, TOLERANCE_C).unwrap_or(COLDEST_C)
}

impl Mixture {
    /// Where ice appears.
    ///
    /// The water of a spirit by the measured freezing points of ethanol in water (CRC, 102nd ed.), that of sugar, acid and
    /// salt by its water activity; both together as the product of the two activities. Stated: 0.2 K of spirit alone and of
    /// sugar alone, a tenth of what is glycerol's, 1.5 K of spirit and sugar, which nobody measured for us. Refused above 68 %
    /// of ethanol in ethanol and water by mass.
    pub fn freezing_point(&self) -> Result<Estimate<Temperature>, OutOfRange> {
        const LAST_ROW: f64 = 0.68;
        /// Glycerol alone freezes up to 8 % lower than its water activity says (source `melinder-2010`, 10 to 50 % by mass).
        const OF_GLYCEROL: f64 = 0.1;
        if AqueousSolution::of(self).is_none() {
            return Err(OutOfRange::new(PROPERTY, "there is no water"));
        }
        let ethanol = Phase::sorted(self).ethanol_in_water();
        if ethanol > LAST_ROW {
            let why = format!("known to 68 % of ethanol by mass, not at {:.0} %", 100.0 * ethanol);
            return Err(OutOfRange::new(PROPERTY, why));
        }
        let t_c = freezing_c(self);
        let solids_g = self.solids_grams();
        let dissolved = solids_g > 0.0;
        let (error_k, why): (f64, _) = match ethanol > 0.0 && dissolved {
            true => (1.5, Some("sugar in a spirit at its freezing point has not been measured")),
            false if dissolved && t_c < SUGAR_CHECKED_C => (1.0, Some("sugar in water is checked to -10 °C")),
            false => (0.2, None),
        };
        let of_glycerol = self.grams_of(Component::Glycerol) / solids_g.max(f64::MIN_POSITIVE);
        let error_k = error_k.max(OF_GLYCEROL * of_glycerol * -t_c);
        Ok(Estimate { value: celsius(t_c), error: kelvins(error_k), extrapolated: why })
    }

    /// Grams of ice in it at a temperature, the rest of it liquid beside the ice; what else may come out (sugar) is left in.
    pub fn ice_at(&self, temperature: Temperature) -> f64 {
        let t_c = degrees_celsius(temperature);
        let water = self.grams_of(Component::Water);
        let left = |ice_g: f64| freezing_c(&self.without_water(ice_g)) - t_c;
        if water <= 0.0 || left(0.0) <= 0.0 {
            return 0.0;
        }
        bracketed(left, 0.0, water, 1e-9 * water).unwrap_or(water)
    }
}
