//! Amounts as people write them, as typed quantities, and back.

mod about;
mod amount;
pub(crate) mod amount_range;
pub(crate) mod boiling;
mod bracketed;
mod counted;
mod customs;
pub mod display;
mod error;
pub(crate) mod heat_words;
pub mod jigger;
pub mod literal;
pub mod measures;
mod number;
mod number_words;
pub(crate) mod quantity;
mod range;
pub mod readers;
mod spaces;
pub(crate) mod spans;
mod taken;
pub(crate) mod told;
mod unit;

pub(crate) use about::{is_about, without_about};
pub use amount::{Counted, Literal, Reading};
pub(crate) use bracketed::is_container;
pub use counted::read_of;
pub(crate) use customs::BOTTLE_UNTIL_KNOWN_ML;
pub use customs::{Comma, Customs};
pub use error::LiteralError;
pub(crate) use measures::measured_by_hand;
pub use measures::{Basis, Measure, measure};
pub use number::comma_of;
pub(crate) use number::{with_a_doubtful_point, with_a_point};
pub(crate) use quantity::in_us_fluid_ounces;
pub use quantity::{Abv, Brix, MassFraction, Ph, WaterActivity};
pub use quantity::{
    celsius, degrees_celsius, grams, grams_per_litre, in_grams, in_grams_per_litre, in_kelvins, in_kg_per_m3,
    in_millilitres, kelvins, kg_per_m3, millilitres,
};
pub(crate) use range::NumberRange;
pub(crate) use readers::Strength;
pub(crate) use taken::{settled, taken};
pub use uom::si::f64::{
    DynamicViscosity, Energy, Length, Mass, MassDensity, Pressure, TemperatureInterval,
    ThermodynamicTemperature as Temperature, Time, Volume,
};
