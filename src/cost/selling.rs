//! A price for a measure and what it leaves: gross profit, pour cost, markup. Shares are fractions of one.
//!
//! The trade counts all three by what was poured: the ingredients. The work in a measure is told beside them.

use rust_decimal::Decimal;
use serde::Serialize;

use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;

use super::costing::{Costing, withheld};
use super::currency::{Currency, quantity};

/// A price for one measure, and the three ways in which the trade speaks of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Selling {
    /// Before tax.
    pub net: Decimal,
    /// What the guest pays, where the tax is known.
    pub with_tax: Option<Decimal>,
    /// The share of the price before tax that stays after the ingredients.
    pub gross_profit: Decimal,
    /// The share of it that the ingredients take.
    pub pour_cost: Decimal,
    /// What was added, as a share of what they cost; `None` where the measure costs nothing.
    pub markup: Option<Decimal>,
}

impl Selling {
    fn new(cost: Decimal, net: Decimal, with_tax: Option<Decimal>) -> Option<Self> {
        let stays = net.checked_sub(cost)?;
        Some(Self {
            net,
            with_tax,
            gross_profit: stays.checked_div(net)?,
            pour_cost: cost.checked_div(net)?,
            markup: stays.checked_div(cost),
        })
    }

    /// What a price that the guest pays leaves, its tax taken out first. `None` where nothing is paid.
    pub fn at_price(cost: Decimal, guest_pays: Decimal, tax: Option<Decimal>) -> Option<Self> {
        let net = guest_pays.checked_div(Decimal::ONE.checked_add(tax.unwrap_or_default())?)?;
        Self::new(cost, net, tax.map(|_| guest_pays))
    }

    /// The price that leaves this gross profit. `None` where none does.
    pub fn for_gross_profit(cost: Decimal, target: Decimal, tax: Option<Decimal>) -> Option<Self> {
        let net = cost.checked_div(Decimal::ONE.checked_sub(target)?).filter(|p| !p.is_sign_negative())?;
        let with_tax = tax.and_then(|rate| net.checked_mul(Decimal::ONE.checked_add(rate)?));
        let exact = Self { gross_profit: target, pour_cost: Decimal::ONE - target, ..Self::new(cost, net, with_tax)? };
        Some(exact)
    }
}

/// A measure that is sold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SoldMeasure {
    /// Its millilitres.
    pub ml: f64,
    /// What it costs, not rounded.
    pub cost: Decimal,
    /// What its ingredients cost of that.
    pub ingredients: Decimal,
    /// Its price.
    pub selling: Selling,
}

/// What is asked about selling.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SellAsked {
    /// The measure, millilitres; the serving of the card if none is given.
    pub ml: Option<f64>,
    /// What the guest pays for it, tax in it.
    pub at: Option<(Decimal, Currency)>,
    /// Whether that stands on the menu.
    pub by_menu: bool,
}

/// What sets the price of a glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PricedBy {
    /// It was asked about.
    Asked,
    /// The menu.
    Menu,
    /// What the house means to earn.
    Margin,
}

impl SellAsked {
    /// What the price that was asked about is.
    pub(crate) fn priced_by(&self) -> PricedBy {
        match self.at {
            None => PricedBy::Margin,
            Some(_) if self.by_menu => PricedBy::Menu,
            Some(_) => PricedBy::Asked,
        }
    }
}

/// The price of a measure: what one leaves, or the one that leaves what the house means to earn.
pub fn sell(costing: &Costing, house: &House, asked: SellAsked, found: &mut Vec<Diagnostic>) -> Option<SoldMeasure> {
    let costs = &house.settings.costs;
    let target = costs.gross_profit.or(costs.pour_cost.map(|pour| 1.0 - pour));
    let ml = asked.ml.or(costing.serving.as_ref().map(|m| m.ml))?;
    let (cost, poured) = (costing.of_ml(ml)?, costing.ingredients_of_ml(ml)?);
    if !costing.complete {
        let wanted = asked.at.is_some() || target.is_some() || asked.ml.is_some();
        found.extend(wanted.then(|| withheld("what to sell it for")));
        return None;
    }
    let tax = costs.sales_tax.and_then(quantity);
    let selling = match (asked.at, target) {
        (Some((_, currency)), _) if currency != costing.currency => {
            let title = format!("the selling price is in {}, the cost in {}", currency.code(), costing.currency.code());
            Diagnostic::error(Code::MixedCurrencies, title).help("write both in one currency").refused(found)
        }
        (Some((guest_pays, _)), _) => Selling::at_price(poured, guest_pays, tax),
        (None, Some(target)) => Selling::for_gross_profit(poured, quantity(target)?, tax),
        (None, None) => {
            if asked.ml.is_some() {
                let title = "nothing says what the house means to earn on a measure";
                let help = "under [costs] in house.toml: gross_profit = \"80 %\"; or here: --sell-at \"8.50 GBP\"";
                found.push(Diagnostic::error(Code::MissingKey, title).help(help));
            }
            None
        }
    };
    Some(SoldMeasure { ml, cost, ingredients: poured, selling: selling? })
}
