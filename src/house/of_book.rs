//! What the book of lots says of the products of a house, as whoever dates, pours or labels one of them needs it.

use std::collections::BTreeMap;

use chrono::NaiveDate;

use crate::spelling::fold;
use crate::vocabulary::{Allergen, Open};

/// What a lot brings to a guest, by its own sheet: the card of its product may have changed since.
#[derive(Clone, Debug, PartialEq)]
pub struct LotBrings {
    /// Its code.
    pub lot: String,
    /// Its allergens.
    pub allergens: Vec<Open<Allergen>>,
    /// Of what in it nobody has stated any.
    pub not_stated: Vec<String>,
}

/// What the book says of each product, by its folded name.
#[derive(Clone, Debug, Default)]
pub struct OfBook {
    /// The earliest age in days at which something grew in a lot: that counts for whoever dates a card of the house.
    grew: BTreeMap<String, f64>,
    /// The lot that ends soonest, where it ends soon.
    ending: BTreeMap<String, (String, NaiveDate)>,
    /// The lots that may be poured.
    standing: BTreeMap<String, Vec<LotBrings>>,
}

impl OfBook {
    /// Takes down at what age in days something grew in a lot of a product; the earliest counts.
    pub fn saw_growth(&mut self, product: &str, days: f64) {
        let least = self.grew.entry(fold(product)).or_insert(days);
        *least = least.min(days);
    }

    /// The earliest age in days at which something grew in a lot of a product, if any did.
    pub fn grew_days(&self, product: &str) -> Option<f64> {
        self.grew.get(&fold(product)).copied()
    }

    /// Whether something grew in any of its lots.
    pub(crate) fn saw_any_growth(&self) -> bool {
        !self.grew.is_empty()
    }

    /// Takes down which lot of a product is thrown away soon if it is not used, and its last day; the first of them counts.
    pub fn saw_ending(&mut self, product: &str, lot: &str, last: NaiveDate) {
        let first = self.ending.entry(fold(product)).or_insert_with(|| (lot.to_owned(), last));
        if last < first.1 {
            *first = (lot.to_owned(), last);
        }
    }

    /// The lot of a product that ends soonest, and its last day, where that is soon.
    pub fn ending(&self, product: &str) -> Option<(&str, NaiveDate)> {
        self.ending.get(&fold(product)).map(|(lot, last)| (lot.as_str(), *last))
    }

    /// Takes down a lot of a product that may be poured, with what it brings.
    pub fn saw_standing(&mut self, product: &str, lot: LotBrings) {
        self.standing.entry(fold(product)).or_default().push(lot);
    }

    /// The lots of a product that may be poured.
    pub fn standing(&self, product: &str) -> &[LotBrings] {
        self.standing.get(&fold(product)).map_or(&[], Vec::as_slice)
    }
}
