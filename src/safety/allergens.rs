//! Which allergens a market's list asks to be declared.
//!
//! An allergen is written `milk`, or with its kind `tree_nuts (almond)`.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::references::Key;
use crate::vocabulary::table::{self, List};
use crate::vocabulary::{Allergen, Market, Open, Scope};

use super::facts::Fact;

/// One entry of a market's list.
#[derive(Clone, Debug, Deserialize, Serialize)]
pub struct AllergenEntry {
    /// Where it holds.
    pub market: Scope,
    /// What the list calls it.
    pub allergen: String,
    /// Under which names it is kept here.
    #[serde(skip_serializing)]
    matches: List<Allergen>,
    /// The kinds that the list names; empty: all.
    #[serde(skip_serializing)]
    only: List<Allergen>,
    /// Whether the list exempts what was distilled from it, and nothing else of it was put in: a nut distillate, never a
    /// nut syrup or an infusion.
    #[serde(deserialize_with = "yes")]
    pub distillate_exempt: bool,
    /// What the list adds.
    pub detail: String,
    /// The key of its source.
    #[serde(rename(serialize = "source"))]
    pub source_id: Key,
    /// How far that was read.
    pub status: String,
}

fn yes<'de, D: serde::Deserializer<'de>>(cell: D) -> Result<bool, D::Error> {
    match String::deserialize(cell)?.as_str() {
        "yes" => Ok(true),
        "" => Ok(false),
        other => Err(serde::de::Error::custom(format!("`{other}` is neither yes nor blank"))),
    }
}

fn entries() -> &'static [AllergenEntry] {
    static ENTRIES: LazyLock<Vec<AllergenEntry>> =
        LazyLock::new(|| table::rows("allergens.csv", include_str!("data/allergens.csv")));
    &ENTRIES
}

/// The list of a market.
pub fn list(market: Market) -> impl Iterator<Item = &'static AllergenEntry> {
    entries().iter().filter(move |entry| entry.market.holds_in(market))
}

impl AllergenEntry {
    /// Whether an allergen falls under this entry. One whose kind is not stated always may.
    pub fn covers(&self, allergen: &Open<Allergen>) -> bool {
        let Some(allergen) = allergen.known() else { return false };
        let (group, kind) = allergen.group().map_or((allergen, None), |group| (group, Some(allergen)));
        self.matches.contains(&group) && (self.only.is_empty() || kind.is_none_or(|kind| self.only.contains(&kind)))
    }
}

/// The entries of a market's list under which an allergen must be declared. Sulphites are asked by their amount, where
/// it is known: `sulphites_declared`.
pub fn declared(market: Market, allergen: &Open<Allergen>, so2_mg_kg: Fact<f64>) -> Vec<&'static AllergenEntry> {
    if let (true, Fact::Known(so2)) = (*allergen == Allergen::Sulphites, so2_mg_kg)
        && !sulphites_declared(market, so2)
    {
        return Vec::new();
    }
    list(market).filter(|entry| entry.covers(allergen)).collect()
}

/// From this much total sulphur dioxide, in mg/kg or mg/L, a label names it: Regulation (EU) No 1169/2011 Annex II
/// says ABOVE 10; 21 CFR 130.9, the Canadian B.01.010.1 and the Australian and New Zealand Standard 1.2.3 say 10 OR
/// MORE. An amount that is not a number counts as reached.
pub(crate) fn sulphites_declared(market: Market, so2_mg_kg: f64) -> bool {
    const LINE_MG_KG: f64 = 10.0;
    match market {
        _ if so2_mg_kg.is_nan() => true,
        Market::Eu | Market::Uk => so2_mg_kg > LINE_MG_KG,
        Market::Us | Market::Ca | Market::AuNz => so2_mg_kg >= LINE_MG_KG,
    }
}
