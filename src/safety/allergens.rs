//! Which allergens a market's list asks to be declared.
//!
//! An allergen is written `milk`, or with its kind `tree_nuts (almond)`, as [`super::names`] reads them.

use std::sync::LazyLock;

use super::facts::Members;
use super::market::Market;
use super::table;

const TABLE: &str = include_str!("data/allergens.csv");

/// One entry of a market's list.
#[derive(Clone, Debug)]
pub struct AllergenEntry {
    /// Where it holds ("EU,UK").
    pub market: String,
    /// What the list calls it.
    pub allergen: String,
    /// Under which names it is kept here.
    matches: Vec<String>,
    /// The kinds that the list names; empty: all.
    only: Vec<String>,
    /// Whether the list exempts what was distilled.
    pub distillate_exempt: bool,
    /// What the list adds.
    pub detail: String,
    /// The key of its source.
    pub source_id: String,
    /// How far that was read.
    pub status: String,
}

/// An allergen that must be declared.
#[derive(Clone, Debug)]
pub struct Declared {
    /// The allergen as it is kept here ("tree_nuts (almond)").
    pub allergen: String,
    /// The entry of the list that it falls under.
    pub entry: &'static AllergenEntry,
}

static ENTRIES: LazyLock<Vec<AllergenEntry>> = LazyLock::new(|| {
    table::rows(TABLE)
        .iter()
        .map(|row| AllergenEntry {
            market: row.cell("market").to_owned(),
            allergen: row.cell("allergen").to_owned(),
            matches: row.list("matches").map(str::to_owned).collect(),
            only: row.list("only").map(str::to_owned).collect(),
            distillate_exempt: row.cell("distillate_exempt") == "yes",
            detail: row.cell("detail").to_owned(),
            source_id: row.cell("source_id").to_owned(),
            status: row.cell("status").to_owned(),
        })
        .collect()
});

/// The list of a market.
pub fn list(market: Market) -> impl Iterator<Item = &'static AllergenEntry> {
    ENTRIES.iter().filter(move |entry| market.is_in(&entry.market))
}

/// How an allergen came into the drink.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Carrier {
    /// Steeped, blended, boiled, strained: in any way but distilled.
    Itself,
    /// Only in a distillate ("nut distillate").
    Distillate,
}

impl AllergenEntry {
    /// Whether an allergen falls under this entry. One whose kind is not stated always may.
    pub fn covers(&self, allergen: &str) -> bool {
        let (name, kind) = match allergen.split_once(" (") {
            Some((name, kind)) => (name, Some(kind.trim_end_matches(')'))),
            None => (allergen, None),
        };
        self.matches.iter().any(|m| m == name)
            && (self.only.is_empty() || kind.is_none_or(|kind| self.only.iter().any(|o| o == kind)))
    }
}

/// What a market's list asks to be declared of these allergens. A nut distillate is exempt where the list says so, a
/// nut syrup or an infusion never is. Sulphites are asked by their amount: [`sulphites_declared`].
pub fn declare(market: Market, allergens: &Members, carrier: Carrier) -> Vec<Declared> {
    let known = allergens.present.iter().chain(allergens.unsure.difference(&allergens.present));
    known
        .flat_map(|allergen| {
            list(market)
                .filter(|entry| entry.covers(allergen))
                .filter(|entry| carrier == Carrier::Itself || !entry.distillate_exempt)
                .map(|entry| Declared { allergen: allergen.clone(), entry })
        })
        .collect()
}

/// From this much total sulphur dioxide, in mg/kg or mg/L, a label names it: Regulation (EU) No 1169/2011 Annex II
/// says ABOVE 10; 21 CFR 130.9, the Canadian B.01.010.1 and the Australian and New Zealand Standard 1.2.3 say 10 OR
/// MORE. An amount that is not a number counts as reached.
pub fn sulphites_declared(market: Market, so2_mg_kg: f64) -> bool {
    const LINE_MG_KG: f64 = 10.0;
    match market {
        _ if so2_mg_kg.is_nan() => true,
        Market::Eu | Market::Uk => so2_mg_kg > LINE_MG_KG,
        Market::Us | Market::Ca | Market::AuNz => so2_mg_kg >= LINE_MG_KG,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::references;

    #[test]
    fn every_line_is_an_entry_with_a_source() {
        assert_eq!(ENTRIES.len(), table::lines(TABLE));
        assert!(ENTRIES.iter().all(|e| references::find(&e.source_id).is_some() && !e.matches.is_empty()));
        assert_eq!(list(Market::Eu).count(), 14);
    }

    fn declared(market: Market, allergen: &str, carrier: Carrier) -> bool {
        !declare(market, &Members::known([allergen]), carrier).is_empty()
    }

    #[test]
    fn a_nut_infusion_is_never_exempt() {
        for market in Market::ALL {
            assert!(declared(market, "tree_nuts (almond)", Carrier::Itself), "{market:?}");
        }
        assert!(!declared(Market::Eu, "tree_nuts (almond)", Carrier::Distillate));
        assert!(declared(Market::Us, "tree_nuts (almond)", Carrier::Distillate));
    }

    #[test]
    fn markets_differ_in_what_they_list() {
        assert!(declared(Market::Us, "tree_nuts (coconut)", Carrier::Itself));
        assert!(!declared(Market::Eu, "tree_nuts (coconut)", Carrier::Itself));
        assert!(declared(Market::Ca, "tree_nuts (pine nut)", Carrier::Itself));
        assert!(declared(Market::Eu, "tree_nuts", Carrier::Itself), "a kind that is not stated always counts");
        assert!(declared(Market::Eu, "celery", Carrier::Itself) && !declared(Market::Us, "celery", Carrier::Itself));
        assert!(declared(Market::Us, "gluten_cereals (wheat)", Carrier::Itself));
        assert!(!declared(Market::Us, "gluten_cereals (barley)", Carrier::Itself));
        assert!(declared(Market::Ca, "molluscs", Carrier::Itself));
    }

    #[test]
    fn the_sulphite_line_is_drawn_on_two_sides() {
        assert!(!sulphites_declared(Market::Eu, 10.0) && sulphites_declared(Market::Eu, 10.01));
        assert!(sulphites_declared(Market::Us, 10.0) && !sulphites_declared(Market::AuNz, 9.99));
        assert!(sulphites_declared(Market::Eu, f64::NAN));
    }
}
