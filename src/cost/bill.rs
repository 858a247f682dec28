//! What a shopping list costs.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::Ingredient;

use super::asked::CostAsked;
use super::book::{Book, PriceFound};
use super::currency::Currency;

/// What is paid, before tax: each line to the smallest coin, the total their sum.
#[derive(Clone, Debug, PartialEq)]
pub struct Bill {
    /// The currency of every figure.
    pub currency: Currency,
    /// The lines in the order of the list; none where no price is known.
    pub lines: Vec<Option<Decimal>>,
    /// Their sum.
    pub total: Decimal,
    /// Whether every line has a cost.
    pub complete: bool,
}

/// The bill for so many usable grams of each ingredient. `None` where nothing can be added up.
pub(crate) fn bill(
    list: &[(&Ingredient, f64)],
    house: &House,
    today: Option<NaiveDate>,
) -> (Option<Bill>, Vec<Diagnostic>) {
    let asked = CostAsked { today, ..CostAsked::default() };
    let mut book = Book::open(house, &asked);
    let mut missing = Vec::new();
    let nets: Vec<Option<Decimal>> = list
        .iter()
        .map(|(ingredient, grams)| match book.price_of(ingredient) {
            PriceFound::Free | PriceFound::Water => Some(Decimal::ZERO),
            PriceFound::At(price, _) => book.charge_grams(ingredient, price, *grams).ok().map(|charge| charge.net),
            PriceFound::None(_) => {
                missing.push(ingredient.name.as_str());
                None
            }
        })
        .collect();
    if !missing.is_empty() {
        book.found.push(
            Diagnostic::warning(Code::NoPrice, format!("no price is known of: {}", missing.join(", ")))
                .help("give them a `price` in larder.toml: without it the order costs more than is said"),
        );
    }
    let Some(currency) = book.currency().filter(|_| !book.mixed) else { return (None, book.found) };
    let lines: Vec<_> = nets.into_iter().map(|net| net.map(|net| currency.round(net))).collect();
    let total = lines.iter().flatten().try_fold(Decimal::ZERO, |sum, line| sum.checked_add(*line));
    let complete = lines.iter().all(Option::is_some);
    (total.map(|total| Bill { currency, lines, total, complete }), book.found)
}
