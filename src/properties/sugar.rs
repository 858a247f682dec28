//! Sugars as weighed, g/L at 20 °C.

use super::{Equation, Headline, Property, PropertyLine, Subject, TargetKind, value_of};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "sugar",
        unit: "g/L at 20 °C",
        equation: "sugars as weighed/volume of the mixture at 20 °C",
        range: "as density",
        error: "as density",
        sources: keys!["icumsa-sps4", "model-a"],
    },
    value: |p| p.sugar_g_l,
    unit: "g/L",
    decimals: 0,
    line: Some(PropertyLine { least: 0.5, after: " g/L", ..PropertyLine::new("sugar") }),
    target: Some(TargetKind::Sugar),
    headline: Some(Headline { counts: "g of sugars", in_mass: false, error: |value| 0.001 * value }),
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    [value_of(TargetKind::Sugar, of.liquid)]
}
