//! Strength: by volume, by mass, in US proof.

use std::sync::LazyLock;

use crate::units::{
    Abv, MassDensity, MassFraction, Temperature, Volume, celsius, degrees_celsius, in_grams, in_kg_per_m3,
};

use super::ethanol_water::{ethanol_water_kg_m3, pure_ethanol_kg_m3};
use super::root::bracketed;
use super::{Component, Estimate, Mixture, OutOfRange};

/// 20 °C: percent by volume of OIML R 22 and of EU law.
const STANDARD_C: f64 = 20.0;
/// 60 °F: US proof (27 CFR 30.11).
const SIXTY_FAHRENHEIT_C: f64 = 140.0 / 9.0;
const TOLERANCE: f64 = 1e-12;

/// Pure ethanol at 20 °C, g/ml: what percent by volume refers to (OIML R 22; its formula gives 0.78924).
pub(crate) static ETHANOL_G_PER_ML: LazyLock<f64> = LazyLock::new(|| pure_ethanol_kg_m3(STANDARD_C) / 1000.0);

/// Ethanol by volume, 0 to 1, in a spirit of the mass fraction `p`: `q = p rho(p)/rho(1)`.
fn volume_fraction(p: f64, t_c: f64) -> f64 {
    p * ethanol_water_kg_m3(p, t_c) / pure_ethanol_kg_m3(t_c)
}

fn mass_fraction_at(volume_fraction_wanted: f64, t_c: f64) -> MassFraction {
    let wanted = volume_fraction_wanted.clamp(0.0, 1.0);
    // q runs from 0 to 1 with p, so this is always bracketed; the ends are their own answer.
    let p = bracketed(|p| volume_fraction(p, t_c) - wanted, 0.0, 1.0, TOLERANCE).unwrap_or(wanted);
    MassFraction::saturating(p)
}

/// Mass fraction of ethanol in a spirit of this strength.
pub fn mass_fraction_of(strength: Abv) -> MassFraction {
    mass_fraction_at(strength.get() / 100.0, STANDARD_C)
}

/// Percent by volume at 20 °C of a spirit with this mass fraction of ethanol.
pub fn abv_of(share: MassFraction) -> Abv {
    Abv::saturating(100.0 * volume_fraction(share.get(), STANDARD_C))
}

/// Strength of the water and alcohol of a mixture without all else, % vol at 20 °C: what acids feel and what burns.
/// Higher than the strength of a sweetened drink, so limits that are held against it are cautious.
pub fn solvent_abv(mixture: &Mixture) -> Abv {
    let (water, ethanol) = (mixture.grams_of(Component::Water), mixture.grams_of(Component::Ethanol));
    abv_of(MassFraction::saturating(if ethanol > 0.0 { ethanol / (water + ethanol) } else { 0.0 }))
}

/// US proof: twice the percent by volume at 60 °F (27 CFR 30.11), which is up to 0.07 points below that at 20 °C.
pub fn proof_of(share: MassFraction) -> f64 {
    200.0 * volume_fraction(share.get(), SIXTY_FAHRENHEIT_C)
}

/// Mass fraction of ethanol in a spirit of this US proof; none outside 0 to 200.
pub fn mass_fraction_of_proof(proof: f64) -> Option<MassFraction> {
    (0.0..=200.0).contains(&proof).then(|| mass_fraction_at(proof / 200.0, SIXTY_FAHRENHEIT_C))
}

/// Mass fraction of ethanol in a spirit, from its density at a temperature: what an alcoholometer does.
/// Sugar must not be there. Error: 0.1 kg/m³ is 0.03 to 0.1 points of mass percent.
pub fn mass_fraction_of_density(density: MassDensity, temperature: Temperature) -> Result<MassFraction, OutOfRange> {
    let (rho, t_c) = (in_kg_per_m3(density), degrees_celsius(temperature));
    let refusal = |why: String| OutOfRange::new("strength", why);
    // Below 0 °C the density of weak spirit is not monotonic, and such spirit is ice.
    if !(0.0..=40.0).contains(&t_c) {
        return Err(refusal(format!("a spirit is read between 0 and 40 °C, not at {t_c:.1} °C")));
    }
    bracketed(|p| ethanol_water_kg_m3(p, t_c) - rho, 0.0, 1.0, TOLERANCE).map(MassFraction::saturating).map_err(|end| {
        refusal(format!("no spirit weighs {rho:.1} kg/m³: {:.1} to {:.1} do", end.at_hi + rho, end.at_lo + rho))
    })
}

/// The pure alcohol in a volume, at 20 °C.
pub fn pure_alcohol(volume: Volume, strength: Abv) -> Volume {
    volume * (strength.get() / 100.0)
}

impl Mixture {
    /// Percent alcohol by volume at 20 °C. From known masses it errs by the density alone: ±0.05 points
    /// where model A is at its best.
    pub fn abv(&self) -> Result<Estimate<Abv>, OutOfRange> {
        Ok(self.volume_fraction_of_ethanol(STANDARD_C)?.map(|fraction| Abv::saturating(100.0 * fraction)))
    }

    /// US proof: twice the percent by volume at 60 °F.
    pub fn us_proof(&self) -> Result<Estimate<f64>, OutOfRange> {
        Ok(self.volume_fraction_of_ethanol(SIXTY_FAHRENHEIT_C)?.map(|fraction| 200.0 * fraction))
    }

    /// Alcohol by mass of the whole; an empty mixture has none.
    pub fn abw(&self) -> MassFraction {
        MassFraction::saturating(self.per_gram().grams_of(Component::Ethanol))
    }

    fn volume_fraction_of_ethanol(&self, t_c: f64) -> Result<Estimate<f64>, OutOfRange> {
        let ethanol_g = self.grams_of(Component::Ethanol);
        if ethanol_g == 0.0 {
            return Ok(Estimate::new(0.0, 0.0));
        }
        let density = self.density(celsius(t_c))?;
        let rho = in_kg_per_m3(density.value);
        let value = ethanol_g / in_grams(self.mass()) * rho / pure_ethanol_kg_m3(t_c);
        Ok(Estimate { value, error: value * in_kg_per_m3(density.error) / rho, extrapolated: density.extrapolated })
    }
}
