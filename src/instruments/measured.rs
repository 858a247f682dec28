//! Hydrometers and a weighed volume, as the density of the liquid at its own temperature.

use crate::diagnostic::Code;
use crate::mixture::{Estimate, OutOfRange, alcohol, density, sweetness};
use crate::units::{
    MassDensity, MassFraction, Temperature, celsius, degrees_celsius, in_grams, in_kg_per_m3, in_millilitres, kg_per_m3,
};

use super::readings::{Density, InstrumentUncertainty, standard_temperature};
use super::told::{Refused, out_of_range, refuse};

/// Cubic expansion of the soda-lime glass of hydrometers, per °C: `from memory`.
const GLASS_PER_C: f64 = 25e-6;
/// Air, kg/m³: hydrometer tables give specific gravity as weighed in air.
const AIR_KG_M3: f64 = 1.2;
/// 60 °F, of US proof.
const SIXTY_FAHRENHEIT_C: f64 = 140.0 / 9.0;
/// Share by which a vessel may miss its mark: a class B cylinder of 100 ml, `common practice, no source`.
const VESSEL: f64 = 0.01;
/// Specific gravity of what is read here: pure alcohol has 0.79, a solution of 85 °Bx 1.45.
const GRAVITIES: std::ops::RangeInclusive<f64> = 0.78..=1.46;
const MOST_BAUME: f64 = 45.0;

/// The density that a reading tells, at the temperature of the liquid.
///
/// A hydrometer weighs the liquid that it pushes aside: `rho = rho_scale/(1 + 25e-6 (t - t0))`, with `rho_scale` the density
/// that its mark stands for at the temperature `t0` it is made for, and the glass that has grown since. The scale
/// temperature is 20 °C for Brix and % vol, 60 °F for US proof, `calibrated` for specific gravity and Baumé.
/// A weighed volume is mass over volume; air is not taken off, as on a weigh sheet (0.1 %, inside the uncertainty of a vessel).
pub(crate) fn density(
    shown: &Density,
    calibrated: Temperature,
    temperature: Temperature,
    uncertainties: &InstrumentUncertainty,
) -> Result<Estimate<MassDensity>, Refused> {
    let (on_scale, made_for) = match *shown {
        Density::Weighed { mass, volume } => return weighed(in_grams(mass), in_millilitres(volume), uncertainties),
        Density::SpecificGravity(gravity) => (of_gravity(gravity, calibrated)?, calibrated),
        Density::Baume(degrees) => (of_baume(degrees, calibrated)?, calibrated),
        Density::Brix(brix) => {
            let share = sweetness::mass_fraction_of(brix);
            let rho = density::sucrose_solution(share, standard_temperature()).map_err(|why| off_scale(&why))?;
            if rho.extrapolated.is_some() {
                let title = format!("{} °Bx lies off the scale of 0 to 85 °Bx", brix.get());
                return refuse(Code::OutOfRange, title, "thin it 1:1 by weight with water and read again");
            }
            (rho.value, standard_temperature())
        }
        Density::Alcohol(abv) => {
            (of_spirit(alcohol::mass_fraction_of(abv), standard_temperature())?, standard_temperature())
        }
        Density::Proof(proof) => {
            let Some(share) = alcohol::mass_fraction_of_proof(proof) else {
                let title = format!("{proof} proof lies off the scale of 0 to 200");
                return refuse(Code::OutOfRange, title, "US proof was expected: twice the % vol at 60 °F");
            };
            (of_spirit(share, celsius(SIXTY_FAHRENHEIT_C))?, celsius(SIXTY_FAHRENHEIT_C))
        }
    };
    let warmer = degrees_celsius(temperature) - degrees_celsius(made_for);
    let value = in_kg_per_m3(on_scale) / (1.0 + GLASS_PER_C * warmer);
    Ok(Estimate::new(kg_per_m3(value), kg_per_m3(1000.0 * uncertainties.hydrometer_sg)))
}

fn off_scale(why: &OutOfRange) -> Refused {
    out_of_range(why, "read the hydrometer again at about 20 °C")
}

fn of_spirit(share: MassFraction, temperature: Temperature) -> Result<MassDensity, Refused> {
    density::ethanol_water(share, temperature).map(|rho| rho.value).map_err(|why| off_scale(&why))
}

/// `rho = s (rho_w - 1.2) + 1.2` with water at the temperature the hydrometer is made for.
fn of_gravity(gravity: f64, calibrated: Temperature) -> Result<MassDensity, Refused> {
    if !GRAVITIES.contains(&gravity) {
        let title = format!("SG {gravity} lies outside {} to {}", GRAVITIES.start(), GRAVITIES.end());
        return refuse(Code::OutOfRange, title, "specific gravity is 1 for water: write 1.058, not 1058 or 58");
    }
    let water = density::water(calibrated).map_err(|why| off_scale(&why))?;
    Ok(kg_per_m3(gravity * (in_kg_per_m3(water.value) - AIR_KG_M3) + AIR_KG_M3))
}

fn of_baume(degrees: f64, calibrated: Temperature) -> Result<MassDensity, Refused> {
    let gravity = sweetness::specific_gravity_of_baume(degrees).filter(|_| degrees <= MOST_BAUME);
    let Some(gravity) = gravity else {
        let title = format!("{degrees} °Bé lies off the scale of 0 to {MOST_BAUME}");
        return refuse(Code::OutOfRange, title, "degrees Baumé for liquids heavier than water were expected");
    };
    of_gravity(gravity, calibrated)
}

/// Without the last digits that a unit has left behind.
pub(super) fn plain(x: f64) -> f64 {
    (x * 1e9).round() / 1e9
}

fn weighed(
    mass_g: f64,
    volume_ml: f64,
    uncertainties: &InstrumentUncertainty,
) -> Result<Estimate<MassDensity>, Refused> {
    let [mass_g, volume_ml] = [mass_g, volume_ml].map(plain);
    if !(mass_g > 0.0 && volume_ml > 0.0 && mass_g.is_finite() && volume_ml.is_finite()) {
        let title = format!("{mass_g} g in {volume_ml} ml is no density");
        return refuse(Code::OutOfRange, title, "give the net weight and the volume to the mark, both above nothing");
    }
    let value = 1000.0 * mass_g / volume_ml;
    if !GRAVITIES.contains(&(value / 1000.0)) {
        let title = format!("{mass_g} g in {volume_ml} ml is {value:.0} kg/m³, which no syrup or spirit weighs");
        return refuse(Code::OutOfRange, title, "was the vessel taken off the weight, and filled to the mark?");
    }
    let uncertainty = value * (in_grams(uncertainties.scale) / mass_g).hypot(VESSEL);
    Ok(Estimate::new(kg_per_m3(value), kg_per_m3(uncertainty)))
}
