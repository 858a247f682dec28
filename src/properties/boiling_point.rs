//! Boiling point at the height of the house.

use super::{Equation, Property, PropertyLine, Subject};
use crate::mixture::boiling;
use crate::references::keys;
use crate::units::degrees_celsius;

use uom::si::temperature_interval::kelvin;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "boiling point",
        unit: "°C",
        equation: "aw(t) p(t) = P; spirit: x_e g_e P_e(t) + x_w g_w P_w(t) = P",
        range: "50 to 110 kPa, to 80 °Bx",
        error: "0.35 K to 50 %, 0.8 to 65 %, 1.5 to 70 %, 2.6 to 80 %; spirit 0.5 K, sweet spirit 2 K",
        sources: keys!["starzak-peacock", "iapws-if97", "perry-vle", "icao-atmosphere", "browne-1912"],
    },
    value: |p| p.boiling_point_c,
    unit: "°C",
    decimals: 1,
    line: Some(PropertyLine {
        after: " °C",
        said_unknown: |p| p.density_kg_m3.is_some(),
        ..PropertyLine::new("boils at")
    }),
    target: None,
    headline: None,
};

/// °C, and by how many kelvin what is dissolved raises the boiling point of the water.
pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 2] {
    match boiling::pressure_at_altitude(of.altitude) {
        Ok(pressure) => {
            let raised = of.liquid.boiling_elevation(pressure.value).ok().map(|k| k.value.get::<kelvin>());
            [of.value("boiling point", of.liquid.boiling_point(pressure.value), degrees_celsius), raised]
        }
        Err(why) => [of.refused("boiling point", &why), None],
    }
}
