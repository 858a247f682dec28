//! What a refractometer scaled for sucrose at 20 °C shows at the temperature of the product, °Bx.

use super::{Equation, Property, Subject};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "refractometer reading",
        unit: "°Bx",
        equation: "the sucrose solution at 20 °C with the same refractive index",
        range: "0 to 85 °Bx, 0 to 60 °C",
        error: "sucrose 0.05, glucose and fructose 0.1, with spirit 0.2 °Bx",
        sources: keys!["oiv-ma-as2-02", "crc-102"],
    },
    value: |p| p.refractometer_brix,
    unit: "°Bx",
    decimals: 1,
    line: None,
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    // What is stretched in it is stretched in the refractive index, and said there.
    match of.liquid.refractometer_reading(of.at) {
        Ok(reading) => [Some(reading.value.get())],
        Err(why) => [of.refused("reading of a refractometer", &why)],
    }
}
