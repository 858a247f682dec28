//! What a strength is worth against growth, and what that reading stands on.

use std::sync::LazyLock;

use crate::units::Abv;

use super::table;

const TABLE: &str = include_str!("data/ethanol-limits.csv");

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
    pub source_ids: &'static [&'static str],
}

/// The bands: our reading of single-factor broth values (see [`tolerances`]). Sugar and acid lower these limits. No
/// official food rule was found that names a strength that keeps a drink. Spores survive every strength: diluting
/// starts the clock again.
pub const BANDS: [Band; 5] = [
    Band {
        from_abv: 0.0,
        below_abv: 7.5,
        reading: "no credit for alcohol",
        basis: "proteolytic C. botulinum still grew at 5.0 % vol and stopped at 7.5",
        source_ids: &["DAIFAS03"],
    },
    Band {
        from_abv: 7.5,
        below_abv: 12.5,
        reading: "some credit, still perishable",
        basis: "E. coli stopped at 9.4 and S. aureus at 12.4 % vol",
        source_ids: &["HUANG01"],
    },
    Band {
        from_abv: 12.5,
        below_abv: 15.0,
        reading: "common pathogens not growing, spoilage likely",
        basis: "lactic bacteria up to 9 to 16 %",
        source_ids: &["YAMAMOTO84", "GOLD92"],
    },
    Band {
        from_abv: 15.0,
        below_abv: 20.0,
        reading: "long life likely, spoilage possible",
        basis: "Lactobacillus 16 to 20, Z. bailii 18, adapted Bacillus and Pediococcus 20 % vol",
        source_ids: &["GOLD92", "HILGARDII", "ZYGO", "GINI62"],
    },
    Band {
        from_abv: 20.0,
        below_abv: f64::INFINITY,
        reading: "no reported growth here",
        basis: "ISO 29621 uses 20 % for cosmetics (from memory)",
        source_ids: &["ISO29621"],
    },
];

/// The band of a strength.
pub fn band(abv: Abv) -> &'static Band {
    let [first, rest @ ..] = &BANDS;
    rest.iter().rev().find(|b| abv.get() >= b.from_abv).unwrap_or(first)
}

/// How much ethanol an organism was reported to bear, or to be stopped by.
#[derive(Clone, Debug)]
pub struct Tolerance {
    /// The organism.
    pub organism: String,
    /// What was seen.
    pub effect: String,
    /// At about which strength, in percent vol, where the source's unit is known.
    pub abv_pct_vol: Option<f64>,
    /// The key of its source.
    pub source_id: String,
    /// How far that was read.
    pub status: String,
}

static TOLERANCES: LazyLock<Vec<Tolerance>> = LazyLock::new(|| {
    table::rows(TABLE)
        .iter()
        .map(|row| Tolerance {
            organism: row.cell("organism").to_owned(),
            effect: row.cell("effect").to_owned(),
            abv_pct_vol: row.number("approx_abv_pct_vol"),
            source_id: row.cell("source_id").to_owned(),
            status: row.cell("status").to_owned(),
        })
        .collect()
});

/// The reports that the bands stand on.
pub fn tolerances() -> &'static [Tolerance] {
    &TOLERANCES
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::references;

    #[test]
    fn bands_meet_and_their_sources_are_known() {
        assert_eq!(TOLERANCES.len(), table::lines(TABLE));
        assert!(BANDS.windows(2).all(|pair| pair[0].below_abv == pair[1].from_abv));
        assert!(BANDS.iter().flat_map(|b| b.source_ids).all(|id| references::find(id).is_some()));
        assert!(TOLERANCES.iter().all(|t| references::find(&t.source_id).is_some()));
    }
}
