//! Flash point, closed cup, by the strength of the solvent: it burns whatever sugar stands in it.

use super::{Equation, Property, PropertyLine, Subject};
use crate::mixture::{Component, Mixture, alcohol, flash_point};
use crate::references::keys;
use crate::units::degrees_celsius;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "flash point",
        unit: "°C",
        equation: "linear between the rows of a table by strength",
        range: "10 to 96 % alcohol",
        error: "5 K",
        sources: keys!["flash-point-table"],
    },
    value: |p| p.flash_point_c,
    unit: "°C",
    decimals: 0,
    line: Some(PropertyLine { before: "about ", after: " °C: no flame near it", ..PropertyLine::new("flash point") }),
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    [flash_point_c(of.liquid)]
}

/// °C; none without spirit, or where the table of strengths does not reach.
pub(crate) fn flash_point_c(liquid: &Mixture) -> Option<f64> {
    let burns = liquid.grams_of(Component::Ethanol) > 0.0;
    let estimate = flash_point::of_strength(alcohol::solvent_abv(liquid)).ok().filter(|_| burns)?;
    Some(degrees_celsius(estimate.value))
}
