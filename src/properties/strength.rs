//! Alcohol: by volume at 20 °C, by mass.

use super::{Equation, Headline, Properties, Property, PropertyLine, Subject, TargetKind, value_of};
use crate::references::keys;
use crate::units::display::grouped;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "abv",
        unit: "% by volume at 20 °C",
        equation: "ethanol/789.24 kg/m³ over the volume of the mixture at 20 °C",
        range: "0 to 100 %",
        error: "0.05 points from known masses",
        sources: keys!["oiml-r22", "model-a"],
    },
    value: |p| p.abv_pct,
    unit: "% vol",
    decimals: 1,
    line: Some(PropertyLine { least: 0.005, after: " %", remark: us_proof, ..PropertyLine::new("ABV") }),
    target: Some(TargetKind::Abv),
    headline: Some(Headline { counts: "ml of pure alcohol", in_mass: false, error: |_| 0.05 }),
};

/// % vol at 20 °C, % by mass. Only the density at 20 °C can fail, and that is said once.
pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 2] {
    [value_of(TargetKind::Abv, of.liquid), Some(100.0 * of.liquid.abw().get())]
}

fn us_proof(p: &Properties) -> String {
    p.us_proof.map_or_else(String::new, |x| format!(" (US proof {})", grouped(x, 1)))
}
