//! Which allergen is in which drink: by the lists of the house's markets.

use serde::Serialize;

use crate::assessment::{AllergenLists, Assessment};
use crate::diagnostic::once::without_repeats;
use crate::safety::allergens::list;
use crate::vocabulary::{Allergen, Market, Open, Word, or_all};

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
    without_repeats(or_all(markets).iter().flat_map(|market| list(*market)).map(|entry| entry.allergen.as_str()))
}

/// Whether all that one row speaks of is spoken of by another, kind by kind, and no market's list has both: "wheat" of the US list is
/// in "wheat and triticale" of the Canadian one, and not in "gluten cereals".
pub(crate) fn is_within(narrow: &str, wide: &str, markets: &[Market]) -> bool {
    let on_list = |name: &str, market: &Market| list(*market).find(|entry| entry.allergen == name);
    let covered = |name: &str| -> Vec<Allergen> {
        let entries: Vec<_> = or_all(markets).iter().filter_map(|market| on_list(name, market)).collect();
        let of = Allergen::ALL.iter().copied();
        of.filter(|of| entries.iter().any(|entry| entry.covers(&Open::Known(*of)))).collect()
    };
    let (of_narrow, of_wide) = (covered(narrow), covered(wide));
    let on_both =
        or_all(markets).iter().any(|market| on_list(narrow, market).is_some() && on_list(wide, market).is_some());
    let group = |of: &Allergen| of.group().unwrap_or(*of);
    // more kinds of the same would be another row
    let same_kinds =
        of_wide.iter().all(|of| of_narrow.contains(of) || !of_narrow.iter().any(|n| group(n) == group(of)));
    !on_both && same_kinds && of_narrow.iter().all(|of| of_wide.contains(of))
}

/// How the allergen of a row stands to a judged drink. What states nothing makes every allergen that is not named an open one, for it
/// may bring any; a doubt that names its allergen makes that one open, and no other.
pub fn mark(row: &str, judged: &Assessment) -> AllergenMark {
    let stands_on =
        |lists: &[AllergenLists]| lists.iter().flat_map(|of| &of.entries).any(|entry| entry.allergen == row);
    let is_named = stands_on(&judged.lists);
    // a doubt in words that no list has may be about any of them
    let doubts_any = judged.doubted_lists.iter().any(|doubted| doubted.allergen.known().is_none());
    let is_open = !judged.allergens_open.is_empty() || doubts_any || stands_on(&judged.doubted_lists);
    match (is_named, is_open) {
        (true, _) => AllergenMark::Contains,
        (false, true) => AllergenMark::NotStated,
        (false, false) => AllergenMark::None,
    }
}
