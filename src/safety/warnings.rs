//! Statements that a market's law puts on a label, in the words of the law.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::references::Key;
use crate::vocabulary::{Market, Scope, table, words};

words! {
    /// What a statement is asked of.
    WarnedOf, "what a label warns of":
    RawJuice = "raw juice",
    AlcoholForSale = "alcohol for sale",
    Liquorice = "liquorice",
    MuchLiquorice = "much liquorice",
    AzoColour = "azo colour",
    Aspartame = "aspartame",
    Polyols = "polyols",
    Caffeine = "caffeine",
    Quinine = "quinine",
    Honey = "honey",
    Grapefruit = "grapefruit",
    SevilleOrange = "Seville orange",
}

/// What a product holds that a label warns of, and what stands for `…` in the words.
#[derive(Clone, Debug)]
pub(crate) struct Holds {
    pub of: WarnedOf,
    pub said: String,
}

impl Holds {
    pub(crate) fn plain(of: WarnedOf) -> Self {
        Self { of, said: String::new() }
    }
}

/// One statement.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub(crate) struct LabelWarning {
    pub market: Scope,
    pub of: WarnedOf,
    /// From which strength on, % vol; blank: whatever its strength.
    pub from_abv: Option<f64>,
    /// Up to which strength, % vol; blank: whatever its strength.
    pub up_to_abv: Option<f64>,
    /// How tall its letters are at least, mm; blank: as those of the label.
    pub least_mm: Option<f64>,
    /// To be printed whole, in this order and these capitals.
    pub words: String,
    pub source: Key,
    pub status: String,
}

fn all() -> &'static [LabelWarning] {
    static ALL: LazyLock<Vec<LabelWarning>> =
        LazyLock::new(|| table::rows("warnings.csv", include_str!("data/warnings.csv")));
    &ALL
}

/// What is said of a thing, in the words of the first market that has any.
pub(crate) fn words_of(of: WarnedOf) -> Option<&'static str> {
    all().iter().find(|warning| warning.of == of).map(|warning| warning.words.as_str())
}

/// The statements for a product; `holds` is what is asked of what is in it. What nobody has said of its sale counts against it where
/// juice is raw.
pub(crate) fn warnings(
    markets: &[Market],
    raw_juice: bool,
    holds: &[Holds],
    abv_pct: f64,
    for_sale: Option<bool>,
) -> Vec<LabelWarning> {
    let asked = |warning: &&LabelWarning| {
        let applies = match warning.of {
            WarnedOf::RawJuice => raw_juice && for_sale != Some(false),
            WarnedOf::AlcoholForSale => for_sale == Some(true),
            of => holds.iter().any(|held| held.of == of),
        };
        applies
            && warning.market.holds_in_any(markets)
            && warning.from_abv.is_none_or(|least| abv_pct >= least)
            && warning.up_to_abv.is_none_or(|most| abv_pct <= most)
    };
    let said = |warning: &LabelWarning| {
        let of_it = holds.iter().find(|held| held.of == warning.of);
        let words = of_it.map_or_else(|| warning.words.clone(), |held| warning.words.replace('…', &held.said));
        LabelWarning { words, ..warning.clone() }
    };
    all().iter().filter(asked).map(said).collect()
}
