//! What a liquid is: every property that can be given, and why the others cannot.

use std::fmt::Display;

use serde::{Serialize, Serializer};
use uom::si::dynamic_viscosity::millipascal_second;
use uom::si::energy::{kilocalorie, kilojoule};

use crate::card::TargetKind;
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::house::House;
use crate::mixture::acidity::ph::{self, NoPh};
use crate::mixture::{Component, Estimate, Mixture, alcohol, boiling, flash_point, sweetness};
use crate::solver::balance::value_of;
use crate::units::{Temperature, celsius, degrees_celsius, in_kg_per_m3};

/// Less titratable acid than this is none, g/L (ours: a drop of lemon in a litre).
const NO_ACID_G_L: f64 = 0.05;

/// The flash point by the strength of the solvent: it burns whatever sugar stands in it.
pub(crate) fn flash_point_c(liquid: &Mixture) -> Option<f64> {
    flash_point::of(alcohol::solvent_abv(liquid)).ok().map(|f| degrees_celsius(f.value))
}

macro_rules! properties {
    ($($(#[$doc:meta])* $field:ident,)*) => {
        /// Properties of a liquid at a temperature. `None`: it does not apply, or cannot honestly be given.
        #[derive(Clone, Debug, Default, PartialEq)]
        pub struct Properties {
            /// The temperature, °C.
            pub temperature_c: f64,
            $($(#[$doc])* pub $field: Option<f64>,)*
        }

        impl Properties {
            /// Names and values, for programs.
            pub fn entries(&self) -> Vec<(&'static str, Option<f64>)> {
                vec![("temperature_c", Some(self.temperature_c)), $((stringify!($field), self.$field),)*]
            }
        }
    };
}

properties! {
    /// kg/m³ at the temperature.
    density_kg_m3,
    /// Dissolved solids, g per 100 g.
    brix,
    /// % vol at 20 °C.
    abv_pct,
    /// Ethanol, % by mass.
    abw_pct,
    /// US proof (60 °F).
    us_proof,
    /// Sugars as weighed, g/L at 20 °C.
    sugar_g_l,
    /// Titratable acid to pH 8.1 as citric, g/L at 20 °C.
    acid_g_l,
    /// pH, the middle value.
    ph,
    /// pH, the cautious lower edge.
    ph_low,
    /// pH, the cautious upper edge: what safety uses.
    ph_high,
    /// Water activity, the estimate.
    water_activity,
    /// Water activity, the cautious value that safety uses.
    water_activity_upper,
    /// Refractive index, 589 nm, at the temperature.
    refractive_index,
    /// What a refractometer scaled for sucrose at 20 °C shows, °Bx, at the temperature.
    refractometer_brix,
    /// °C at the house's altitude.
    boiling_point_c,
    /// The Brix that it would have if saturated with sucrose at the temperature.
    saturation_brix,
    /// mPa s at the temperature.
    viscosity_mpa_s,
    /// °C, closed cup.
    flash_point_c,
    /// Relative to water at 20 °C, in a vacuum.
    specific_gravity,
    /// Relative to water at 20 °C, both weighed in air: what a hydrometer shows.
    specific_gravity_in_air,
    /// kJ in 100 ml.
    energy_kj_100ml,
    /// kcal in 100 ml.
    energy_kcal_100ml,
}

impl Serialize for Properties {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.entries())
    }
}

/// What is known of the acidity of a batch beside its composition.
#[derive(Clone, Debug, Default)]
pub struct Acidity {
    /// The parts of which no acid is listed: only without such a part is it true that there is none.
    pub unknown: Vec<String>,
    /// A pH that was read of it, and the half-width of the meter: it beats what is computed.
    pub read: Option<(f64, f64)>,
}

/// Collects what could not be given, and why.
struct Asked {
    span: Span,
    found: Vec<Diagnostic>,
}

impl Asked {
    /// The value of an estimate; a stretched or refused one is reported.
    fn value<Q, E: Display>(
        &mut self,
        name: &str,
        result: Result<Estimate<Q>, E>,
        get: impl Fn(Q) -> f64,
    ) -> Option<f64> {
        match result {
            Ok(estimate) => {
                if let Some(why) = estimate.beyond {
                    self.found.push(
                        Diagnostic::note(Code::PropertyExtrapolated, format!("{name} is stretched: {why}"))
                            .at(self.span, "of this product"),
                    );
                }
                Some(get(estimate.value)).filter(|v| v.is_finite())
            }
            Err(why) => self.refused(name, &why),
        }
    }

    fn does_not_apply(&mut self, name: &str, why: &str) {
        self.found.push(Diagnostic::note(Code::DoesNotApply, format!("no {name} is given: {why}")));
    }

    fn refused(&mut self, name: &str, why: &dyn Display) -> Option<f64> {
        self.found.push(
            Diagnostic::note(Code::PropertyUnknown, format!("no {name} is given: {why}"))
                .at(self.span, "of this product"),
        );
        None
    }
}

impl Properties {
    /// The properties of a liquid, and what could not be given.
    pub fn of(
        liquid: &Mixture,
        at: Temperature,
        house: &House,
        span: Span,
        acidity: &Acidity,
    ) -> (Self, Vec<Diagnostic>) {
        let mut asked = Asked { span, found: Vec::new() };
        if liquid.is_dry() {
            return Self::of_dried(liquid, at, span);
        }
        let has = |component| liquid.grams_of(component) > 0.0;
        let mut p = Self { temperature_c: degrees_celsius(at), ..Self::default() };
        let density = liquid.density(at);
        p.density_kg_m3 = asked.value("density", density, in_kg_per_m3);
        p.brix = Some(liquid.brix().get());
        // Only the density of the liquid at 20 °C can fail in these, and it is reported once.
        p.abv_pct = value_of(TargetKind::Abv, liquid);
        p.sugar_g_l = value_of(TargetKind::Sugar, liquid);
        // Plus nothing: a negative zero is not printed.
        p.acid_g_l = value_of(TargetKind::Acid, liquid).map(|acid| acid.max(0.0) + 0.0);
        let unknown = acidity.unknown.join(", ");
        if !unknown.is_empty() && p.acid_g_l.is_some_and(|acid| acid < NO_ACID_G_L) {
            p.acid_g_l = None;
        }
        p.abw_pct = Some(100.0 * liquid.abw().get());
        p.us_proof = liquid.us_proof().ok().map(|x| x.value);
        p.specific_gravity = liquid.specific_gravity().ok().map(|x| x.value);
        p.specific_gravity_in_air =
            liquid.density(celsius(20.0)).ok().map(|density| sweetness::apparent_specific_gravity(density.value));
        match ph::of(liquid, at) {
            _ if let Some((read, doubt)) = acidity.read => {
                (p.ph, p.ph_low, p.ph_high) = (Some(read), Some(read - doubt), Some(read + doubt));
            }
            Ok(ph) => {
                p.ph = Some(ph.value.get());
                p.ph_low = Some(ph.low.get());
                p.ph_high = Some(ph.high.get());
            }
            Err(NoPh::NoAcid) if !unknown.is_empty() => {
                let what = if p.acid_g_l.is_none() { "pH or acid" } else { "pH" };
                let why = format!("nothing is known of the acids of {unknown}, so it cannot be computed: measure it");
                asked.refused(what, &why);
            }
            Err(why) => {
                asked.refused("pH", &why);
            }
        }
        if p.acid_g_l.is_none() && p.ph.is_some() {
            asked.refused("acid", &format!("nothing is known of the acids of {unknown}: titrate it"));
        }
        match liquid.water_activity(at) {
            Ok(activity) => {
                p.water_activity_upper = Some(activity.upper.get());
                p.water_activity = asked.value::<_, &str>("water activity", Ok(activity.estimate), |aw| aw.get());
            }
            Err(why) => {
                asked.refused("water activity", &why);
            }
        }
        p.refractive_index = asked.value("refractive index", liquid.refractive_index(at), |n| n);
        p.refractometer_brix = match liquid.refractometer_reading(at) {
            Ok(reading) => Some(reading.value.get()),
            Err(why) => asked.refused("reading of a refractometer", &why),
        };
        let pressure = boiling::pressure_at_altitude(house.settings.altitude.unwrap_or_default());
        p.boiling_point_c = match pressure {
            Ok(pressure) => asked.value("boiling point", liquid.boiling_point(pressure.value), degrees_celsius),
            Err(why) => asked.refused("boiling point", &why),
        };
        if liquid.sugar_grams() > 0.0 {
            p.saturation_brix = asked.value("saturation", liquid.saturation_brix(at), |b| b.get());
            p.viscosity_mpa_s = liquid.viscosity(at).ok().map(|v| v.value.get::<millipascal_second>());
        } else {
            asked.does_not_apply("saturation", "it has no sugar");
        }
        if has(Component::Ethanol) {
            p.flash_point_c = flash_point_c(liquid);
        }
        if let Ok(energy) = liquid.energy_per_100_ml() {
            p.energy_kj_100ml = Some(energy.kilojoules.get::<kilojoule>());
            p.energy_kcal_100ml = Some(energy.kilocalories.get::<kilocalorie>());
        }
        (p, asked.found)
    }

    /// The properties of a dried product: none of a liquid's.
    pub fn of_dried(dried: &Mixture, at: Temperature, span: Span) -> (Self, Vec<Diagnostic>) {
        let mut asked = Asked { span, found: Vec::new() };
        asked.refused("property of a liquid", &"this is dry");
        let aw = dried.water_activity(at).ok();
        let dry = Self {
            temperature_c: degrees_celsius(at),
            water_activity: aw.map(|aw| aw.estimate.value.get()),
            water_activity_upper: aw.map(|aw| aw.upper.get()),
            ..Self::default()
        };
        (dry, asked.found)
    }

    /// Degrees Baumé (modulus 145) at 20 °C, for heavy liquids.
    pub fn baume(&self) -> Option<f64> {
        self.specific_gravity.and_then(sweetness::baume_of)
    }
}
