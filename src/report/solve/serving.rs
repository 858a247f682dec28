//! One measure as it is served.

use serde::Serialize;

use crate::mixture::nutrition;
use crate::properties::Properties;
use crate::units::{Abv, millilitres};

/// One measure.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Serving {
    /// Millilitres.
    pub ml: f64,
    /// Grams of sugar in it.
    pub sugar_g: Option<f64>,
    /// UK units of alcohol in it.
    pub uk_units: Option<f64>,
    /// US standard drinks in it.
    pub us_drinks: Option<f64>,
    /// Energy, kJ.
    pub energy_kj: Option<f64>,
    /// Energy, kcal.
    pub energy_kcal: Option<f64>,
}

impl Serving {
    /// So many millilitres of what has these properties at 20 °C.
    pub(super) fn of(ml: f64, at_20: &Properties) -> Self {
        let strength = at_20.abv_pct.and_then(Abv::new);
        let in_it = |x: Option<f64>, per_ml: f64| x.map(|x| x * ml / per_ml);
        Self {
            ml,
            sugar_g: in_it(at_20.sugar_g_l, 1000.0),
            uk_units: strength.map(|abv| nutrition::uk_units(millilitres(ml), abv)),
            us_drinks: strength.map(|abv| nutrition::us_standard_drinks(millilitres(ml), abv)),
            energy_kj: in_it(at_20.energy_kj_100ml, 100.0),
            energy_kcal: in_it(at_20.energy_kcal_100ml, 100.0),
        }
    }
}
