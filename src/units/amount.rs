//! An amount: what it is, and the words by which it was understood.

use super::measures::{Basis, Measure};
use super::{Mass, MassDensity, Temperature, Time, Volume};

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Literal {
    /// `750 g`, `2 lb`, `1.5 oz wt`
    Mass(Mass),
    /// `700 ml`, `0.75 fl oz`, `1/2 US cup`, `2 dashes`
    Volume(Volume),
    /// `3 each`
    Pieces(f64),
    /// `2 parts by weight`; without a basis the reader of a card must ask
    Parts(f64, Option<Basis>),
    /// `6 g/L`: mass for each volume
    Concentration(MassDensity),
    /// `20 ml/L`: volume for each volume, as a fraction
    VolumeShare(f64),
    /// `43 %`, as a fraction; of what, the reader of the key knows
    Percent(f64),
    /// `43 % vol`, `43 % ABV`: percent by volume at 20 °C, so that a strength is never taken for a share
    Abv(f64),
    /// `86 proof`: the US proof as written; percent by volume at 60 °F is half of it
    Proof(f64),
    /// `64 °Bx`
    Brix(f64),
    /// `85 °C`, `185 °F`
    Temperature(Temperature),
    /// `5 min`, `7 days`
    Time(Time),
    /// `6 x 250 ml`
    Bottles(f64, Volume),
    /// `as needed`
    AsNeeded,
    /// `64`: a number alone
    Number(f64),
}

/// An amount as it was written, and how it was understood.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The text.
    pub text: String,
    /// What it is.
    pub literal: Literal,
    /// The number, as a fraction if it was written so, and the unit in its full name ("0.75 fl oz (US)").
    pub named: String,
    /// The unit, where there is one; of a ratio, the upper one.
    pub measure: Option<&'static Measure>,
}

impl Literal {
    /// What it is, for a message.
    pub(crate) fn kind(&self) -> &'static str {
        match self {
            Self::Mass(_) => "a mass",
            Self::Volume(_) => "a volume",
            Self::Pieces(_) => "a number of pieces",
            Self::Parts(..) => "a share of a ratio",
            Self::Concentration(_) => "a mass for each volume",
            Self::VolumeShare(_) => "a volume for each volume",
            Self::Percent(_) => "a percentage",
            Self::Abv(_) => "a strength",
            Self::Proof(_) => "a US proof",
            Self::Brix(_) => "a Brix",
            Self::Temperature(_) => "a temperature",
            Self::Time(_) => "a time",
            Self::Bottles(..) => "a number of bottles",
            Self::AsNeeded => "an amount to be solved for",
            Self::Number(_) => "a number without a unit",
        }
    }
}
