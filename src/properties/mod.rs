//! What is said of a liquid: one file a property. [`registry`] drives the sheet, the JSON, `explain` and the uncertainty.
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

mod equation;
mod property;
mod subject;
mod target;

mod acid;
mod boiling_point;
mod brix;
mod density;
mod energy;
mod flash_point;
mod ph;
mod refractive_index;
mod refractometer;
mod saturation;
mod specific_gravity;
mod strength;
mod sugar;
mod us_proof;
mod viscosity;
mod water_activity;

use serde::Serialize;

use crate::diagnostic::{Diagnostic, Span};
use crate::mixture::Mixture;
use crate::units::display::grouped;
use crate::units::{Length, Temperature, degrees_celsius};

pub(crate) use equation::{Equation, methods};
pub(crate) use flash_point::flash_point_c;
pub(crate) use property::{Headline, Property, PropertyLine};
pub(crate) use subject::{Acidity, Subject};
pub(crate) use target::per_gram_of_liquid;
pub use target::{TargetKind, amount_for, value_of};

macro_rules! registry {
    ($($module:ident: $($field:ident)*;)*) => {
        /// The properties of a liquid at a temperature; the units are in the names, and each stands in its own file.
        /// `None`: it does not apply, or cannot honestly be given.
        #[derive(Clone, Debug, Default, PartialEq, Serialize)]
        pub struct Properties {
            /// The temperature, °C.
            pub temperature_c: f64,
            $($(#[doc = concat!("See `properties/", stringify!($module), ".rs`.")] pub $field: Option<f64>,)*)*
        }

        /// Every property, in the order of a sheet.
        static REGISTRY: &[&Property] = &[$(&$module::PROPERTY),*];

        fn compute(of: &mut Subject<'_>) -> Properties {
            let temperature_c = degrees_celsius(of.at);
            of.density_kg_m3 = density::ask(of);
            $(let [$($field),*] = $module::compute(of);)*
            Properties { temperature_c, $($($field),*),* }
        }
    };
}

registry! {
    brix: brix;
    strength: abv_pct abw_pct;
    us_proof: us_proof;
    sugar: sugar_g_l;
    acid: acid_g_l;
    ph: ph ph_low ph_high;
    density: density_kg_m3;
    specific_gravity: specific_gravity specific_gravity_in_air baume plato;
    water_activity: water_activity water_activity_upper;
    refractive_index: refractive_index;
    refractometer: refractometer_brix;
    boiling_point: boiling_point_c boiling_elevation_k;
    saturation: saturation_brix;
    viscosity: viscosity_mpa_s;
    flash_point: flash_point_c;
    energy: energy_kj_100ml energy_kcal_100ml;
}

/// Every property, in the order of a sheet.
pub(crate) fn registry() -> &'static [&'static Property] {
    REGISTRY
}

impl Properties {
    /// Of a liquid, and what could not be given. Of a dried product: what can be said of it.
    pub(crate) fn of(mut subject: Subject<'_>) -> (Self, Vec<Diagnostic>) {
        if subject.liquid.is_dry() {
            return Self::of_dried(subject);
        }
        (compute(&mut subject), subject.found)
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

/// The property that a target aims at.
pub(crate) fn of_target(kind: TargetKind) -> &'static Property {
    registry().iter().find(|property| property.target == Some(kind)).expect("every target is a property")
}

/// The numbers that carry an uncertainty, and how it is counted.
pub fn headlines() -> impl Iterator<Item = (TargetKind, &'static Headline)> {
    registry().iter().filter_map(|property| property.target.zip(property.headline.as_ref()))
}

/// Everything that can be explained: properties, then methods.
pub(crate) fn equations() -> impl Iterator<Item = &'static Equation> {
    registry().iter().map(|property| &property.equation).chain(methods())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_target_is_a_property_and_every_property_says_what_stands_behind_it() {
        assert!(TargetKind::ALL.into_iter().all(|kind| of_target(kind).target == Some(kind)));
        let names: std::collections::HashSet<_> = equations().map(|e| e.name).collect();
        assert_eq!(names.len(), equations().count());
        assert!(equations().all(|e| !e.sources.is_empty() && !e.range.is_empty()));
        assert_eq!(headlines().count(), 4);
    }
}
