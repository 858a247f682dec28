//! Rules beyond the tables: what a place asks of somebody who makes, packs or sells, in our words.

use std::sync::LazyLock;

use crate::input;

use super::market::{Market, or_all};

const FILE: &str = include_str!("data/rules.toml");

/// To be printed wherever alcohol is made up for sale.
pub const SPIRITS_FOR_SALE: &str = "Infusing, fortifying, blending, batching or bottling spirits for sale is treated \
    differently from place to place, and tax or a licence may be due. Check with the licensing and excise authority \
    before selling.";

/// One rule.
#[derive(Clone, Debug)]
pub struct LawRule {
    /// Its key.
    pub id: String,
    /// The key of its source.
    pub source_id: String,
    /// Where it holds ("EU,UK", "any").
    pub market: String,
    /// When it applies, in words; empty where that is in its meaning.
    pub test: String,
    /// What it asks.
    pub meaning: String,
    /// How far it was read.
    pub status: String,
}

static RULES: LazyLock<Vec<LawRule>> = LazyLock::new(|| {
    let mut found = Vec::new();
    let table = input::parse(FILE, &mut found);
    let rules = table.tables("rule", &mut found);
    rules
        .into_iter()
        .map(|rule| {
            let mut word = |key: &str| rule.value.text(key, &mut found).map_or("", |t| t.value).to_owned();
            LawRule {
                id: word("id"),
                source_id: word("source"),
                market: word("market"),
                test: word("test"),
                meaning: word("meaning"),
                status: word("status"),
            }
        })
        .collect()
});

/// The rules of these markets (none named: all).
pub fn rules(markets: &[Market]) -> Vec<&'static LawRule> {
    RULES.iter().filter(|rule| or_all(markets).iter().any(|m| m.is_in(&rule.market))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::references;

    #[test]
    fn every_rule_has_its_words_and_a_source() {
        assert_eq!(RULES.len(), FILE.matches("[[rule]]").count());
        for rule in RULES.iter() {
            assert!(references::find(&rule.source_id).is_some(), "{}", rule.id);
            assert!(!rule.id.is_empty() && !rule.meaning.is_empty() && !rule.market.is_empty(), "{rule:?}");
        }
        assert!(rules(&[Market::Uk]).iter().any(|r| r.id == "uk_ppds"));
        assert!(!rules(&[Market::Us]).iter().any(|r| r.id == "uk_ppds"));
    }
}
