//! The prices of a house as they are looked up for one batch: one currency, every tax said.

use std::sync::Arc;

use rust_decimal::Decimal;

use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::house::House;
use crate::input;
use crate::larder::Ingredient;
use crate::spelling::meant_or;

use super::asked::CostAsked;
use super::currency::{Currency, quantity};
use super::line::Charge;
use super::price::{Price, Tax, unreadable};
use super::usable::units_bought;

/// A price is pointed out when it is older than this, where the house says nothing (common practice, no source).
pub(crate) const STALE_AFTER_DAYS: u32 = 90;

#[derive(Clone, Debug)]
struct PricedAt {
    of: String,
    file: Option<Arc<str>>,
    span: Option<Span>,
}

pub(super) enum PriceFound {
    /// Nothing is paid for it.
    Free,
    /// This is paid, as it was written.
    At(Price, String),
    /// It is water, of which the house says nothing.
    Water,
    None(String),
}

pub(super) struct Book<'a> {
    pub house: &'a House,
    pub asked: &'a CostAsked,
    pub found: Vec<Diagnostic>,
    /// The currency of the house, or of the first price, and where that stands.
    currency: Option<(Currency, Option<PricedAt>)>,
    /// Prices of more than one currency: nothing can be added up.
    pub mixed: bool,
    tax: Tax,
    /// Whether a price was taken of which nobody says whether tax is in it.
    pub tax_unstated: bool,
}

impl<'a> Book<'a> {
    pub(crate) fn open(house: &'a House, asked: &'a CostAsked) -> Self {
        let mut book = Self {
            house,
            asked,
            found: Vec::new(),
            currency: None,
            mixed: false,
            tax: Tax::Unstated,
            tax_unstated: false,
        };
        if let Some(code) = &house.settings.currency {
            match Currency::find(code) {
                Some(currency) => book.currency = Some((currency, None)),
                None => {
                    let unknown = Diagnostic::error(
                        Code::UnknownCurrency,
                        format!("the house's currency `{code}` is not the code of a currency"),
                    );
                    let otherwise = "write the three letters of ISO 4217, for example currency = \"GBP\"";
                    book.found.push(unknown.help(meant_or(Currency::suggest(code), otherwise)));
                }
            }
        }
        if let Some(written) = &house.settings.costs.prices {
            match Tax::parse(&written.value) {
                Ok(tax) => book.tax = tax,
                Err(error) => book.report_of_house(error.at(written.span, "of the prices of this house")),
            }
        }
        book
    }

    pub(crate) fn currency(&self) -> Option<Currency> {
        self.currency.as_ref().map(|(currency, _)| *currency)
    }

    pub(crate) fn report_of_house(&mut self, diagnostic: Diagnostic) {
        let file = self.house.settings.costs.file.clone();
        self.found.push(Diagnostic { file, ..diagnostic });
    }

    /// A price of `[costs]`; `None` where it cannot be read (which is reported).
    pub(crate) fn rate(&mut self, of: &str, written: &Spanned<String>) -> Option<Price> {
        let file = self.house.settings.costs.file.clone();
        match Price::parse_by(&written.value, &self.house.customs()) {
            Ok(price) => {
                self.keep_currency(&price, PricedAt { of: of.to_owned(), file, span: Some(written.span) });
                Some(price)
            }
            Err(error) => {
                self.report_of_house(unreadable(error, of, Some(written.span)));
                None
            }
        }
    }

    /// The price of an ingredient: of the command, of the larder, or water.
    pub(crate) fn price_of(&mut self, ingredient: &Ingredient) -> PriceFound {
        if let Some((_, price, written)) = self.asked.prices.iter().find(|(id, ..)| *id == ingredient.id) {
            let place = PricedAt { of: ingredient.name.clone(), file: None, span: None };
            let (price, written) = (*price, written.clone());
            self.keep_currency(&price, place);
            return PriceFound::At(price, written);
        }
        let Some(written) = &ingredient.price else {
            if !ingredient.id.eq_ignore_ascii_case("water") {
                return PriceFound::None("no price in the larder".to_owned());
            }
            let Some(stated) = &self.house.settings.costs.water else { return PriceFound::Water };
            return match self.rate("water", stated) {
                Some(price) => PriceFound::At(price, stated.value.clone()),
                None => PriceFound::None("its price cannot be read".to_owned()),
            };
        };
        if written.trim().eq_ignore_ascii_case("free") {
            return PriceFound::Free;
        }
        let file = ingredient.origin.file().cloned();
        match Price::parse_by(written, &self.house.customs()) {
            Ok(price) => {
                self.stale(ingredient, file.clone());
                self.keep_currency(&price, PricedAt { of: ingredient.name.clone(), file, span: ingredient.price_at });
                PriceFound::At(price, written.clone())
            }
            Err(error) => {
                let wrong = unreadable(error, &format!("`{}`", ingredient.name), ingredient.price_at);
                self.found.push(Diagnostic { file, ..wrong });
                PriceFound::None("its price cannot be read".to_owned())
            }
        }
    }

    /// The first currency counts; another one is an error that shows both.
    fn keep_currency(&mut self, price: &Price, place: PricedAt) {
        let Some((first, first_place)) = &self.currency else {
            self.currency = Some((price.currency, Some(place)));
            return;
        };
        if *first == price.currency {
            return;
        }
        self.mixed = true;
        let whose = first_place.as_ref().map_or_else(
            || format!("the house counts in {}", first.code()),
            |p| format!("{} is priced in {}", p.of, first.code()),
        );
        let mut mixed = Diagnostic::error(
            Code::MixedCurrencies,
            format!("{} is priced in {}, and {whose}", place.of, price.currency.code()),
        );
        if let Some(span) = place.span {
            mixed = mixed.at(span, price.currency.code());
        }
        let beside = first_place.as_ref().filter(|p| p.file == place.file && place.span.is_some());
        if let Some(span) = beside.and_then(|p| p.span) {
            mixed = mixed.at(span, first.code());
        }
        mixed = mixed.help(format!(
            "rates change by the day and are not guessed at: write both in {}, at the rate that was paid",
            first.code()
        ));
        self.found.push(Diagnostic { file: place.file, ..mixed });
    }

    fn stale(&mut self, ingredient: &Ingredient, file: Option<Arc<str>>) {
        let Some(written) = &ingredient.priced_on else { return };
        let Some(day) = input::day(written) else {
            let wrong = Diagnostic::warning(
                Code::NotADate,
                format!("the price of {} is of `{written}`, which is not a day", ingredient.name),
            )
            .help("write the year first: priced_on = 2026-11-20");
            self.found.push(Diagnostic { file, ..wrong });
            return;
        };
        let Some(today) = self.asked.today else { return };
        let most = self.house.settings.costs.stale_after_days.unwrap_or(STALE_AFTER_DAYS);
        let age = today.signed_duration_since(day).num_days();
        if age > i64::from(most) {
            let mut stale = Diagnostic::warning(
                Code::StalePrice,
                format!("the price of {} is {age} days old, of {written}", ingredient.name),
            );
            if let Some(span) = ingredient.price_at {
                stale = stale.at(span, format!("older than {most} days"));
            }
            let help = "ask for it again, and put the new day under `priced_on`";
            self.found.push(Diagnostic { file, ..stale.help(help) });
        }
    }

    /// What so much of something costs: `units` are in the unit of the price.
    pub(crate) fn charge(&mut self, price: Price, units: Decimal) -> Option<Charge> {
        let price = price.or_tax(self.tax);
        self.tax_unstated |= price.tax == Tax::Unstated;
        let (net, tax_rate) = price.net()?;
        Some(Charge { net: net.checked_mul(units)?.checked_div(price.per.count())?, tax_rate })
    }

    /// What so many grams of an ingredient cost, bought with what is thrown away of it.
    pub(crate) fn charge_grams(&mut self, ingredient: &Ingredient, price: Price, grams: f64) -> Result<Charge, String> {
        let units = units_bought(ingredient, price.per, grams).map_err(|code| self.no_measure(ingredient, code))?;
        let units = quantity(units).ok_or("too much of it to count")?;
        self.charge(price, units).ok_or_else(|| "too much of it to count".to_owned())
    }

    /// A price that does not fit how the ingredient is measured: an error, and why there is no cost.
    fn no_measure(&mut self, ingredient: &Ingredient, code: Code) -> String {
        let (why, help) = match code {
            Code::DensityUnknown => (
                "priced by volume, and what a litre of it weighs as it lies is not known",
                "give it a `bulk` density (\"0.85 g/ml\") in the larder, or a price by weight",
            ),
            Code::PieceUnknown => (
                "priced by the piece, and what one weighs is not known",
                "give it a `piece` (\"67 g\") in the larder, or a price by weight",
            ),
            _ => ("its price is not for a weight, a volume or pieces", "write for example \"9.20 GBP / 1 kg\""),
        };
        let mut wrong = Diagnostic::error(code, format!("`{}`: {why}", ingredient.name));
        if let Some(span) = ingredient.price_at {
            wrong = wrong.at(span, "this price");
        }
        self.found.push(Diagnostic { file: ingredient.origin.file().cloned(), ..wrong.help(help) });
        why.to_owned()
    }
}
