//! The arithmetic of the trade, each rule once. Shares are fractions of one; `None` where a rule divides
//! by nothing.

use rust_decimal::Decimal;

/// What is usable of what is bought, as a fraction.
pub fn usable_share(usable: Decimal, bought: Decimal) -> Option<Decimal> {
    usable.checked_div(bought)
}

/// What a usable kilogram costs where a bought one costs `price`.
pub fn usable_price(price: Decimal, usable_share: Decimal) -> Option<Decimal> {
    price.checked_div(usable_share)
}

/// A price without the tax that is in it.
pub fn without_tax(price: Decimal, rate: Decimal) -> Option<Decimal> {
    price.checked_div(Decimal::ONE.checked_add(rate)?)
}

/// A price with tax on it.
pub fn with_tax(net: Decimal, rate: Decimal) -> Option<Decimal> {
    net.checked_mul(Decimal::ONE.checked_add(rate)?)
}

/// Gross profit: the share of the price before tax that stays after the cost.
pub fn gross_profit(net: Decimal, cost: Decimal) -> Option<Decimal> {
    net.checked_sub(cost)?.checked_div(net)
}

/// Pour cost: the share of the price before tax that the cost takes.
pub fn pour_cost(net: Decimal, cost: Decimal) -> Option<Decimal> {
    cost.checked_div(net)
}

/// Markup: what is added to the cost, as a share of the cost.
pub fn markup(net: Decimal, cost: Decimal) -> Option<Decimal> {
    net.checked_sub(cost)?.checked_div(cost)
}

/// The price before tax that leaves this gross profit.
pub fn price_for_gross_profit(cost: Decimal, gross_profit: Decimal) -> Option<Decimal> {
    cost.checked_div(Decimal::ONE.checked_sub(gross_profit)?).filter(|p| !p.is_sign_negative())
}

/// The price before tax that adds this markup.
pub fn price_for_markup(cost: Decimal, markup: Decimal) -> Option<Decimal> {
    cost.checked_mul(Decimal::ONE.checked_add(markup)?)
}

/// Litres of pure alcohol in a volume of this strength (% vol).
pub fn pure_alcohol_litres(litres: Decimal, abv_pct: Decimal) -> Option<Decimal> {
    litres.checked_mul(abv_pct)?.checked_div(Decimal::ONE_HUNDRED)
}

/// Duty: so much for each litre of pure alcohol. A rate for a hectolitre and a percent is the same number,
/// since a hectolitre of 1 % holds one litre.
pub fn duty(litres_of_alcohol: Decimal, rate: Decimal) -> Option<Decimal> {
    litres_of_alcohol.checked_mul(rate)
}

/// A price for one measure, and the three ways in which the trade speaks of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Selling {
    /// Before tax.
    pub net: Decimal,
    /// What the guest pays, where the tax is known.
    pub with_tax: Option<Decimal>,
    /// The share of the price before tax that stays.
    pub gross_profit: Decimal,
    /// The share of it that the cost takes.
    pub pour_cost: Decimal,
    /// What was added, as a share of the cost; `None` where the measure costs nothing.
    pub markup: Option<Decimal>,
}

/// What a price that the guest pays leaves, its tax taken out first.
pub fn sold_at(cost: Decimal, guest_pays: Decimal, tax: Option<Decimal>) -> Option<Selling> {
    let net = without_tax(guest_pays, tax.unwrap_or_default())?;
    Some(Selling {
        net,
        with_tax: tax.map(|_| guest_pays),
        gross_profit: gross_profit(net, cost)?,
        pour_cost: pour_cost(net, cost)?,
        markup: markup(net, cost),
    })
}

/// The price that leaves this gross profit, all of it said.
pub fn selling(cost: Decimal, target: Decimal, tax: Option<Decimal>) -> Option<Selling> {
    let net = price_for_gross_profit(cost, target)?;
    Some(Selling {
        net,
        with_tax: tax.and_then(|rate| with_tax(net, rate)),
        gross_profit: target,
        pour_cost: Decimal::ONE - target,
        markup: markup(net, cost),
    })
}
