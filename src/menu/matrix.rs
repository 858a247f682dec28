//! Which allergen is in which drink: by the lists of the house's markets.

use serde::Serialize;

use crate::assessment::Assessment;
use crate::safety::allergens::list;
use crate::vocabulary::{Market, or_all};

/// How an allergen stands to a drink.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AllergenMark {
    /// It is in it.
    Contains,
    /// Of something in it nobody has stated what it brings: it may be in it.
    NotStated,
    /// Everything in it is stated, and none brings it.
    None,
}

/// The allergens of the lists of these markets (none named: of all), each once, in their order.
pub fn rows(markets: &[Market]) -> Vec<&'static str> {
    let mut rows: Vec<&'static str> = Vec::new();
    for entry in or_all(markets).iter().flat_map(|market| list(*market)) {
        if !rows.contains(&entry.allergen.as_str()) {
            rows.push(&entry.allergen);
        }
    }
    rows
}

/// How the allergen of a row stands to a judged drink. Whatever is open makes every allergen that is not named an open one: an
/// ingredient that states nothing may bring any.
pub fn mark(row: &str, judged: &Assessment) -> AllergenMark {
    let is_named = judged.lists.iter().flat_map(|lists| &lists.entries).any(|entry| entry.allergen == row);
    let is_open =
        !judged.allergens_open.is_empty() || !judged.allergens_doubted.is_empty() || !judged.unidentified.is_empty();
    match (is_named, is_open) {
        (true, _) => AllergenMark::Contains,
        (false, true) => AllergenMark::NotStated,
        (false, false) => AllergenMark::None,
    }
}
