//! Titratable acid to pH 8.1 as citric, g/L at 20 °C.

use super::{Equation, Headline, Property, PropertyLine, Subject, TargetKind, value_of};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "titratable acidity",
        unit: "g as anhydrous citric acid",
        equation: "64.0412 (sum of grams / grams per equivalent - equivalents held by minerals), to pH 8.1",
        range: "pH below 7",
        error: "0.45 % against the charge balance, and that of the acids of the table",
        sources: keys!["ifu-3"],
    },
    value: |p| p.acid_g_l,
    unit: "g/L",
    decimals: 1,
    line: Some(PropertyLine { least: 0.05, after: " g/L titratable, as citric", ..PropertyLine::new("acid") }),
    target: Some(TargetKind::Acid),
    headline: Some(Headline {
        counts: "g of titratable acid, as citric,",
        in_mass: false,
        error: |value| 0.001 * value,
    }),
};

/// Less titratable acid than this is none, g/L (ours: a drop of lemon in a litre).
const NO_ACID_G_L: f64 = 0.05;

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 1] {
    [given(of)]
}

/// None where it would be next to nothing, but for parts of which no acid is listed.
pub(super) fn given(of: &Subject<'_>) -> Option<f64> {
    // Plus nothing: a negative zero is not printed.
    let acid = value_of(TargetKind::Acid, of.liquid).map(|acid| acid.max(0.0) + 0.0)?;
    (of.acidity.unknown.is_empty() || acid >= NO_ACID_G_L).then_some(acid)
}
