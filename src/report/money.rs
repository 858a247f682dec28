//! Money as a report holds it: exact, printed and serialized as text, never as a float.

use rust_decimal::Decimal;
use serde::{Serialize, Serializer};

use crate::cost::Currency;

/// An amount of money: for programs to the coin, without its currency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Money {
    /// The amount, not rounded.
    pub(crate) amount: Decimal,
    pub(crate) currency: Currency,
}

impl Money {
    #[must_use]
    pub(crate) fn abs(self) -> Self {
        Self { amount: self.amount.abs(), ..self }
    }

    /// To the coin ("12.30").
    pub(crate) fn coins(self) -> String {
        self.currency.text(self.amount)
    }

    /// To the coin, with its code ("12.30 GBP").
    pub(crate) fn to_coin(self) -> String {
        format!("{} {}", self.coins(), self.currency.code())
    }

    /// With its code, and where less than a coin counts too as fine as that asks ("0.000912 GBP").
    pub(crate) fn fine(self) -> String {
        format!("{} {}", self.currency.fine_text(self.amount), self.currency.code())
    }
}

impl Serialize for Money {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.coins())
    }
}

impl Serialize for Currency {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.code())
    }
}

/// An amount that is not rounded to the coin: eight decimals at most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct ExactMoney(pub Money);

impl Serialize for ExactMoney {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        ShareOfMoney(self.0.amount).serialize(serializer)
    }
}

/// A share of one, as a decimal text of eight decimals at most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct ShareOfMoney(pub Decimal);

impl Serialize for ShareOfMoney {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0.round_dp(8).normalize())
    }
}
