//! Amounts as people write them: a number, a unit from one table, and the little words around them.

use std::ops::Range;

use crate::diagnostic::Code;

use super::{Mass, MassDensity, Temperature, Time, Volume};

/// Whether a ratio counts grams or millilitres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// By weight.
    Weight,
    /// By volume.
    Volume,
}

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
    /// `86 proof` (US: twice the percent by volume at 60 °F), in percent by volume at 20 °C
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

/// Why a text is not an amount.
#[derive(Clone, Debug, PartialEq)]
pub struct LiteralError {
    /// Its kind: not a number, no unit, unknown unit, ambiguous unit, out of range.
    pub code: Code,
    /// What was read and what was expected.
    pub title: String,
    /// The bytes of the text that are at fault.
    pub at: Range<usize>,
    /// What to write instead.
    pub help: Option<String>,
    /// The whole text as it should be, where that is clear.
    pub fix: Option<String>,
}
