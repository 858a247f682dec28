//! Density at the temperature of the product.

use super::{Equation, Property, PropertyLine, Subject};
use crate::references::keys;
use crate::units::in_kg_per_m3;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "density",
        unit: "kg/m³",
        equation: "m/V; V = (ethanol + water)/rho(p, t) + sugar phi(b, t); phi the volume of sugar in water (SPS-4)",
        range: "sugar in water 0 to 85 %, 0 to 80 °C; spirit -20 to 40 °C",
        error: "sugar in water 0.3 to 70 %, 0.9 to 85 %; spirit 0.12; both 1 at 15 to 40 % alcohol and to 400 g/L, else 2",
        sources: keys!["kell-1975", "icumsa-sps4", "oiml-r22", "model-a", "crc-102", "apparent-volumes"],
    },
    value: |p| p.density_kg_m3,
    unit: "kg/m³",
    decimals: 1,
    line: Some(PropertyLine {
        after: " kg/m³",
        remark: |p| format!(" at {}", p.temperature_text()),
        ..PropertyLine::new("density")
    }),
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    [of.density_kg_m3]
}

/// kg/m³. Asked before all others: whatever is given per litre hangs on it.
pub(super) fn ask(of: &mut Subject<'_>) -> Option<f64> {
    of.value("density", of.liquid.density(of.at), in_kg_per_m3)
}
