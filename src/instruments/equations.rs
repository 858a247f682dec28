//! The equations of this room.

use crate::mixture::equations::Equation;

/// What stands behind what is read.
pub const EQUATIONS: &[Equation] = &[
    Equation {
        property: "hydrometer at temperature",
        unit: "kg/m³",
        equation: "rho = rho_scale/(1 + 25e-6 (t - t0))",
        range: "as the density of the scale",
        error: "that of the instrument",
        sources: &["glass-expansion", "icumsa-sps4", "oiml-r22", "27cfr30"],
    },
    Equation {
        property: "refractometer with acid",
        unit: "°Bx",
        equation: "Brix + 0.012 + 0.193 A - 0.0004 A², A the % of anhydrous citric acid",
        range: "juices and cordials",
        error: "not stated",
        sources: &["stevens-baier-1939"],
    },
    Equation {
        property: "sugar and alcohol from two instruments",
        unit: "% vol, g/L",
        equation: "the shares of sucrose and ethanol whose density and refractive index are those read, both at the temperature of the reading",
        range: "0 to 40 °C, to 85 % sugar in the water",
        error: "the equations ±0.6 % vol and ±3 g/L at best; with a kitchen refractometer and hydrometer ±0.8 to 1; not label grade",
        sources: &["model-a", "crc-102", "oiv-ma-as2-02"],
    },
];

#[cfg(test)]
mod tests {
    #[test]
    fn every_source_is_in_the_bibliography() {
        for equation in super::EQUATIONS {
            for key in equation.sources {
                assert!(crate::references::find(key).is_some(), "{key}");
            }
        }
    }
}
