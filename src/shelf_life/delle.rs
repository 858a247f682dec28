//! Sugar and alcohol together against *Saccharomyces*: Delle units.

use crate::units::{Abv, MassDensity, in_grams_per_litre};

/// `DU = sugar [g/100 mL] + 4.5 · ABV [% vol]`: Amerine & Kunkee 1965 Vitis 5:187; Kunkee & Amerine 1968 Appl Microbiol
/// 16:1067. 78 is the nominal need; 75 to 85 was observed at 200 to 50 g/L of sugar. It says nothing of lactic bacteria
/// (reported to 20 % vol) nor of *Z. bailii* (claimed to 18 % vol).
pub fn units(sugar: MassDensity, abv: Abv) -> f64 {
    in_grams_per_litre(sugar) / 10.0 + 4.5 * abv.get()
}

/// Stronger than this no wild yeast works, % vol, and from so many units on none in what is that sweet: the lines of the refusal of a
/// closed bottle in the warm (ours, with Delle's 78).
const STILL_ABV: f64 = 15.0;
const STILL_UNITS: f64 = 78.0;

/// The strength from which yeast lets so sweet a liquid lie still, % vol.
pub(crate) fn still_from_abv(sugar: MassDensity) -> f64 {
    ((STILL_UNITS - in_grams_per_litre(sugar) / 10.0) / 4.5).clamp(0.0, STILL_ABV)
}

/// What the units say of *Saccharomyces*.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum DelleReading {
    /// 85 and above: growth excluded.
    Excluded,
    /// 75 to 85: strains differ.
    Grey,
    /// Below 75: a medium like any other.
    Grows,
}

/// The reading of so many units.
pub fn reading(units: f64) -> DelleReading {
    if units >= 85.0 {
        DelleReading::Excluded
    } else if units >= 75.0 {
        DelleReading::Grey
    } else {
        DelleReading::Grows
    }
}
