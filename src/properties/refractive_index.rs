//! Refractive index at 589 nm.

use super::{Equation, Property, Subject};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "refractive index",
        unit: "nD",
        equation: "(n² - 1)/(n² + 2) = sum of m r / V; r of sugars by their share in water, of spirit from its measured index",
        range: "0 to 60 °C, to 85 °Bx; spirit measured at 20 °C",
        error: "sucrose 0.00008, glucose and fructose 0.00015, with spirit 0.0003",
        sources: keys!["iapws-r9-97", "oiv-ma-as2-02", "crc-102", "icumsa-sps4", "apparent-volumes"],
    },
    value: |p| p.refractive_index,
    unit: "",
    decimals: 5,
    line: None,
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    [of.value("refractive index", of.liquid.refractive_index(of.at), |n| n)]
}
