//! pH: the middle value and its cautious edges.

use super::{Equation, Properties, Property, PropertyLine, Subject, TargetKind, acid};
use crate::mixture::acidity::ph::{self, NoPh};
use crate::references::keys;
use crate::units::display::grouped;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "pH",
        unit: "",
        equation: "root of the charge balance per kg of water, a/g1 - Kw/(a g1) - sum of c_k times the mean charge of acid k + C = 0; activity coefficients by Davies, log g = -A z^2 (sqrt(I)/(1+sqrt(I)) - 0.3 I); pK by dH and dCp from 25 °C; carboxylic pK + 0.0140 for each % alcohol of the solvent",
        range: "0 to 60 °C, ionic strength to 0.5 mol/kg (to 1 with a larger error), up to 45 % alcohol of the water and alcohol, up to 1 % protein",
        error: "0.05 acids in water; 0.15 concentrated; 0.1 calibrated juice; 0.4 juice from the table; 0.1 more with sugar; 0.1 more with alcohol, 0.3 more above 20 %",
        sources: keys![
            "davies-1962",
            "nist-srd46",
            "eden-bates-1959",
            "martin-tartar-1937",
            "goldberg-2002",
            "prenesti-2012"
        ],
    },
    value: |p| p.ph,
    unit: "",
    decimals: 1,
    line: Some(PropertyLine { remark: edges, ..PropertyLine::new("pH") }),
    target: Some(TargetKind::Ph),
    headline: None,
};

/// Limits that a product may rest on: FDA Food Code 2022 table 1-201.10(B) of potentially hazardous food, 4.2 and 4.6.
const LIMITS: [f64; 2] = [4.2, 4.6];
/// Nearer than this to a limit a computed pH is not enough (ours: twice the error of a pocket meter, and some).
const NEAR: f64 = 0.3;

/// The middle, the lower and the upper edge; a reading beats what is computed.
pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 3] {
    let acid_given = acid::given(of).is_some();
    let unknown = of.acidity.unknown.join(", ");
    let three = match ph::estimate(of.liquid, of.at) {
        _ if let Some((read, uncertainty)) = of.acidity.read => {
            [read, read - uncertainty, read + uncertainty].map(Some)
        }
        Ok(ph) => [ph.value, ph.low, ph.high].map(|ph| Some(ph.get())),
        Err(NoPh::NoAcid) if !unknown.is_empty() => {
            let what = if acid_given { "pH" } else { "pH or acid" };
            let why = format!("nothing is known of the acids of {unknown}, so it cannot be computed: measure it");
            of.refused(what, &why);
            [None; 3]
        }
        Err(why) => {
            of.refused("pH", &why);
            [None; 3]
        }
    };
    if !acid_given && three[0].is_some() {
        of.refused("acid", &format!("nothing is known of the acids of {unknown}: titrate it"));
    }
    three
}

/// The edges, rounded outwards; with the advice to measure where one comes near a limit.
fn edges(p: &Properties) -> String {
    let Some((low, high)) = p.ph_low.zip(p.ph_high) else { return String::new() };
    let (low_shown, high_shown) = ((10.0 * low + 1e-9).floor() / 10.0, (10.0 * high - 1e-9).ceil() / 10.0);
    let near = LIMITS.into_iter().find(|limit| low - NEAR <= *limit && *limit <= high + NEAR);
    let advice = near.map_or_else(String::new, |limit| format!(": near {limit}, measure it"));
    format!(" ({} to {}){advice}", grouped(low_shown, 1), grouped(high_shown, 1))
}
