//! Energy, and alcohol counted in units and drinks.

use uom::si::energy::{kilocalorie, kilojoule};

use crate::units::{Abv, Energy, Volume, in_millilitres};

use super::alcohol::pure_alcohol;
use super::{Component, Mixture, OutOfRange};

/// Energy as it is printed on a label: both figures come from their own factors.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelEnergy {
    /// In kilojoules.
    pub kilojoules: Energy,
    /// In kilocalories.
    pub kilocalories: Energy,
}

/// kJ and kcal for each gram: Regulation (EU) 1169/2011, Annex XIV (fat, protein and fibre `from memory`).
/// Matter of unknown kind counts as carbohydrate: an assumption. Salt, minerals and water have none.
fn factors(component: Component) -> (f64, f64) {
    match component {
        Component::Ethanol => (29.0, 7.0),
        Component::Glycerol => (10.0, 2.4),
        Component::Fat => (37.0, 9.0),
        Component::Fibre => (8.0, 2.0),
        Component::Water | Component::Insoluble | Component::Salt | Component::Ash => (0.0, 0.0),
        acid if Component::ACIDS.contains(&acid) => (13.0, 3.0),
        _ => (17.0, 4.0),
    }
}

impl Mixture {
    /// Energy of 100 ml at 20 °C.
    pub fn energy_per_100_ml(&self) -> Result<LabelEnergy, OutOfRange> {
        let hundreds = in_millilitres(self.volume_at_20c()?.value) / 100.0;
        let (kj, kcal) = Component::ALL.iter().fold((0.0, 0.0), |(kj, kcal), &component| {
            let (kj_g, kcal_g) = factors(component);
            let g = self.grams_of(component);
            (kj + kj_g * g, kcal + kcal_g * g)
        });
        Ok(LabelEnergy {
            kilojoules: Energy::new::<kilojoule>(kj / hundreds),
            kilocalories: Energy::new::<kilocalorie>(kcal / hundreds),
        })
    }
}

/// UK units in a measure: 10 ml of pure alcohol each.
pub fn uk_units(measure: Volume, strength: Abv) -> f64 {
    in_millilitres(pure_alcohol(measure, strength)) / 10.0
}

/// US standard drinks in a measure: 0.6 US fl oz of pure alcohol each (US NIH figure, about 14 g).
pub fn us_standard_drinks(measure: Volume, strength: Abv) -> f64 {
    const ML_PER_FL_OZ: f64 = 29.5735295625;
    in_millilitres(pure_alcohol(measure, strength)) / (0.6 * ML_PER_FL_OZ)
}
