//! One line of a costing.

use rust_decimal::Decimal;

use super::currency::Currency;
use super::price::PriceUnit;

/// What a line is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum CostKind {
    /// An ingredient.
    #[default]
    Part,
    /// Work.
    Labour,
    /// Energy for heating.
    Heat,
    /// Bottles.
    Containers,
    /// Duty on alcohol.
    Duty,
}

impl CostKind {
    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Part => "part",
            Self::Labour => "labour",
            Self::Heat => "heat",
            Self::Containers => "containers",
            Self::Duty => "duty",
        }
    }

    /// What its line is called, what a rate of it is for, and how one is written.
    pub(super) fn rate(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::Part => ("part", "a weight, a volume or pieces", "9.20 GBP / 1 kg"),
            Self::Labour => ("labour", "an hour of work", "14.00 GBP / h"),
            Self::Heat => ("heat", "a kilowatt-hour", "0.28 GBP / kWh"),
            Self::Containers => ("bottles", "each bottle", "0.60 GBP / each"),
            Self::Duty => ("duty", "a litre of pure alcohol", "30.00 GBP / L pure alcohol"),
        }
    }

    pub(super) fn counts(self, per: PriceUnit) -> bool {
        match self {
            Self::Part => matches!(per, PriceUnit::Grams(_) | PriceUnit::Millilitres(_) | PriceUnit::Pieces(_)),
            Self::Labour => matches!(per, PriceUnit::Hours(_)),
            Self::Heat => matches!(per, PriceUnit::KilowattHours(_)),
            Self::Containers => matches!(per, PriceUnit::Pieces(_)),
            Self::Duty => matches!(per, PriceUnit::PureAlcohol(_)),
        }
    }
}

/// One line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CostLine {
    /// What it is for.
    pub kind: CostKind,
    /// What is paid for.
    pub of: String,
    /// Grams that go in, of an ingredient.
    pub grams: Option<f64>,
    /// What it costs before tax, to the smallest coin.
    pub cost: Option<Decimal>,
    /// The tax on it, to the smallest coin, where its rate is known.
    pub tax: Option<Decimal>,
    /// The price and the yield that it rests on, in words.
    pub basis: String,
    /// What a kilogram of what can be used of it costs at that price, not rounded, where not all can be used.
    pub per_usable_kg: Option<Decimal>,
    /// Why there is no cost.
    pub why_missing: Option<String>,
}

/// What something costs before tax, with the tax on it where the rate is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Charge {
    pub net: Decimal,
    pub tax_rate: Option<Decimal>,
}

pub(super) fn priced(
    kind: CostKind,
    of: impl Into<String>,
    currency: Currency,
    charge: Charge,
    basis: String,
) -> CostLine {
    let cost = currency.round(charge.net);
    let tax = charge.tax_rate.and_then(|rate| cost.checked_mul(rate)).map(|tax| currency.round(tax));
    CostLine { kind, of: of.into(), cost: Some(cost), tax, basis, ..CostLine::default() }
}

pub(super) fn missing(kind: CostKind, of: impl Into<String>, why: impl Into<String>) -> CostLine {
    CostLine { kind, of: of.into(), why_missing: Some(why.into()), ..CostLine::default() }
}
