//! Viscosity of a syrup without spirit.

use uom::si::dynamic_viscosity::millipascal_second;

use super::{Equation, Property, Subject};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "viscosity",
        unit: "mPa s",
        equation: "log10 = 22.46 x - 0.114 + f (1.1 + 43.1 x^1.25), x = W/(1900 - 18 W), f = (30 - t)/(91 + t)",
        range: "0 to 76 °Bx, 5 to 85 °C, no spirit",
        error: "13 %",
        sources: keys!["genotelle-1978"],
    },
    value: |p| p.viscosity_mpa_s,
    unit: "mPa s",
    decimals: 0,
    line: None,
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    let has_sugar = of.liquid.sugar_grams() > 0.0;
    [of.liquid.viscosity(of.at).ok().filter(|_| has_sugar).map(|v| v.value.get::<millipascal_second>())]
}
