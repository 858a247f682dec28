//! Every property with its equation, range, error and sources: what can be told of a number without computing it.

/// What stands behind one property.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Equation {
    /// The property.
    pub property: &'static str,
    /// The unit it is given in.
    pub unit: &'static str,
    /// The equation in a line.
    pub equation: &'static str,
    /// Where it holds.
    pub range: &'static str,
    /// Its stated error.
    pub error: &'static str,
    /// Keys of the bibliography ([`crate::references`]).
    pub sources: &'static [&'static str],
}

/// The equations of this room.
pub const EQUATIONS: &[Equation] = &[
    Equation {
        property: "density",
        unit: "kg/m³",
        equation: "m/V; V = (ethanol + water)/rho(p, t) + sugar phi(b, t); phi the volume of sugar in water (SPS-4)",
        range: "sugar in water 0 to 85 %, 0 to 80 °C; spirit -20 to 40 °C",
        error: "sugar in water 0.3 to 70 %, 0.9 to 85 %; spirit 0.12; both 1 at 15 to 40 % alcohol and to 400 g/L, else 2",
        sources: &["kell-1975", "icumsa-sps4", "oiml-r22", "model-a", "crc-102", "apparent-volumes"],
    },
    Equation {
        property: "abv",
        unit: "% by volume at 20 °C",
        equation: "ethanol/789.24 kg/m³ over the volume of the mixture at 20 °C",
        range: "0 to 100 %",
        error: "0.05 points from known masses",
        sources: &["oiml-r22", "model-a"],
    },
    Equation {
        property: "proof",
        unit: "US proof",
        equation: "2 x percent by volume at 60 °F",
        range: "0 to 200",
        error: "0.1 from known masses",
        sources: &["oiml-r22", "27cfr30"],
    },
    Equation {
        property: "brix",
        unit: "g per 100 g",
        equation: "dissolved non-volatile solids/mass",
        range: "0 to 100",
        error: "exact for known masses",
        sources: &["definition"],
    },
    Equation {
        property: "sugar",
        unit: "g/L at 20 °C",
        equation: "sugars as weighed/volume of the mixture at 20 °C",
        range: "as density",
        error: "as density",
        sources: &["icumsa-sps4", "model-a"],
    },
    Equation {
        property: "specific gravity, Plato, Baumé",
        unit: "20/20; °P; °Bé",
        equation: "rho/998.203; ASBC cubic; 145 - 145/SG",
        range: "Plato 0 to 20 only",
        error: "0.0003; 0.012 °P; 0.1 °Bé",
        sources: &["icumsa-sps4", "nbs-c440", "baume-145"],
    },
    Equation {
        property: "refractive index",
        unit: "nD",
        equation: "(n² - 1)/(n² + 2) = sum of m r / V; r of sugars by their share in water, of spirit from its measured index",
        range: "0 to 60 °C, to 85 °Bx; spirit measured at 20 °C",
        error: "sucrose 0.00008, glucose and fructose 0.00015, with spirit 0.0003",
        sources: &["iapws-r9-97", "oiv-ma-as2-02", "crc-102", "icumsa-sps4", "apparent-volumes"],
    },
    Equation {
        property: "refractometer reading",
        unit: "°Bx",
        equation: "the sucrose solution at 20 °C with the same refractive index",
        range: "0 to 85 °Bx, 0 to 60 °C",
        error: "sucrose 0.05, glucose and fructose 0.1, with spirit 0.2 °Bx",
        sources: &["oiv-ma-as2-02", "crc-102"],
    },
    Equation {
        property: "water activity",
        unit: "1",
        equation: "ln aw = ln xw - K xs²; K of sucrose from Starzak and Peacock, mixed by moles; bound: Ross's product",
        range: "to 70 % of solids, -10 to 110 °C; with spirit for display only",
        error: "0.002; with glycerol 0.006; above 70 % of solids 0.03; with spirit 0.03",
        sources: &["starzak-peacock", "norrish-1966", "ross-1975", "van-laar-unifac"],
    },
    Equation {
        property: "boiling point",
        unit: "°C",
        equation: "aw(t) p(t) = P; spirit: x_e g_e P_e(t) + x_w g_w P_w(t) = P",
        range: "50 to 110 kPa, to 80 °Bx",
        error: "0.35 K to 50 %, 0.8 to 65 %, 1.5 to 70 %, 2.6 to 80 %; spirit 0.5 K, sweet spirit 2 K",
        sources: &["starzak-peacock", "iapws-if97", "perry-vle", "icao-atmosphere", "browne-1912"],
    },
    Equation {
        property: "saturation",
        unit: "°Bx",
        equation: "S = 64.447 + 0.08222 t + 0.0016169 t² - 1.558e-6 t³ - 4.63e-8 t⁴, less beside other solids and spirit",
        range: "0 to 80 °C",
        error: "0.15; beside other solids or in spirit a guess, 2",
        sources: &["vavrinecz-1962", "wiklund-vavrinecz", "scheibler-1891"],
    },
    Equation {
        property: "viscosity",
        unit: "mPa s",
        equation: "log10 = 22.46 x - 0.114 + f (1.1 + 43.1 x^1.25), x = W/(1900 - 18 W), f = (30 - t)/(91 + t)",
        range: "0 to 76 °Bx, 5 to 85 °C, no spirit",
        error: "13 %",
        sources: &["genotelle-1978"],
    },
    Equation {
        property: "flash point",
        unit: "°C",
        equation: "linear between the rows of a table by strength",
        range: "10 to 96 % alcohol",
        error: "5 K",
        sources: &["flash-point-table"],
    },
    Equation {
        property: "energy",
        unit: "kJ and kcal per 100 ml",
        equation: "29 ethanol + 17 carbohydrate and protein + 13 acids + 10 glycerol + 37 fat + 8 fibre, kJ/g",
        range: "as density",
        error: "as the composition",
        sources: &["eu-1169-2011"],
    },
    Equation {
        property: "units and standard drinks",
        unit: "1",
        equation: "pure alcohol/10 ml; pure alcohol/0.6 US fl oz",
        range: "0 to 100 %",
        error: "as the strength",
        sources: &["uk-units", "us-standard-drink"],
    },
];

/// The equation of a property.
pub fn of(property: &str) -> Option<&'static Equation> {
    EQUATIONS.iter().find(|equation| equation.property == property)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_equation_names_sources_that_exist() {
        for equation in EQUATIONS {
            assert!(!equation.sources.is_empty(), "{}", equation.property);
            for key in equation.sources {
                assert!(crate::references::find(key).is_some(), "{key}");
            }
        }
        assert!(of("density").is_some() && of("colour").is_none());
    }
}
