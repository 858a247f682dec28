//! At what age something grew in the lots of a product, and of which lots that product is the most.

use std::collections::{HashMap, HashSet};

use super::event::Recorded;
use crate::assessment::most::MOST_OF_IT;
use crate::spelling::fold;

/// Of each lot, in the order of the book, the earliest age in days at which something grew in a lot of its product, or of a product that
/// makes up most of it.
pub(super) fn ages_of_growth<'b>(
    lots: &[(&'b Recorded, Option<i64>)],
    lot: impl Fn(&str) -> Option<&'b Recorded>,
) -> Vec<Option<i64>> {
    let mut ages: HashMap<String, i64> = HashMap::new();
    for (of, age) in lots.iter().filter_map(|(of, age)| Some((of, (*age)?))) {
        let least = ages.entry(fold(&of.product)).or_insert(age);
        *least = age.min(*least);
    }
    let of = |of: &'b Recorded| match ages.is_empty() {
        true => None,
        false => most_of(of, &lot).iter().filter_map(|product| ages.get(product)).min().copied(),
    };
    lots.iter().map(|(recorded, _)| of(recorded)).collect()
}

/// Its product and those of the house that make up most of it, folded: as far as the book knows the lots that went in, at any depth.
fn most_of<'b>(recorded: &'b Recorded, lot: impl Fn(&str) -> Option<&'b Recorded>) -> Vec<String> {
    let mut products = vec![fold(&recorded.product)];
    let mut seen: HashSet<&str> = HashSet::new();
    let mut open = vec![(recorded, 1.0)];
    while let Some((of, share)) = open.pop() {
        for part in of.parts.iter().filter(|part| part.dated) {
            let share = share * part.mass_g / of.mass_g;
            // a batch that was never weighed has no share
            if !(share.is_finite() && share >= MOST_OF_IT) {
                continue;
            }
            products.push(fold(&part.of));
            if let Some(inner) = part.from.lot().filter(|code| seen.insert(*code)).and_then(&lot) {
                products.push(fold(&inner.product));
                open.push((inner, share));
            }
        }
    }
    products
}
