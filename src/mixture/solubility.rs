//! How much sucrose stays dissolved, and what crystallises.

use crate::units::{
    Abv, Brix, Mass, MassDensity, Temperature, celsius, degrees_celsius, grams, grams_per_litre, kelvins,
};

use super::polynomial::{between_rows, horner};
use super::root::bracketed;
use super::{Component, Estimate, Mixture, OutOfRange};

const PROPERTY: &str = "sucrose saturation";

/// Sucrose in its saturated solution in water, percent by mass.
///
/// Vavrinecz 1962: `S = 64.447 + 8.222e-2 t + 1.6169e-3 t² - 1.558e-6 t³ - 4.63e-8 t⁴` (coefficients `from memory`, checked
/// against a published factory table within 0.12 to 80 °C, 0.24 at 100 °C). The older table of Herzfeld
/// (1892), still in many handbooks, is 0.4 higher at room temperature.
fn saturated_percent(t_c: f64) -> f64 {
    horner(&[64.447, 8.222e-2, 1.6169e-3, -1.558e-6, -4.63e-8], t_c)
}

/// Grams of sucrose for each gram of water when saturated.
fn saturated_ratio(t_c: f64) -> f64 {
    let s = saturated_percent(t_c);
    s / (100.0 - s)
}

/// How much less sucrose a gram of water holds beside `q` grams of other solids.
///
/// The curve of typical molasses (Wiklund and Vavrinecz, m = 0.194, b = 0.771, c = -1.8, an instrument maker's manual)
/// begins with the slope m + c (1 - b) = -0.218; it is followed down to 0.95. That floor is a cautious guess: no
/// constants for invert sugar were found.
fn beside_other_solids(q: f64) -> f64 {
    (1.0 - 0.218 * q).max(0.95)
}

/// Sucrose in saturated spirit at 14 °C: strength of the solution, percent by volume; g/L; g for each 100 g of water.
/// Scheibler 1872/1891 in Seidell and in Browne, Handbook of Sugar Analysis: `from memory`, ±5 %.
const SPIRIT: [(f64, f64, f64); 7] = [
    (0.0, 875.0, 195.0),
    (4.9, 815.0, 183.0),
    (17.2, 679.0, 163.0),
    (25.4, 580.0, 144.0),
    (47.4, 339.0, 99.0),
    (77.1, 66.0, 30.0),
    (89.8, 9.0, 8.0),
];

/// Sucrose that a gram of water holds beside ethanol, against what it holds without.
fn beside_ethanol(abv: f64) -> Option<f64> {
    between_rows(&SPIRIT.map(|(strength, _, by_water)| (strength, by_water / SPIRIT[0].2)), abv)
}

fn check_temperature(t_c: f64) -> Result<Option<&'static str>, OutOfRange> {
    OutOfRange::check_celsius(PROPERTY, 0.0..=100.0, t_c)?;
    Ok((t_c > 80.0).then_some("the solubility of sucrose is checked to 80 °C"))
}

/// Brix of sucrose-saturated water, 0 to 80 °C, ±0.15.
pub fn sucrose_saturation(temperature: Temperature) -> Result<Estimate<Brix>, OutOfRange> {
    let t_c = degrees_celsius(temperature);
    let extrapolated = check_temperature(t_c)?;
    let error = Brix::saturating(if extrapolated.is_some() { 0.35 } else { 0.15 });
    Ok(Estimate { value: Brix::saturating(saturated_percent(t_c)), error, extrapolated })
}

/// The richest syrup that stays clear at a temperature: grams of sucrose for each gram of water.
pub fn richest_ratio(temperature: Temperature) -> Result<Estimate<f64>, OutOfRange> {
    let saturation = sucrose_saturation(temperature)?;
    let ratio = |percent: f64| percent / (100.0 - percent);
    let (s, error) = (saturation.value.get(), saturation.error.get());
    Ok(Estimate { value: ratio(s), error: ratio(s + error) - ratio(s), extrapolated: saturation.extrapolated })
}

/// The most sucrose in a spirit of this strength (that of the sweet liquid itself), at 14 °C, 0 to 89.8 %.
///
/// ```
/// use stillroom::mixture::solubility::spirit_saturation;
/// use stillroom::units::{Abv, in_grams_per_litre};
///
/// let most = spirit_saturation(Abv::saturating(25.4)).unwrap();
/// assert!((in_grams_per_litre(most.value) - 580.0).abs() < 1e-9);
/// ```
pub fn spirit_saturation(strength: Abv) -> Result<Estimate<MassDensity>, OutOfRange> {
    let g_l = between_rows(&SPIRIT.map(|(strength, by_volume, _)| (strength, by_volume)), strength.get()).ok_or_else(
        || OutOfRange::new(PROPERTY, format!("known to 89.8 % alcohol; {:.1} % was asked for", strength.get())),
    )?;
    let error = grams_per_litre((0.05 * g_l).max(15.0));
    Ok(Estimate::extrapolated(grams_per_litre(g_l), error, "measured at 14 °C, recalled from memory"))
}

/// Salt in its saturated solution in water, g for each g of water, at 20 °C (35.9 in 100; it hardly moves with the temperature:
/// 35.7 at 0 °C, 36.6 at 40 °C; CRC Handbook, from memory).
const SALT_HELD: f64 = 0.359;

/// What this mixture could hold, apart from the temperature.
struct Limits {
    water_g: f64,
    factor: f64,
    extrapolated: Option<&'static str>,
}

impl Mixture {
    fn sucrose_limits(&self) -> Result<Limits, OutOfRange> {
        let water_g = self.grams_of(Component::Water);
        if !(water_g > 0.0 && self.total_grams().is_finite()) {
            return Err(OutOfRange::new(PROPERTY, "there is no water"));
        }
        let q = (self.solids_grams() - self.grams_of(Component::Sucrose)).max(0.0) / water_g;
        let abv = self.abv().map_err(|e| OutOfRange::new(PROPERTY, e.why))?.value.get();
        let spirit =
            beside_ethanol(abv).ok_or_else(|| OutOfRange::new(PROPERTY, "in spirit known to 89.8 % alcohol"))?;
        let extrapolated = if abv > 0.0 {
            Some("in spirit: measured at 14 °C, recalled from memory")
        } else if q > 0.005 {
            Some("beside other solids: a cautious guess")
        } else {
            None
        };
        Ok(Limits { water_g, factor: spirit * beside_other_solids(q), extrapolated })
    }

    /// The Brix of this mixture if its water held all the sucrose that it can: above it crystals form. With
    /// other solids or spirit flagged as a guess; ±0.15 for sucrose alone, ±2 (5 % of the sucrose) otherwise.
    pub fn saturation_brix(&self, temperature: Temperature) -> Result<Estimate<Brix>, OutOfRange> {
        let t_c = degrees_celsius(temperature);
        let too_hot = check_temperature(t_c)?;
        let limits = self.sucrose_limits()?;
        let sucrose_g = limits.water_g * limits.factor * saturated_ratio(t_c);
        let mut saturated = *self;
        saturated.set_grams(Component::Sucrose, sucrose_g);
        let error = match (limits.extrapolated, too_hot) {
            (Some(_), _) => 2.0,
            (None, Some(_)) => 0.35,
            (None, None) => 0.15,
        };
        let extrapolated = limits.extrapolated.or(too_hot);
        Ok(Estimate { value: saturated.brix(), error: Brix::saturating(error), extrapolated })
    }

    /// The liquid above the crystals: as much of the sucrose and of the salt as its water holds at a temperature of 0 to 100 °C.
    /// Itself where nothing crystallises, and where nobody knows what its water holds (no water, spirit above 89.8 % vol).
    #[must_use]
    pub fn above_crystals(&self, temperature: Temperature) -> Self {
        let mut held = *self;
        let t_c = degrees_celsius(temperature);
        if let (Ok(limits), Ok(_)) = (self.sucrose_limits(), check_temperature(t_c)) {
            let most = |component, grams: f64| self.grams_of(component).min(grams);
            let sucrose = most(Component::Sucrose, limits.water_g * limits.factor * saturated_ratio(t_c));
            held.set_grams(Component::Sucrose, sucrose);
            held.set_grams(Component::Salt, most(Component::Salt, limits.water_g * SALT_HELD));
        }
        held
    }

    /// The temperature at which a cooling syrup becomes saturated with sucrose, 0 to 100 °C.
    /// ±1 °C for sucrose alone (two published equations differ by that), ±15 otherwise.
    pub fn saturation_temperature(&self) -> Result<Estimate<Temperature>, OutOfRange> {
        let limits = self.sucrose_limits()?;
        let ratio = self.grams_of(Component::Sucrose) / limits.water_g;
        let t_c = bracketed(|t_c| limits.factor * saturated_ratio(t_c) - ratio, 0.0, 100.0, 1e-6).map_err(|end| {
            OutOfRange::new(
                PROPERTY,
                if end.at_lo > 0.0 { "not saturated at 0 °C" } else { "more sucrose than boiling water holds" },
            )
        })?;
        let error = kelvins(if limits.extrapolated.is_some() { 15.0 } else { 1.0 });
        Ok(Estimate { value: celsius(t_c), error, extrapolated: limits.extrapolated.or(check_temperature(t_c)?) })
    }
}

/// Sucrose that has crystallised from each kilogram of the mixture when it has come to rest at a temperature; none
/// while it is not saturated. Crystals need time and a seed: a syrup can stay clear above saturation.
pub fn crystals(mixture: &Mixture, temperature: Temperature) -> Result<Estimate<Mass>, OutOfRange> {
    let t_c = degrees_celsius(temperature);
    let too_hot = check_temperature(t_c)?;
    let limits = mixture.sucrose_limits()?;
    // The other solids and the water stay in the liquor, so the limit does not move as crystals grow.
    let held_g = limits.water_g * limits.factor * saturated_ratio(t_c);
    let total = mixture.total_grams();
    let per_kg = |g: f64| 1000.0 * g / total;
    let extrapolated = limits.extrapolated.or(too_hot);
    // 0.15 °Bx of a solution near 67 °Bx is 1.4 % of the ratio of sucrose to water.
    let error = held_g * if extrapolated.is_some() { 0.05 } else { 0.014 };
    let value = (mixture.grams_of(Component::Sucrose) - held_g).max(0.0);
    Ok(Estimate { value: grams(per_kg(value)), error: grams(per_kg(error)), extrapolated })
}
