//! Density relative to water at 20 °C: in a vacuum, weighed in air (what a hydrometer shows), in degrees Baumé.

use super::{Equation, Property, Subject};
use crate::mixture::sweetness;
use crate::references::keys;
use crate::units::celsius;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "specific gravity, Plato, Baumé",
        unit: "20/20; °P; °Bé",
        equation: "rho/998.203; ASBC cubic; 145 - 145/SG",
        range: "Plato 0 to 20 only",
        error: "0.0003; 0.012 °P; 0.1 °Bé",
        sources: keys!["icumsa-sps4", "nbs-c440", "baume-145"],
    },
    value: |p| p.specific_gravity,
    unit: "",
    decimals: 4,
    line: None,
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 4] {
    let density = of.liquid.density(celsius(20.0)).ok();
    let gravity = of.liquid.specific_gravity().ok().map(|x| x.value);
    let in_air = density.map(|density| sweetness::apparent_specific_gravity(density.value));
    let plato = in_air.and_then(|gravity| sweetness::plato_of_apparent(gravity).ok());
    [gravity, in_air, gravity.and_then(sweetness::baume_of), plato]
}
