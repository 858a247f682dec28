//! Boiling: pressure at a height, the boiling point of a mixture and by how much solids raise it.

use uom::si::length::meter;
use uom::si::pressure::kilopascal;

use crate::units::{Length, Pressure, Temperature, TemperatureInterval, celsius, kelvins};

use super::root::bracketed;
use super::water_activity::{AqueousSolution, ethanol_mole_fraction, van_laar};
use super::{Component, Estimate, Mixture, OutOfRange};

const PROPERTY: &str = "boiling point";
const ZERO_C_K: f64 = 273.15;
const SEARCHED_C: (f64, f64) = (10.0, 200.0);
const TOLERANCE_K: f64 = 1e-6;

/// Saturation pressure of water, kPa, at a temperature in °C. IAPWS-IF97, region 4, 0 to 374 °C; outside it has no meaning (coefficients `from memory`, checked against
/// the verification values 0.353658941e-2 MPa at 300 K and 2.63889776 MPa at 500 K).
pub fn water_pressure_kpa(t_c: f64) -> f64 {
    let t_k = t_c + ZERO_C_K;
    let v = t_k - 0.23855557567849 / (t_k - 0.65017534844798e3);
    let a = (v + 0.11670521452767e4) * v - 0.72421316703206e6;
    let b = (-0.17073846940092e2 * v + 0.12020824702470e5) * v - 0.32325550322333e7;
    let c = (0.14915108613530e2 * v - 0.48232657361591e4) * v + 0.40511340542057e6;
    let root = 2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt());
    1000.0 * (root * root) * (root * root)
}

/// Vapour pressure of ethanol, kPa: Antoine, `log10 P[mmHg] = 8.1122 - 1592.864/(t + 226.184)`.
fn ethanol_pressure_kpa(t_c: f64) -> f64 {
    const KPA_PER_MMHG: f64 = 0.133322387415;
    10f64.powf(8.1122 - 1592.864 / (t_c + 226.184)) * KPA_PER_MMHG
}

fn refusal(why: impl Into<String>) -> OutOfRange {
    OutOfRange::new(PROPERTY, why)
}

fn in_kpa(pressure: Pressure) -> Result<f64, OutOfRange> {
    let kpa = pressure.get::<kilopascal>();
    if (50.0..=110.0).contains(&kpa) {
        return Ok(kpa);
    }
    Err(refusal(format!("known at 50 to 110 kPa, not at {kpa:.1} kPa")))
}

/// Pressure at a height, -500 to 5500 m: `101.325 (1 - 2.25577e-5 h)^5.25588` kPa (ICAO standard atmosphere, `from memory`,
/// checked against the fall of the boiling point of 1 °C for each 305 m). The weather moves it by 3 %.
pub fn pressure_at_altitude(height: Length) -> Result<Estimate<Pressure>, OutOfRange> {
    let h_m = height.get::<meter>();
    if !(-500.0..=5500.0).contains(&h_m) {
        return Err(OutOfRange::new("air pressure", format!("known from -500 to 5500 m, not at {h_m:.0} m")));
    }
    let kpa = 101.325 * (1.0 - 2.25577e-5 * h_m).powf(5.25588);
    Ok(Estimate::new(Pressure::new::<kilopascal>(kpa), Pressure::new::<kilopascal>(0.03 * kpa)))
}

fn no_boiling_point() -> OutOfRange {
    refusal("no boiling point was found")
}

fn water_boils_c(kpa: f64) -> Result<f64, OutOfRange> {
    bracketed(|t_c| water_pressure_kpa(t_c) - kpa, SEARCHED_C.0, SEARCHED_C.1, TOLERANCE_K)
        .map_err(|_| no_boiling_point())
}

/// How far solutes raise the boiling point of water, K: `aw(t) p(t) = P`.
fn elevation_k(solution: &AqueousSolution, kpa: f64, water_c: f64) -> Option<f64> {
    let over = |t_c: f64| solution.linear(t_c + ZERO_C_K) * water_pressure_kpa(t_c) - kpa;
    if over(water_c) >= 0.0 {
        return Some(0.0);
    }
    bracketed(over, water_c, SEARCHED_C.1, TOLERANCE_K).ok().map(|t_c| t_c - water_c)
}

/// Where a spirit begins to boil, and the ethanol in its vapour by moles:
/// `P = x_e g_e P_e(t) + x_w g_w P_w(t)`, van Laar 1.6798 and 0.9227 (handbook pair, `from memory`).
/// Checked against Perry's table at 101.3 kPa: within 0.5 K and 0.015.
fn bubble_point(x_ethanol: f64, kpa: f64) -> Option<(f64, f64)> {
    let (g_e, g_w) = van_laar(x_ethanol, 1.6798, 0.9227);
    let of_ethanol = |t_c: f64| x_ethanol * g_e * ethanol_pressure_kpa(t_c);
    let of_water = |t_c: f64| (1.0 - x_ethanol) * g_w * water_pressure_kpa(t_c);
    let t_c = bracketed(|t_c| of_ethanol(t_c) + of_water(t_c) - kpa, SEARCHED_C.0, SEARCHED_C.1, TOLERANCE_K).ok()?;
    Some((t_c, of_ethanol(t_c) / kpa))
}

/// Boiling point of water at a pressure of 50 to 110 kPa, ±0.02 °C.
pub fn water(pressure: Pressure) -> Result<Estimate<Temperature>, OutOfRange> {
    Ok(Estimate::new(celsius(water_boils_c(in_kpa(pressure)?)?), kelvins(0.02)))
}

/// Stated error, K, and why it is stretched, for a share of solids in solids and water. From the disagreement with
/// Browne's measurements of 1912, which are higher: up to 0.35 to 50 %, 1.5 at 70 %, 2.6 at 80 %.
fn grade(solids: f64) -> (f64, Option<&'static str>) {
    match solids {
        _ if solids <= 0.0 => (0.02, None),
        _ if solids <= 0.5 => (0.35, None),
        _ if solids <= 0.65 => (0.8, None),
        _ if solids <= 0.7 => (1.5, None),
        _ if solids <= 0.8 => (2.6, None),
        _ => (5.0, Some("boiling sugar is known to 80 °Bx")),
    }
}

impl Mixture {
    /// Where the mixture begins to boil, at 50 to 110 kPa.
    ///
    /// Sugar in water: `aw(t) p(t) = P` with the linear rule of water activity and IAPWS-IF97. Spirit: its bubble
    /// point, ±0.5 K. With both, the elevation that the solids would give in the water alone is added to the bubble
    /// point of the spirit alone: not tested, ±2 K, flagged.
    pub fn boiling_point(&self, pressure: Pressure) -> Result<Estimate<Temperature>, OutOfRange> {
        let kpa = in_kpa(pressure)?;
        let (raised_k, own_error, own_extrapolated) = self.elevation_and_error(kpa)?;
        let x = ethanol_mole_fraction(self);
        if x == 0.0 {
            let value = celsius(water_boils_c(kpa)? + raised_k);
            return Ok(Estimate { value, error: kelvins(own_error), extrapolated: own_extrapolated });
        }
        let (spirit_c, _) = bubble_point(x, kpa).ok_or_else(no_boiling_point)?;
        let value = celsius(spirit_c + raised_k);
        if raised_k > 0.0 {
            let why = "sugar in boiling spirit has not been measured: its effect in water was added";
            return Ok(Estimate::extrapolated(value, kelvins(own_error.max(2.0)), why));
        }
        Ok(Estimate::new(value, kelvins(0.5)))
    }

    /// By how much the dissolved solids raise the boiling point of the water. It hardly changes with height, so the
    /// target of a boil is the local boiling point of water plus this.
    pub fn boiling_elevation(&self, pressure: Pressure) -> Result<Estimate<TemperatureInterval>, OutOfRange> {
        let interval = TemperatureInterval::new::<uom::si::temperature_interval::kelvin>;
        let (value, error, extrapolated) = self.elevation_and_error(in_kpa(pressure)?)?;
        Ok(Estimate { value: interval(value), error: interval(error), extrapolated })
    }

    /// Mole fraction of ethanol in the first vapour of a spirit.
    ///
    /// ```
    /// use stillroom::mixture::{Component, Mixture, boiling};
    /// use stillroom::units::Length;
    ///
    /// let spirit = Mixture::of(&[(Component::Ethanol, 10.0), (Component::Water, 90.0)]);
    /// let air = boiling::pressure_at_altitude(Length::default()).unwrap().value;
    /// let liquid = (10.0 / 46.07) / (10.0 / 46.07 + 90.0 / 18.015);
    /// assert!(spirit.vapour_ethanol(air).unwrap().value > 5.0 * liquid);
    /// ```
    pub fn vapour_ethanol(&self, pressure: Pressure) -> Result<Estimate<f64>, OutOfRange> {
        let kpa = in_kpa(pressure)?;
        let x = ethanol_mole_fraction(self);
        if x == 0.0 && self.grams_of(Component::Water) <= 0.0 {
            return Err(refusal("there is neither water nor ethanol"));
        }
        let (_, y) = bubble_point(x, kpa).ok_or_else(no_boiling_point)?;
        Ok(Estimate::new(y, 0.015))
    }

    fn elevation_and_error(&self, kpa: f64) -> Result<(f64, f64, Option<&'static str>), OutOfRange> {
        let solids_g = self.solids_grams();
        let Some(solution) = AqueousSolution::of(self) else {
            // Pure ethanol boils; sugar without water does not.
            let ethanol_alone = self.grams_of(Component::Ethanol) > 0.0 && solids_g == 0.0;
            return if ethanol_alone { Ok((0.0, 0.02, None)) } else { Err(refusal("there is no water")) };
        };
        let raised = water_boils_c(kpa)
            .ok()
            .and_then(|water_c| elevation_k(&solution, kpa, water_c))
            .ok_or_else(|| refusal("too little water is left to boil below 200 °C"))?;
        let (error, extrapolated) = grade(solids_g / (solids_g + self.grams_of(Component::Water)));
        Ok((raised, error, extrapolated))
    }
}
