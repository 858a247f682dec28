//! Sweetness: Brix, sugar by volume, and the scales of a hydrometer.

use crate::units::{Brix, MassDensity, MassFraction, Temperature, celsius, degrees_celsius, grams, in_kg_per_m3};

use super::polynomial::horner;
use super::root::bracketed;
use super::sugar_water::{sucrose_solution_kg_m3, water_kg_m3};
use super::{Estimate, Mixture, OutOfRange};

/// Water at 20 °C, kg/m³ (rounded as hydrometer tables use it).
const WATER_20C: f64 = 998.203;
/// Air, kg/m³: what apparent specific gravity takes off both weighings.
const AIR: f64 = 1.2;
/// The modulus of the Baumé scale for liquids heavier than water.
const BAUME_MODULUS: f64 = 145.0;

impl Mixture {
    /// Dissolved non-volatile solids, grams per 100 g of the mixture as it is. For a liquid that is to be
    /// strained, ask [`Mixture::dissolved`] of it first. An empty mixture has none.
    pub fn brix(&self) -> Brix {
        Brix::saturating(100.0 * self.per_gram().solids_grams())
    }

    /// Sugars as weighed, per volume at 20 °C.
    pub fn sugar_concentration(&self) -> Result<Estimate<MassDensity>, OutOfRange> {
        let volume = self.volume_at_20c()?;
        let value = grams(self.sugar_grams()) / volume.value;
        Ok(Estimate { value, error: value * (volume.error / volume.value), extrapolated: volume.extrapolated })
    }

    /// True specific gravity 20/20.
    pub fn specific_gravity(&self) -> Result<Estimate<f64>, OutOfRange> {
        Ok(self.density(celsius(20.0))?.map(|rho| in_kg_per_m3(rho) / WATER_20C))
    }
}

/// Specific gravity 20/20 weighed in air, as hydrometers and the NBS and ASBC tables have it:
/// `(rho - 1.2)/(998.203 - 1.2)`.
pub fn apparent_specific_gravity(density_at_20c: MassDensity) -> f64 {
    (in_kg_per_m3(density_at_20c) - AIR) / (WATER_20C - AIR)
}

/// The Brix of a sucrose solution with this density, by inverting SPS-4: 0 to 85 °Bx, 0 to 80 °C.
///
/// The cubics that are printed for this (NBS, ASBC) are useless above 40 °Bx; this is not.
/// Invert sugar reads low by 0.2 at 30, 0.55 at 50 and 0.73 °Bx at 60 (a hydrometer sees sucrose).
pub fn brix_of_density(density: MassDensity, temperature: Temperature) -> Result<Estimate<Brix>, OutOfRange> {
    let (rho, t_c) = (in_kg_per_m3(density), degrees_celsius(temperature));
    let refusal = |why: String| OutOfRange::new("Brix from density", why);
    if !(0.0..=80.0).contains(&t_c) {
        return Err(refusal(format!("sugar in water is known from 0 to 80 °C, not at {t_c:.1} °C")));
    }
    let w = bracketed(|w| sucrose_solution_kg_m3(w, t_c) - rho, 0.0, 0.85, 1e-10).map_err(|_| {
        let (least, most) = (water_kg_m3(t_c), sucrose_solution_kg_m3(0.85, t_c));
        refusal(format!("{rho:.1} kg/m³ is not between water ({least:.1}) and 85 °Bx ({most:.1}) at {t_c:.1} °C"))
    })?;
    // 0.3 kg/m³ (0.9 above 70 %) over a slope of 3.9 to 6.5 kg/m³ for each °Bx.
    let error = if w > 0.7 { 0.15 } else { 0.08 };
    Ok(Estimate::new(Brix::saturating(100.0 * w), Brix::saturating(error)))
}

/// Degrees Plato from apparent specific gravity 20/20: the ASBC cubic, good to about 20 °P (1.083).
/// Degrees Plato and °Bx are the same scale to 0.01; beyond 20 use [`brix_of_density`].
pub fn plato_of_apparent(specific_gravity: f64) -> Result<f64, OutOfRange> {
    const ASBC: [f64; 4] = [-616.868, 1111.14, -630.272, 135.997];
    if (1.0..=1.083).contains(&specific_gravity) {
        return Ok(horner(&ASBC, specific_gravity));
    }
    let why = format!("the scale is good from 1.000 to 1.083, not at {specific_gravity:.4}");
    Err(OutOfRange::new("degrees Plato", why))
}

/// Degrees Baumé, modulus 145: `145 - 145/SG`, for liquids heavier than water (Hydraulic Institute data
/// book, section 2.D). None below the gravity of water.
pub fn baume_of(specific_gravity: f64) -> Option<f64> {
    (specific_gravity >= 1.0).then(|| BAUME_MODULUS - BAUME_MODULUS / specific_gravity)
}

/// Specific gravity of degrees Baumé. None from 145 up, where the scale ends, and below 0.
pub fn specific_gravity_of_baume(degrees: f64) -> Option<f64> {
    (0.0..BAUME_MODULUS).contains(&degrees).then(|| BAUME_MODULUS / (BAUME_MODULUS - degrees))
}

/// The mass fraction that a Brix is.
pub fn mass_fraction_of(brix: Brix) -> MassFraction {
    MassFraction::saturating(brix.get() / 100.0)
}
