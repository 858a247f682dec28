//! Dissolved solids, g per 100 g.

use super::{Equation, Headline, Properties, Property, PropertyLine, Subject, TargetKind};
use crate::references::keys;
use crate::units::display::grouped;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "brix",
        unit: "g per 100 g",
        equation: "dissolved non-volatile solids/mass",
        range: "0 to 100",
        error: "exact for known masses",
        sources: keys!["definition"],
    },
    value: |p| p.brix,
    unit: "°Bx",
    decimals: 1,
    line: Some(PropertyLine { least: 0.05, remark: refractometer, ..PropertyLine::new("Brix") }),
    target: Some(TargetKind::Brix),
    headline: Some(Headline { counts: "g of dissolved solids", in_mass: true, error: |_| 0.0 }),
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    [Some(of.liquid.brix().get())]
}

fn refractometer(p: &Properties) -> String {
    let shows =
        p.refractometer_brix.map(|r| format!("a refractometer shows {} at {}", grouped(r, 1), p.temperature_text()));
    format!("   {}", shows.unwrap_or_else(|| "no refractometer reading can be given".to_owned()))
}
