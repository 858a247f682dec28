//! The Brix that it would have if saturated with sucrose at its temperature.

use super::{Equation, Property, Subject};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "saturation",
        unit: "°Bx",
        equation: "S = 64.447 + 0.08222 t + 0.0016169 t² - 1.558e-6 t³ - 4.63e-8 t⁴, less beside other solids and spirit",
        range: "0 to 80 °C",
        error: "0.15; beside other solids or in spirit a guess, 2",
        sources: keys!["vavrinecz-1962", "wiklund-vavrinecz", "scheibler-1891"],
    },
    value: |p| p.saturation_brix,
    unit: "°Bx",
    decimals: 1,
    line: None,
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    if of.liquid.sugar_grams() > 0.0 {
        return [of.value("saturation", of.liquid.saturation_brix(of.at), |b| b.get())];
    }
    of.does_not_apply("saturation", "it has no sugar");
    [None]
}
