//! The quantities that pass between rooms. Mass, volume, density and temperature are `uom`'s;
//! the pure ratios have a type each, so that a strength is never added to a sweetness.

use uom::si::mass::gram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::volume::{fluid_ounce, milliliter};

use super::{Mass, MassDensity, Temperature, Volume};

/// Between a quantity and its number in a unit.
macro_rules! numbers {
    ($($what:literal, $words:literal: $quantity:ident as $unit:ident, $make:ident $number:ident;)*) => {
        $(
            #[doc = concat!("A ", $what, " from ", $words, ".")]
            pub fn $make(number: f64) -> $quantity {
                $quantity::new::<$unit>(number)
            }

            #[doc = concat!("A ", $what, " in ", $words, ".")]
            pub fn $number(quantity: $quantity) -> f64 {
                quantity.get::<$unit>()
            }
        )*
    };
}

numbers! {
    "mass", "grams": Mass as gram, grams in_grams;
    "volume", "millilitres": Volume as milliliter, millilitres in_millilitres;
    "density", "kg/m³": MassDensity as kilogram_per_cubic_meter, kg_per_m3 in_kg_per_m3;
    "temperature", "°C": Temperature as degree_celsius, celsius degrees_celsius;
}

/// A volume in US fluid ounces.
pub(crate) fn in_us_fluid_ounces(volume: Volume) -> f64 {
    volume.get::<fluid_ounce>()
}

/// A concentration from g/L, which is the same number as kg/m³.
pub fn grams_per_litre(concentration: f64) -> MassDensity {
    kg_per_m3(concentration)
}

/// A concentration in g/L.
pub fn in_grams_per_litre(concentration: MassDensity) -> f64 {
    in_kg_per_m3(concentration)
}

/// A difference of temperatures from kelvins. The error of a temperature is kept as such a number of
/// kelvins above absolute zero: read it with [`in_kelvins`], never in °C.
pub fn kelvins(k: f64) -> Temperature {
    Temperature::new::<kelvin>(k)
}

/// The kelvins of an absolute temperature or of the error of one.
pub fn in_kelvins(temperature: Temperature) -> f64 {
    temperature.get::<kelvin>()
}

macro_rules! ratios {
    ($($(#[$doc:meta])* $name:ident in $low:literal ..= $high:literal;)*) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
            pub struct $name(f64);

            impl $name {
                pub(crate) const MIN: f64 = $low;
                pub(crate) const MAX: f64 = $high;

                /// The value, if it lies in the range that is possible.
                pub fn new(value: f64) -> Option<Self> {
                    (Self::MIN..=Self::MAX).contains(&value).then_some(Self(value))
                }

                /// The possible value that is nearest; what is not a number becomes the smallest.
                pub fn saturating(value: f64) -> Self {
                    Self(value.max(Self::MIN).min(Self::MAX))
                }

                /// The number.
                pub fn get(self) -> f64 {
                    self.0
                }
            }
        )*
    };
}

ratios! {
    /// Percent alcohol by volume at 20 °C.
    Abv in 0.0..=100.0;
    /// Dissolved non-volatile solids, grams per 100 g.
    Brix in 0.0..=100.0;
    /// A share by mass, 0 to 1.
    MassFraction in 0.0..=1.0;
    /// Water activity, 0 to 1.
    WaterActivity in 0.0..=1.0;
    /// pH.
    Ph in -1.0..=15.0;
}
