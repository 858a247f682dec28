//! How thick a syrup is.

use uom::si::dynamic_viscosity::millipascal_second;

use crate::units::{DynamicViscosity, Temperature, degrees_celsius};

use super::{Component, Estimate, Mixture, OutOfRange};

const PROPERTY: &str = "viscosity";

/// Viscosity of sucrose in water, mPa s.
///
/// Bubnik et al., Sugar Technologists Manual (1995), form of Genotelle 1978: `x = W/(1900 - 18 W)`, `f = (30 - t)/(91 + t)`,
/// `log10 = 22.46 x - 0.114 + f (1.1 + 43.1 x^1.25)`, W in percent by mass.
fn sucrose_mpa_s(percent: f64, t_c: f64) -> f64 {
    let x = percent / (1900.0 - 18.0 * percent);
    let f = (30.0 - t_c) / (91.0 + t_c);
    10f64.powf(22.46 * x - 0.114 + f * (1.1 + 43.1 * x.powf(1.25)))
}

impl Mixture {
    /// Viscosity as if all dissolved solids were sucrose, 0 to 76 °Bx, 5 to 85 °C.
    ///
    /// Checked: CRC at 20 °C to 74 % within 3.6 %, 5 to 85 °C within 13 %; 13 % is stated. Invert sugar is thinner
    /// and gum far thicker than this. No equation was found for spirit: refused.
    pub fn viscosity(&self, temperature: Temperature) -> Result<Estimate<DynamicViscosity>, OutOfRange> {
        let t_c = degrees_celsius(temperature);
        OutOfRange::check_celsius(PROPERTY, 5.0..=85.0, t_c)?;
        if self.grams_of(Component::Ethanol) > 0.0 {
            return Err(OutOfRange::new(PROPERTY, "not known for spirit"));
        }
        let percent = self.brix().get();
        if self.grams_of(Component::Water) <= 0.0 || percent > 76.0 {
            return Err(OutOfRange::new(PROPERTY, format!("known to 76 °Bx, not at {percent:.1} °Bx")));
        }
        let value = DynamicViscosity::new::<millipascal_second>(sucrose_mpa_s(percent, t_c));
        let other = self.solids_grams() - self.grams_of(Component::Sucrose) > 0.1 * self.solids_grams();
        let extrapolated = other.then_some("solids other than sucrose are taken to be as thick as sucrose");
        Ok(Estimate { value, error: value * 0.13, extrapolated })
    }
}
