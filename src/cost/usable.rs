//! From grams that can be used to what is bought for them, and what a usable kilogram costs.

use rust_decimal::Decimal;

use crate::diagnostic::Code;
use crate::larder::Ingredient;
use crate::solver::resolve::as_it_lies;
use crate::units::{Customs, in_grams};

use super::currency::{Currency, quantity};
use super::price::{Price, PriceUnit};

/// How much is bought for so many usable grams, in the unit that a price is for.
pub(super) fn units_bought(ingredient: &Ingredient, per: PriceUnit, usable_grams: f64) -> Result<f64, Code> {
    let grams = usable_grams / ingredient.usable.unwrap_or(1.0);
    match per {
        PriceUnit::Grams(_) => Ok(grams),
        PriceUnit::Millilitres(_) => {
            Ok(grams / as_it_lies(ingredient).filter(|d| *d > 0.0).ok_or(Code::DensityUnknown)?)
        }
        PriceUnit::Pieces(_) => {
            let piece = ingredient.piece.map(in_grams).filter(|g| *g > 0.0);
            Ok(grams / piece.ok_or(Code::PieceUnknown)?)
        }
        PriceUnit::Hours(_) | PriceUnit::KilowattHours(_) | PriceUnit::PureAlcohol(_) => Err(Code::WrongDimension),
    }
}

/// What a kilogram of what can be used costs at a price, its tax as the price has it; `None` where all can be used.
pub(super) fn per_usable_kg(ingredient: &Ingredient, price: &Price) -> Option<Decimal> {
    ingredient.usable.filter(|share| *share < 1.0)?;
    let units = quantity(units_bought(ingredient, price.per, 1000.0).ok()?)?;
    price.amount.checked_mul(units)?.checked_div(price.per.count())
}

/// The same at the price of the larder, with its currency.
pub(crate) fn usable_kg_in_larder(ingredient: &Ingredient, customs: &Customs) -> Option<(Currency, Decimal)> {
    let price = Price::parse_by(ingredient.price.as_deref()?, customs).ok()?;
    Some((price.currency, per_usable_kg(ingredient, &price)?))
}

/// "13.50 GBP per usable kg".
pub(super) fn usable_kg_text(currency: Currency, cost: Decimal) -> String {
    format!("{} {} per usable kg", currency.text(cost), currency.code())
}
