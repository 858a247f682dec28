//! Refractive index, and what a refractometer that is scaled in sucrose at 20 °C shows.

use crate::units::{Brix, Temperature, degrees_celsius};

use super::density::{self, spirit_volume_ml, volume_ml};
use super::ethanol_water_table::refractive_index_20c;
use super::phase::Phase;
use super::polynomial::{horner, through_rows};
use super::root::bracketed;
use super::sugar_water::water_kg_m3;
use super::{Component, Estimate, Mixture, OutOfRange};

/// How the specific refraction of dissolved matter grows for each °C: fitted to the temperature table of
/// OIV-MA-AS2-02 (OENO 21/2004), table I.
const GROWTH_PER_C: f64 = 7.078e-5;
/// The smallest slope of the index over Brix (dilute solutions), which turns an error of one into the other.
const INDEX_PER_BRIX: f64 = 0.0014;
/// The sweetest solution that the sucrose equations reach.
const MOST_SUCROSE: f64 = 0.85;

/// Refractive index of water at 589 nm against air, 0 to 60 °C.
/// Fitted to IAPWS R9-97 divided by 1.000271 for air; residual 3e-6.
fn water_index(t_c: f64) -> f64 {
    horner(&[1.33299, -8.98803e-5, -1.734860e-6, 1.270108e-8, -9.100814e-11], t_c - 20.0)
}

/// `(n² - 1)/(n² + 2)` (Lorentz and Lorenz).
fn lorentz(n: f64) -> f64 {
    (n * n - 1.0) / (n * n + 2.0)
}

/// The refraction of the ethanol and water of a phase, mL: `L(n) V` of them alone.
///
/// At 20 °C from the measured indices of ethanol-water (CRC 102nd ed.): constant refractions of ethanol and
/// water would be wrong by up to 0.0015, that is 0.9 °Bx. At other temperatures the water part follows
/// water and the ethanol part grows like dissolved sugar: an assumption.
fn spirit_refraction_ml(phase: &Phase, t_c: f64) -> f64 {
    let p = phase.ethanol_in_water();
    let index = if p > 0.0 { through_rows(refractive_index_20c(), p) } else { water_index(20.0) };
    let at_20 = lorentz(index) * spirit_volume_ml(phase, 20.0);
    if t_c == 20.0 {
        return at_20;
    }
    let specific = |t_c: f64| lorentz(water_index(t_c)) / water_kg_m3(t_c);
    let water_growth = specific(t_c) / specific(20.0);
    at_20 * ((1.0 - p) * water_growth + p * (1.0 + GROWTH_PER_C * (t_c - 20.0)))
}

/// Refractive index of a clear phase.
///
/// `L(n) = (sum of the refractions)/V`. Specific refractions in mL/g, `W` the share of sugars in sugars and
/// water: fitted to 48 rows of OIV-MA-AS2-02 table II and to CRC 102nd ed. (2021). Glycerol 0.223, acetic
/// acid 0.216 from the index and density of the pure substance or of a 10 % solution, salt 0.1573 from the CRC indices of 5 to 26 %: `from memory`.
fn index(phase: &Phase, t_c: f64) -> f64 {
    const SUCROSE: [f64; 3] = [0.20672441, -0.00156361, -0.00129837];
    const GLUCOSE: [f64; 3] = [0.20738613, -0.00244506, -0.00090059];
    const FRUCTOSE: [f64; 3] = [0.20475530, -0.00043509, -0.00230635];
    const GLYCEROL: f64 = 0.223;
    const SALT: f64 = 0.1573;
    const ACETIC: f64 = 0.216;

    let w = phase.sugar_in_water();
    let dissolved = phase.sucrose_like * horner(&SUCROSE, w)
        + phase.glucose * horner(&GLUCOSE, w)
        + phase.fructose * horner(&FRUCTOSE, w)
        + phase.glycerol * GLYCEROL
        + phase.salt * SALT
        + phase.acetic * ACETIC;
    let refraction = spirit_refraction_ml(phase, t_c) + dissolved * (1.0 + GROWTH_PER_C * (t_c - 20.0));
    let l = refraction / volume_ml(phase, t_c);
    ((1.0 + 2.0 * l) / (1.0 - l)).sqrt()
}

fn sucrose_index(w: f64, t_c: f64) -> f64 {
    index(&Phase { water: 1.0 - w, sucrose_like: w, ..Phase::default() }, t_c)
}

/// The mass fraction of sucrose whose solution has this index; none outside 0 to 85 %.
fn sucrose_of_index(n: f64, t_c: f64) -> Option<f64> {
    bracketed(|w| sucrose_index(w, t_c) - n, 0.0, MOST_SUCROSE, 1e-9).ok()
}

fn check_temperature(property: &'static str, t_c: f64) -> Result<(), OutOfRange> {
    OutOfRange::check_celsius(property, 0.0..=60.0, t_c)
}

/// Refractive index of sucrose in water. Within 1e-5 of the five-decimal OIV rows at 20 °C.
pub fn sucrose_solution(brix: Brix, temperature: Temperature) -> Result<Estimate<f64>, OutOfRange> {
    const PROPERTY: &str = "refractive index";
    let (w, t_c) = (brix.get() / 100.0, degrees_celsius(temperature));
    check_temperature(PROPERTY, t_c)?;
    if w > MOST_SUCROSE {
        return Err(OutOfRange::new(PROPERTY, "known to 85 °Bx"));
    }
    Ok(Estimate::new(sucrose_index(w, t_c), 8e-5))
}

/// The Brix of the sucrose solution with this refractive index at a temperature.
pub fn brix_of_index(index: f64, temperature: Temperature) -> Result<Estimate<Brix>, OutOfRange> {
    const PROPERTY: &str = "Brix from refractive index";
    let t_c = degrees_celsius(temperature);
    check_temperature(PROPERTY, t_c)?;
    let w = sucrose_of_index(index, t_c)
        .ok_or_else(|| OutOfRange::new(PROPERTY, format!("{index:.5} is not that of a solution of 0 to 85 °Bx")))?;
    Ok(Estimate::new(Brix::saturating(100.0 * w), Brix::saturating(0.05)))
}

/// The true Brix of a sucrose solution, from the reading at another temperature on a scale made for 20 °C
/// (an instrument without temperature compensation).
///
/// Checked: 121 values of OIV-MA-AS2-02 table I at 8 to 17 °C within 0.04 °Bx. From 18 to 40 °C the published
/// tables disagree by up to 0.12 °Bx at 30 °C: 0.15 is stated.
pub fn correct_reading(reading: Brix, temperature: Temperature) -> Result<Estimate<Brix>, OutOfRange> {
    const PROPERTY: &str = "corrected reading";
    let (shown, t_c) = (reading.get() / 100.0, degrees_celsius(temperature));
    check_temperature(PROPERTY, t_c)?;
    if shown > MOST_SUCROSE {
        return Err(OutOfRange::new(PROPERTY, "refractometer readings are known to 85 °Bx"));
    }
    let w = sucrose_of_index(sucrose_index(shown, 20.0), t_c).ok_or_else(|| {
        OutOfRange::new(
            PROPERTY,
            format!("a reading of {:.1} °Bx at {t_c:.1} °C is no sucrose solution", reading.get()),
        )
    })?;
    let value = Brix::saturating(100.0 * w);
    Ok(match t_c {
        _ if (8.0..=21.0).contains(&t_c) => Estimate::new(value, Brix::saturating(0.05)),
        _ if (8.0..=40.0).contains(&t_c) => Estimate::new(value, Brix::saturating(0.15)),
        _ => Estimate::extrapolated(value, Brix::saturating(0.3), "readings are corrected between 8 and 40 °C"),
    })
}

impl Mixture {
    /// Refractive index of the liquid (undissolved matter and fat left out) at 589 nm against air, 0 to 60 °C.
    ///
    /// Sucrose 8e-5, glucose and fructose 1.5e-4, with ethanol 3e-4: the mixing rule is exact in both binary
    /// limits, but no measured sweet spirit was there to prove it. Acids, maltose, lactose, minerals and
    /// what is not known are taken to refract like sucrose: an assumption.
    pub fn refractive_index(&self, temperature: Temperature) -> Result<Estimate<f64>, OutOfRange> {
        const PROPERTY: &str = "refractive index";
        let t_c = degrees_celsius(temperature);
        check_temperature(PROPERTY, t_c)?;
        let phase = Phase::sorted(self).clear();
        let density = density::of_phase(&phase, t_c)
            .map_err(|refused| OutOfRange::new(PROPERTY, format!("needs a density; {}", refused.why)))?;
        let value = index(&phase, t_c);
        let error = match () {
            () if phase.ethanol > 0.0 => 3e-4,
            () if phase.glucose + phase.fructose > 0.0 => 1.5e-4,
            () => 8e-5,
        };
        let syrup_of_starch =
            self.grams_of(Component::OtherCarbohydrate) + self.grams_of(Component::Sugars) > 0.1 * self.solids_grams();
        let extrapolated = match density.extrapolated {
            None if syrup_of_starch => Some("glucose syrup reads up to 2 °Bx above its solids (ISO 1743)"),
            None if phase.ethanol > 0.0 && t_c != 20.0 => Some("the index of spirit is measured at 20 °C only"),
            other => other,
        };
        Ok(Estimate { value, error, extrapolated })
    }

    /// What a refractometer scaled in sucrose at 20 °C, without compensation, shows at this temperature.
    /// Spirit lifts it: 20 % alcohol by about 7.5 °Bx, 40 % by 13 to 15. Invert sugar lowers it by up to 1.2.
    pub fn refractometer_reading(&self, temperature: Temperature) -> Result<Estimate<Brix>, OutOfRange> {
        const PROPERTY: &str = "refractometer reading";
        let n = self.refractive_index(temperature)?;
        let w = sucrose_of_index(n.value, 20.0).ok_or_else(|| {
            OutOfRange::new(PROPERTY, format!("an index of {:.5} is off the scale of 0 to 85 °Bx", n.value))
        })?;
        Ok(Estimate {
            value: Brix::saturating(100.0 * w),
            error: Brix::saturating(n.error / INDEX_PER_BRIX),
            extrapolated: n.extrapolated,
        })
    }
}
