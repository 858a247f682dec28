//! What is said of a liquid: [`Properties`] computes it, `SHEET` tells how it is shown, `equations` what stands behind it.
//!
//! ```
//! use stillroom::mixture::{Component, Mixture};
//! use stillroom::properties::Properties;
//! use stillroom::units::{Length, celsius};
//!
//! // 64 % sucrose: 1310.3 kg/m³ and 120.1 mPa s in the CRC Handbook, Concentrative Properties of Aqueous Solutions.
//! let syrup = Mixture::of(&[(Component::Sucrose, 64.0), (Component::Water, 36.0)]);
//! let properties = Properties::of_mixture(&syrup, celsius(20.0), Length::default());
//! assert_eq!(properties.brix, Some(64.0));
//! assert!((properties.density_kg_m3.unwrap() - 1310.3).abs() < 0.3);
//! assert!((properties.viscosity_mpa_s.unwrap() - 120.1).abs() < 0.13 * 120.1);
//! ```

mod acidity;
mod equation;
mod sheet;
mod subject;
mod target;

use serde::Serialize;
use uom::si::dynamic_viscosity::millipascal_second;
use uom::si::energy::{kilocalorie, kilojoule};
use uom::si::temperature_interval::kelvin;

use crate::diagnostic::{Diagnostic, Span};
use crate::mixture::{Component, Mixture, alcohol, boiling, flash_point, sweetness};
use crate::units::display::grouped;
use crate::units::{Length, Temperature, celsius, degrees_celsius, in_kg_per_m3};

pub(crate) use equation::{Equation, equations};
pub use sheet::{Headline, headlines};
pub(crate) use sheet::{Property, SHEET, of_target};
pub(crate) use subject::{Acidity, Subject};
pub(crate) use target::per_gram_of_liquid;
pub use target::{TargetKind, amount_for, value_of};

/// The properties of a liquid at a temperature; the units are in the names.
/// `None`: it does not apply, or cannot honestly be given.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Properties {
    /// The temperature, °C.
    pub temperature_c: f64,
    /// Dissolved solids, g per 100 g.
    pub brix: Option<f64>,
    /// Alcohol by volume at 20 °C.
    pub abv_pct: Option<f64>,
    /// Alcohol by mass.
    pub abw_pct: Option<f64>,
    /// Strength in US proof (60 °F).
    pub us_proof: Option<f64>,
    /// Sugars as weighed, for each litre at 20 °C.
    pub sugar_g_l: Option<f64>,
    /// Titratable acid to pH 8.1 as citric, for each litre at 20 °C.
    pub acid_g_l: Option<f64>,
    /// The middle of the pH.
    pub ph: Option<f64>,
    /// Its lower edge.
    pub ph_low: Option<f64>,
    /// Its upper edge, which counts against a limit.
    pub ph_high: Option<f64>,
    /// Density at the temperature.
    pub density_kg_m3: Option<f64>,
    /// Density relative to water at 20 °C.
    pub specific_gravity: Option<f64>,
    /// The same weighed in air: what a hydrometer shows.
    pub specific_gravity_in_air: Option<f64>,
    /// Degrees Baumé.
    pub baume: Option<f64>,
    /// Degrees Plato.
    pub plato: Option<f64>,
    /// Water activity, the estimate.
    pub water_activity: Option<f64>,
    /// The cautious value that safety uses.
    pub water_activity_upper: Option<f64>,
    /// At 589 nm.
    pub refractive_index: Option<f64>,
    /// What a refractometer scaled for sucrose at 20 °C shows at the temperature.
    pub refractometer_brix: Option<f64>,
    /// Boiling point at the height of the house.
    pub boiling_point_c: Option<f64>,
    /// By how much what is dissolved raises the boiling point of the water.
    pub boiling_elevation_k: Option<f64>,
    /// The Brix that it would have if saturated with sucrose.
    pub saturation_brix: Option<f64>,
    /// Viscosity of a syrup without spirit.
    pub viscosity_mpa_s: Option<f64>,
    /// Flash point, closed cup, by the strength of the solvent: it burns whatever sugar stands in it.
    pub flash_point_c: Option<f64>,
    /// Energy of a label, in 100 ml at 20 °C.
    pub energy_kj_100ml: Option<f64>,
    /// The same in kilocalories.
    pub energy_kcal_100ml: Option<f64>,
}

impl Properties {
    /// Of a liquid, and what could not be given. Of a dried product: what can be said of it.
    pub(crate) fn of(mut subject: Subject<'_>) -> (Self, Vec<Diagnostic>) {
        if subject.liquid.is_dry() {
            return Self::of_dried(subject);
        }
        (Self::compute(&mut subject), subject.found)
    }

    /// What cannot be given is said in this order; only the density at 20 °C can fail of many, and that is said once.
    fn compute(of: &mut Subject<'_>) -> Self {
        let (liquid, at) = (of.liquid, of.at);
        let density_kg_m3 = of.value("density", liquid.density(at), in_kg_per_m3);
        let acid_g_l = acidity::acid_g_l(of);
        let [ph, ph_low, ph_high] = acidity::ph(of, acid_g_l.is_some());
        let gravity = liquid.specific_gravity().ok().map(|x| x.value);
        let in_air = liquid.density(celsius(20.0)).ok().map(|rho| sweetness::apparent_specific_gravity(rho.value));
        let (water_activity, water_activity_upper) = match liquid.water_activity(at) {
            Ok(activity) => {
                let estimate = of.value::<_, &str>("water activity", Ok(activity.estimate), |aw| aw.get());
                (estimate, Some(activity.upper.get()))
            }
            Err(why) => (of.refused("water activity", &why), None),
        };
        let refractive_index = of.value("refractive index", liquid.refractive_index(at), |n| n);
        // What is stretched in it is stretched in the refractive index, and said there.
        let refractometer_brix = match liquid.refractometer_reading(at) {
            Ok(reading) => Some(reading.value.get()),
            Err(why) => of.refused("reading of a refractometer", &why),
        };
        let (boiling_point_c, boiling_elevation_k) = match boiling::pressure_at_altitude(of.altitude) {
            Ok(pressure) => {
                let raised = liquid.boiling_elevation(pressure.value).ok().map(|k| k.value.get::<kelvin>());
                (of.value("boiling point", liquid.boiling_point(pressure.value), degrees_celsius), raised)
            }
            Err(why) => (of.refused("boiling point", &why), None),
        };
        let has_sugar = liquid.sugar_grams() > 0.0;
        let saturation_brix = if has_sugar {
            of.value("saturation", liquid.saturation_brix(at), |b| b.get())
        } else {
            of.does_not_apply("saturation", "it has no sugar")
        };
        let viscosity = liquid.viscosity(at);
        let not_thick = viscosity.as_ref().err().map(ToString::to_string);
        let viscosity = viscosity.ok().filter(|_| has_sugar).map(|v| v.value.get::<millipascal_second>());
        let energy = liquid.energy_per_100_ml().ok();
        let no_density = "its density at 20 °C cannot be given";
        let baume = gravity.and_then(sweetness::baume_of);
        let plato = in_air.and_then(|gravity| sweetness::plato_of_apparent(gravity).ok());
        let scale_ends = if gravity.is_some() { "that scale does not reach so far" } else { no_density };
        let no_spirit = liquid.grams_of(Component::Ethanol) == 0.0;
        let no_flame = if no_spirit { "it has no alcohol" } else { "the table of strengths does not reach so far" };
        Self {
            temperature_c: degrees_celsius(at),
            brix: Some(liquid.brix().get()),
            abv_pct: of.or_said("strength", value_of(TargetKind::Abv, liquid), no_density),
            abw_pct: Some(100.0 * liquid.abw().get()),
            us_proof: of.or_said("proof", liquid.us_proof().ok().map(|x| x.value), no_density),
            sugar_g_l: of.or_said("sugar in g/L", value_of(TargetKind::Sugar, liquid), no_density),
            acid_g_l,
            ph,
            ph_low,
            ph_high,
            density_kg_m3,
            specific_gravity: of.or_said("specific gravity", gravity, no_density),
            specific_gravity_in_air: of.or_said("specific gravity in air", in_air, no_density),
            baume: of.or_said("degrees Baumé", baume, scale_ends),
            plato: of.or_said("degrees Plato", plato, scale_ends),
            water_activity,
            water_activity_upper,
            refractive_index,
            refractometer_brix,
            boiling_point_c,
            boiling_elevation_k: of.or_said("rise of the boiling point", boiling_elevation_k, "see the boiling point"),
            saturation_brix,
            viscosity_mpa_s: of.or_said("viscosity", viscosity, not_thick.as_deref().unwrap_or("it has no sugar")),
            flash_point_c: of.or_said("flash point", flash_point_c(liquid), no_flame),
            energy_kj_100ml: of.or_said("energy in kJ", energy.map(|e| e.kilojoules.get::<kilojoule>()), no_density),
            energy_kcal_100ml: of.or_said(
                "energy in kcal",
                energy.map(|e| e.kilocalories.get::<kilocalorie>()),
                no_density,
            ),
        }
    }

    /// Of a product that is dried: none of a liquid's.
    pub(crate) fn of_dried(mut subject: Subject<'_>) -> (Self, Vec<Diagnostic>) {
        subject.refused("property of a liquid", &"this is dry");
        let activity = subject.liquid.water_activity(subject.at).ok();
        let properties = Self {
            temperature_c: degrees_celsius(subject.at),
            water_activity: activity.map(|aw| aw.estimate.value.get()),
            water_activity_upper: activity.map(|aw| aw.upper.get()),
            ..Self::default()
        };
        (properties, subject.found)
    }

    /// Of a mixture of which nothing else is known, so high above the sea.
    pub fn of_mixture(mixture: &Mixture, at: Temperature, altitude: Length) -> Self {
        let acidity = Acidity::default();
        Self::of(Subject::new(mixture, at, altitude, &acidity, Span::default())).0
    }

    pub(crate) fn temperature_text(&self) -> String {
        format!("{} °C", grouped(self.temperature_c, usize::from(self.temperature_c.fract() != 0.0)))
    }
}

/// °C; none without spirit, or where the table of strengths does not reach.
pub(crate) fn flash_point_c(liquid: &Mixture) -> Option<f64> {
    let burns = liquid.grams_of(Component::Ethanol) > 0.0;
    let estimate = flash_point::of_strength(alcohol::solvent_abv(liquid)).ok().filter(|_| burns)?;
    Some(degrees_celsius(estimate.value))
}
