//! Energy of a label, in 100 ml at 20 °C.

use uom::si::energy::{kilocalorie, kilojoule};

use super::{Equation, Property, Subject};
use crate::references::keys;

pub(super) static PROPERTY: Property = Property {
    equation: Equation {
        name: "energy",
        unit: "kJ and kcal per 100 ml",
        equation: "29 ethanol + 17 carbohydrate and protein + 13 acids + 10 glycerol + 37 fat + 8 fibre, kJ/g",
        range: "as density",
        error: "as the composition",
        sources: keys!["EU1169"],
    },
    value: |p| p.energy_kj_100ml,
    unit: "kJ per 100 ml",
    decimals: 0,
    line: None,
    target: None,
    headline: None,
};

pub(super) fn compute(of: &mut Subject<'_>) -> [Option<f64>; 2] {
    let energy = of.liquid.energy_per_100_ml().ok();
    [energy.map(|e| e.kilojoules.get::<kilojoule>()), energy.map(|e| e.kilocalories.get::<kilocalorie>())]
}
