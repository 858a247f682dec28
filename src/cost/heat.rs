//! The heat that a batch takes, from its masses and temperatures.

use crate::mixture::heat::kj_per_kelvin;
use crate::solver::Solved;
use crate::units::degrees_celsius;

/// What goes into the pan is this warm, °C.
pub(crate) const FROM_C: f64 = 20.0;
/// Share of the energy that reaches the pan where the house states none: between an open gas flame and an
/// induction plate (common practice, no source).
pub(crate) const ASSUMED_EFFICIENCY: f64 = 0.5;

/// Heat of evaporation of water at 100 °C, kJ/kg (steam tables, `from memory`); at 60 °C it is 4 % more.
const EVAPORATION_KJ: f64 = 2257.0;
const KJ_IN_KWH: f64 = 3600.0;

/// Kilowatt-hours into the pan, and whether a stage loses water without saying how hot it gets.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Heat {
    /// Into the pan; what the stove wastes is not in it.
    pub kwh: f64,
    /// Only the evaporation of such a stage is counted.
    pub unstated: bool,
}

/// The heat of a card and of the cards inside it, from 20 °C. Holding it hot, and heat that is used again, are
/// not counted.
pub fn batch_heat(solved: &Solved) -> Heat {
    let mut heat = Heat::default();
    for (card, share) in solved.with_inner() {
        for (of_card, stage) in card.card.all_stages().zip(&card.stages) {
            let evaporates = stage.course.evaporated_g > 0.0;
            heat.kwh += share * EVAPORATION_KJ * stage.course.evaporated_g / 1000.0 / KJ_IN_KWH;
            match of_card.heated.map(|h| h.value) {
                Some(heated) => {
                    let rise = (degrees_celsius(heated.to) - FROM_C).max(0.0);
                    heat.kwh += share * kj_per_kelvin(&stage.course.combined) * rise / KJ_IN_KWH;
                }
                None => heat.unstated |= evaporates,
            }
        }
    }
    heat
}
