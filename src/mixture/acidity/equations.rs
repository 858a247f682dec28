//! The equations of this room, told as a table.

use crate::mixture::equations::Equation;

/// All of them.
pub const EQUATIONS: &[Equation] = &[
    Equation {
        property: "pH",
        unit: "",
        equation: "root of the charge balance per kg of water, a/g1 - Kw/(a g1) - sum of c_k times the mean charge of acid k + C = 0; activity coefficients by Davies, log g = -A z^2 (sqrt(I)/(1+sqrt(I)) - 0.3 I); pK by dH and dCp from 25 °C; carboxylic pK + 0.0140 for each % alcohol of the solvent",
        range: "0 to 60 °C, ionic strength to 0.5 mol/kg (to 1 with a larger error), up to 45 % alcohol of the water and alcohol, up to 1 % protein",
        error: "0.05 acids in water; 0.15 concentrated; 0.1 calibrated juice; 0.4 juice from the table; 0.1 more with sugar; 0.1 more with alcohol, 0.3 more above 20 %",
        sources: &[
            "davies-1962",
            "nist-srd46",
            "eden-bates-1959",
            "martin-tartar-1937",
            "goldberg-2002",
            "prenesti-2012",
        ],
    },
    Equation {
        property: "acid held by minerals",
        unit: "eq",
        equation: "k (K/39.0983 + 2 Ca/40.078 + 2 Mg/24.305 - P/30.9738), amounts in mol; k = 0.7, band 0.5 to 1.0; sodium counts as table salt",
        range: "juices and fruit whose five minerals are known",
        error: "the band of k",
        sources: &["sinclair-eny"],
    },
    Equation {
        property: "titratable acidity",
        unit: "g as anhydrous citric acid",
        equation: "64.0412 (sum of grams / grams per equivalent - equivalents held by minerals), to pH 8.1",
        range: "pH below 7",
        error: "0.45 % against the charge balance, and that of the acids of the table",
        sources: &["ifu-3"],
    },
    Equation {
        property: "titratable acidity from a titration",
        unit: "g/L",
        equation: "grams per equivalent x normality x titre / sample",
        range: "any",
        error: "that of burette and base",
        sources: &["ifu-3", "oiv-as313-01"],
    },
    Equation {
        property: "total acid and cations of a measured juice",
        unit: "g/g and eq/kg water",
        equation: "the total acid at which the cations that give the measured pH also give the measured titratable acidity",
        range: "pH below 8.1",
        error: "0.1 pH in what is made of the juice",
        sources: &["davies-1962", "nist-srd46"],
    },
    Equation {
        property: "acid powder for a target",
        unit: "g",
        equation: "by mass m (target - TA)/(e - target), e = 64.0412 / grams per equivalent of the powder; by volume V (target - own)/(1 - 0.61 target), target in g/mL",
        range: "targets weaker than the powder",
        error: "by mass exact; by volume 0.2 % for a 6 % juice",
        sources: &["common-practice"],
    },
    Equation {
        property: "pH of a syrup read at 1:1 with water",
        unit: "",
        equation: "cations from the reading at the diluted strength, then the charge balance at full strength",
        range: "as pH",
        error: "as pH of what was read",
        sources: &["davies-1962"],
    },
];

#[cfg(test)]
mod tests {
    use super::EQUATIONS;
    use crate::references;

    #[test]
    fn every_source_is_in_the_bibliography() {
        for equation in EQUATIONS {
            for key in equation.sources {
                assert!(references::find(key).is_some(), "{}: no source {key}", equation.property);
            }
        }
    }
}
