//! The plants, additives and habits that can hurt, with the limit that somebody has set.

use std::sync::LazyLock;

use super::facts::Members;
use super::market::{Market, or_all};
use super::table;

const TABLE: &str = include_str!("data/hazards.csv");

/// One hazard in one market.
#[derive(Clone, Debug)]
pub struct Hazard {
    /// Its key.
    pub id: String,
    /// The tags of the ingredients that carry it.
    pub tags: Vec<String>,
    /// What it does.
    pub hazard: String,
    /// Where the rule holds ("EU,UK", "any").
    pub market: String,
    /// To what it applies.
    pub applies_to: String,
    /// The limit, where it is a number; 0 with a unit that says "added" means prohibited.
    pub limit: Option<f64>,
    /// The unit of the limit.
    pub unit: String,
    /// The rule in words.
    pub rule: String,
    /// The key of its source.
    pub source_id: String,
    /// How sure the figure is.
    pub status: String,
    /// What else there is to know.
    pub note: String,
}

static HAZARDS: LazyLock<Vec<Hazard>> = LazyLock::new(|| {
    table::rows(TABLE)
        .iter()
        .map(|row| {
            let text = |heading: &str| row.cell(heading).to_owned();
            Hazard {
                id: text("id"),
                tags: row.list("ingredient_tags").map(str::to_owned).collect(),
                hazard: text("hazard"),
                market: text("market"),
                applies_to: text("applies_to"),
                limit: row.number("limit_value"),
                unit: text("limit_unit"),
                rule: text("rule"),
                source_id: text("source_id"),
                status: text("status"),
                note: text("note"),
            }
        })
        .collect()
});

/// All of them.
pub fn all() -> &'static [Hazard] {
    &HAZARDS
}

/// The hazard with this key.
pub fn find(id: &str) -> Option<&'static Hazard> {
    all().iter().find(|h| h.id == id)
}

/// The hazards that a product's tags surely carry, by the rules of these markets (none named: all).
pub fn carried_by(tags: &Members, markets: &[Market]) -> Vec<&'static Hazard> {
    let here = |hazard: &Hazard| or_all(markets).iter().any(|m| m.is_in(&hazard.market));
    all().iter().filter(|h| here(h) && h.tags.iter().any(|t| tags.present.contains(t))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::references;

    #[test]
    fn every_line_is_a_hazard_with_a_source() {
        assert_eq!(all().len(), table::lines(TABLE));
        let keys: std::collections::HashSet<_> = all().iter().map(|h| &h.id).collect();
        assert_eq!(keys.len(), all().len());
        for hazard in all() {
            assert!(references::find(&hazard.source_id).is_some(), "{}: {}", hazard.id, hazard.source_id);
            assert!(!hazard.tags.is_empty() && !hazard.market.is_empty(), "{}", hazard.id);
        }
    }

    #[test]
    fn limits_are_those_of_the_market() {
        let tags = Members::known(["cinchona"]);
        let limit = |market| carried_by(&tags, &[market]).iter().filter_map(|h| h.limit).fold(f64::MAX, f64::min);
        assert_eq!((limit(Market::Us), limit(Market::Eu)), (83.0, 85.0));
        assert!(carried_by(&Members::none(), &[]).is_empty());
    }
}
