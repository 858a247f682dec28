//! Rules beyond the tables: what a place asks of somebody who makes, packs or sells, in our words.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::references::Key;
use crate::vocabulary::{Market, Scope};

/// To be printed wherever alcohol is made up for sale.
pub(crate) const SPIRITS_FOR_SALE: &str = "Infusing, fortifying, blending, batching or bottling spirits for sale is treated \
    differently from place to place, and tax or a licence may be due. Check with the licensing and excise authority \
    before selling.";

#[derive(Clone, Debug, Deserialize)]
pub(crate) struct LawRule {
    pub id: String,
    #[serde(rename = "source")]
    pub source_id: Key,
    pub market: Scope,
    /// When it applies, in words; empty where that is in its meaning.
    #[serde(default)]
    pub test: String,
    pub meaning: String,
    /// How far it was read.
    pub status: String,
}

fn all() -> &'static [LawRule] {
    #[derive(Deserialize)]
    struct File {
        rule: Vec<LawRule>,
    }
    static RULES: LazyLock<Vec<LawRule>> = LazyLock::new(|| {
        let read = toml::from_str::<File>(include_str!("data/rules.toml"));
        read.unwrap_or_else(|error| panic!("rules.toml: {error}")).rule
    });
    &RULES
}

/// The rules of these markets (none named: all).
pub(crate) fn rules(markets: &[Market]) -> Vec<&'static LawRule> {
    all().iter().filter(|rule| rule.market.holds_in_any(markets)).collect()
}
