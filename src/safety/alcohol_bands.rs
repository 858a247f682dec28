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

/// A row of the alcohol screen: from this strength on, with what else must hold.
struct AlcoholRow {
    abv_pct: f64,
    /// Enough by itself.
    ph_up_to: Option<f64>,
    /// Enough by itself.
    aw_up_to: Option<f64>,
    /// Both together.
    both: Option<(f64, f64)>,
}

/// *S. aureus* is the last to be stopped by alcohol: 10 % by mass, 12.4 % vol, the highest figure seen, plus a margin of 1.6;
/// with salt to water activity 0.953 at 9.4 % vol (J Food Prot 64:546); in salt or sucrose broth none at pH 4.3, and none at
/// water activity 0.96 with pH 4.9 (J Food Sci 1983). Sugar is taken to act as salt does at the same water activity (ours);
/// no figure was found for *B. cereus* and *C. perfringens*, and *S. aureus* stands in (ours).
const ALCOHOL_ROWS: &[AlcoholRow] = &[
    AlcoholRow { abv_pct: 14.0, ph_up_to: Some(f64::INFINITY), aw_up_to: None, both: None },
    AlcoholRow { abv_pct: 12.5, ph_up_to: Some(5.0), aw_up_to: Some(0.96), both: None },
    AlcoholRow { abv_pct: 10.0, ph_up_to: Some(4.4), aw_up_to: None, both: Some((5.0, 0.95)) },
];

/// Whether alcohol keeps it: see `ALCOHOL_ROWS`.
pub fn alcohol_keeps(abv: f64, ph_up: Option<f64>, aw_up: f64) -> bool {
    let ph = ph_up.unwrap_or(f64::INFINITY);
    ALCOHOL_ROWS.iter().any(|row| {
        abv >= row.abv_pct
            && (row.ph_up_to.is_some_and(|most| ph <= most)
                || row.aw_up_to.is_some_and(|most| aw_up <= most)
                || row.both.is_some_and(|(most_ph, most_aw)| ph <= most_ph && aw_up <= most_aw))
    })
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
