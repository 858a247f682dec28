//! Time and warmth before a product is bottled. What stood weak, not sour and warm may hold toxin or spores, and nothing done
//! later undoes it: *S. aureus* toxin outlives boiling (from memory).

use super::screen::{ScreenClass, ScreenTable, look_up};
use crate::safety::alcohol_bands::alcohol_keeps;

/// Cold enough for food that needs control, °C (FDA Food Code 2022, 3-501.16(A)(2)).
pub(crate) const COLD_C: f64 = 5.0;
/// Hot enough for it, °C (FDA Food Code 2022, 3-501.16(A)(1)).
pub(crate) const HOT_C: f64 = 57.0;
/// Hours between the two that are allowed in all: at 5 °C within 4 h from ingredients at room temperature (FDA Food Code
/// 2022, 3-501.14(B), from memory).
const MOST_WARM_H: f64 = 4.0;

/// One stage as it then is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StageWarmth {
    /// How warm, °C.
    pub t_c: f64,
    /// How long, hours.
    pub hours: f64,
    /// The strength at its lower end, % vol.
    pub abv: f64,
    /// The highest pH that it can have.
    pub ph_up: Option<f64>,
    /// Water activity at its upper end.
    pub aw_up: f64,
}

/// What the stages cost.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Warmth {
    /// Days spent cold: they count.
    pub cold_days: f64,
    /// Hours spent warm while it was weak and not sour.
    pub danger_h: f64,
    /// The warmest of those, °C.
    pub danger_c: f64,
}

impl StageWarmth {
    /// Weak and not sour: neither the tables nor its alcohol keep it as it then is.
    pub(crate) fn in_danger(&self) -> bool {
        self.t_c > COLD_C
            && self.t_c < HOT_C
            && look_up(ScreenTable::B, self.ph_up, Some(self.aw_up)) != ScreenClass::NonTcs
            && !alcohol_keeps(self.abv, self.ph_up, self.aw_up)
    }

    /// Warm, and kept by its acid, sugar or alcohol: yeast may have grown meanwhile.
    pub(crate) fn warm_and_stable(&self) -> bool {
        self.t_c > COLD_C && self.t_c < HOT_C && !self.in_danger()
    }
}

impl Warmth {
    /// Of these stages together. A temperature or a time that is no number is warm and long.
    pub fn of(stages: &[StageWarmth]) -> Self {
        let mut sum = Self::default();
        for stage in stages {
            let stage = StageWarmth {
                t_c: if stage.t_c.is_finite() { stage.t_c } else { 21.0 },
                hours: if stage.hours.is_finite() { stage.hours.max(0.0) } else { f64::INFINITY },
                ..*stage
            };
            if stage.t_c <= COLD_C {
                sum.cold_days += stage.hours / 24.0;
            } else if stage.in_danger() {
                sum.danger_h += stage.hours;
                sum.danger_c = sum.danger_c.max(stage.t_c);
            }
        }
        sum
    }

    /// Whether it stood too long.
    pub fn too_long(&self) -> bool {
        self.danger_h > MOST_WARM_H
    }
}
