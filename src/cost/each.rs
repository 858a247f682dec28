//! What a gram of each ingredient costs, for those who choose between them.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::house::House;
use crate::larder::Ingredient;

use super::asked::CostAsked;
use super::book::{Book, PriceFound};
use super::currency::Currency;

/// Prices by the gram.
#[derive(Clone, Debug, Default)]
pub struct PerGram {
    /// The currency of all of them; none where nothing has a price.
    pub currency: Option<Currency>,
    /// What a gram of each costs before tax, in the order asked; nothing where that is not known.
    pub each: Vec<Option<f64>>,
    /// What cannot be reckoned with, and why.
    pub missing: Vec<(String, String)>,
}

/// What a gram of each of these costs before tax, bought with what is thrown away of it. Prices of more than one currency
/// are none.
pub fn per_gram<'a>(ingredients: impl IntoIterator<Item = &'a Ingredient>, house: &House) -> PerGram {
    /// So that a price of a fraction of the smallest coin keeps its digits.
    const GRAMS: f64 = 1000.0;
    let asked = CostAsked::default();
    let mut book = Book::open(house, &asked);
    let mut all = PerGram::default();
    for ingredient in ingredients {
        let cost = match book.price_of(ingredient) {
            PriceFound::Free | PriceFound::Water => Ok(Decimal::ZERO),
            PriceFound::None(why) => Err(why),
            PriceFound::At(price, _) => book.charge_grams(ingredient, price, GRAMS).map(|charge| charge.net),
        };
        let cost = cost.and_then(|net| net.to_f64().ok_or_else(|| "its price cannot be counted".to_owned()));
        all.each.push(cost.as_ref().ok().map(|cost| cost / GRAMS));
        if let Err(why) = cost
            && !all.missing.iter().any(|(name, _)| *name == ingredient.name)
        {
            all.missing.push((ingredient.name.clone(), why));
        }
    }
    if book.mixed {
        all.missing.push(("one sum".to_owned(), "prices in more than one currency".to_owned()));
    }
    all.currency = book.currency();
    all
}
