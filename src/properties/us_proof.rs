//! Strength in US proof (60 °F).

use super::{Equation, Property, Subject};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "proof",
        unit: "US proof",
        equation: "2 x percent by volume at 60 °F",
        range: "0 to 200",
        error: "0.1 from known masses",
        sources: keys!["oiml-r22", "27cfr30"],
    },
    value: |p| p.us_proof,
    unit: "US proof",
    decimals: 1,
    line: None,
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    [of.liquid.us_proof().ok().map(|x| x.value)]
}
