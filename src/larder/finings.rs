//! What the maker of a wine, a cider or a beer may have cleared or brewed it with: the rows of `finings.csv`.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::references::Key;
use crate::vocabulary::{Allergen, Kind, Market, Scope, table};

use super::Ingredient;

/// One allergen that a drink of a kind may hold by the work of its maker.
#[derive(Deserialize)]
struct Fining {
    kind: Kind,
    allergen: Allergen,
    /// Where the list asks for it after such a use.
    market: Scope,
    /// What it comes as.
    #[serde(rename = "as")]
    _used_as: String,
    #[serde(rename = "source")]
    _source: Key,
    #[serde(rename = "status")]
    _status: String,
}

static FININGS: LazyLock<Vec<Fining>> = LazyLock::new(|| table::rows("finings.csv", include_str!("data/finings.csv")));

/// Whether what is of this kind may hold any.
pub(super) fn are_of(kind: Kind) -> bool {
    FININGS.iter().any(|fining| fining.kind == kind)
}

impl Ingredient {
    /// The allergens that the maker of it may have cleared or brewed it with, by the lists of these markets (none named: of all); none
    /// where its label was read.
    pub fn fined_with(&self, markets: &[Market]) -> impl Iterator<Item = Allergen> {
        let of_kind = FININGS.iter().filter(|fining| self.label_unread == Some(fining.kind));
        of_kind.filter(move |fining| fining.market.holds_in_any(markets)).map(|fining| fining.allergen)
    }
}
