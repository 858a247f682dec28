//! The prices that a house states, read without a batch: what is wrong with them is found before one is costed.

use crate::diagnostic::Diagnostic;
use crate::house::House;

use super::asked::CostAsked;
use super::book::Book;

/// What is wrong with the prices of `[costs]` and of the house's own larder.
pub(crate) fn faults_of_prices(house: &House) -> Vec<Diagnostic> {
    let asked = CostAsked::default();
    let mut book = Book::open(house, &asked);
    let costs = &house.settings.costs;
    let rates = [
        ("labour", &costs.labour),
        ("energy", &costs.energy),
        ("water", &costs.water),
        ("a bottle", &costs.bottle),
        ("duty", &costs.duty),
    ];
    for (of, rate) in rates {
        if let Some(written) = rate {
            book.rate(of, written);
        }
    }
    for ingredient in house.larder.of_house() {
        book.price_of(ingredient);
    }
    book.found
}
