//! What a strength is worth against growth, and what that reading stands on.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::references::{Key, keys};
use crate::units::Abv;
use crate::vocabulary::table;

/// A band of strengths.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// Its lower end, in percent vol; it belongs to the band.
    pub from_abv: f64,
    /// Its upper end, in percent vol; it belongs to the next.
    pub below_abv: f64,
    /// How a strength in it is read.
    pub reading: &'static str,
    /// What that stands on.
    pub basis: &'static str,
    /// The keys of the sources.
    pub sources: &'static [Key],
}

/// Below this strength the pathogens studied are not all held back by alcohol, in percent vol.
pub const PATHOGENS_STOP_ABV: f64 = 12.5;

/// The bands: our reading of single-factor broth values (see [`tolerances`]). Sugar and acid lower these limits. No
/// official food rule was found that names a strength that keeps a drink. Spores survive every strength: diluting
/// starts the clock again.
pub const BANDS: [Band; 5] = [
    Band {
        from_abv: 0.0,
        below_abv: 7.5,
        reading: "no credit for alcohol",
        basis: "proteolytic C. botulinum still grew at 5.0 % vol and stopped at 7.5",
        sources: keys!["DAIFAS03"],
    },
    Band {
        from_abv: 7.5,
        below_abv: PATHOGENS_STOP_ABV,
        reading: "some credit, still perishable",
        basis: "E. coli stopped at 9.4 and S. aureus at 12.4 % vol",
        sources: keys!["HUANG01"],
    },
    Band {
        from_abv: PATHOGENS_STOP_ABV,
        below_abv: 15.0,
        reading: "common pathogens not growing, spoilage likely",
        basis: "lactic bacteria up to 9 to 16 %",
        sources: keys!["YAMAMOTO84", "GOLD92"],
    },
    Band {
        from_abv: 15.0,
        below_abv: 20.0,
        reading: "long life likely, spoilage possible",
        basis: "Lactobacillus 16 to 20, Z. bailii 18, adapted Bacillus and Pediococcus 20 % vol",
        sources: keys!["GOLD92", "HILGARDII", "ZYGO", "GINI62"],
    },
    Band {
        from_abv: 20.0,
        below_abv: f64::INFINITY,
        reading: "no reported growth here",
        basis: "ISO 29621 uses 20 % for cosmetics (from memory)",
        sources: keys!["ISO29621"],
    },
];

/// The band of a strength.
///
/// ```
/// use stillroom::safety::alcohol_bands::band;
/// use stillroom::units::Abv;
///
/// assert_eq!(band(Abv::new(18.0).unwrap()).reading, "long life likely, spoilage possible");
/// ```
pub fn band(abv: Abv) -> &'static Band {
    let [first, rest @ ..] = &BANDS;
    rest.iter().rev().find(|b| abv.get() >= b.from_abv).unwrap_or(first)
}

/// How much ethanol an organism was reported to bear, or to be stopped by.
#[derive(Clone, Debug, Deserialize)]
pub struct Tolerance {
    /// The organism.
    pub organism: String,
    /// What was seen.
    pub effect: String,
    /// At about which strength, in percent vol, where the source's unit is known.
    pub approx_abv_pct_vol: Option<f64>,
    /// Its source.
    pub source_id: Key,
    /// How far that was read.
    pub status: String,
}

/// The reports that the bands stand on.
pub fn tolerances() -> &'static [Tolerance] {
    static TOLERANCES: LazyLock<Vec<Tolerance>> =
        LazyLock::new(|| table::rows("ethanol-limits.csv", include_str!("data/ethanol-limits.csv")));
    &TOLERANCES
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bands_meet_and_begin_where_a_report_says_so() {
        assert_eq!(tolerances().len(), 16);
        assert!(BANDS.windows(2).all(|pair| pair[0].below_abv == pair[1].from_abv));
    }
}
