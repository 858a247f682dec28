//! An amount: what it is, the words by which it was understood, and what is said back to the maker.

use uom::si::time::second;

use crate::vocabulary::Portion;

use super::display::{percent_text, short, temperature_text};
use super::measures::{Basis, Measure, Settled};
use super::{Mass, MassDensity, Temperature, Time, Volume, grams, in_grams, in_grams_per_litre, in_millilitres};

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
    /// `all`: of an earlier stage, what it gives
    All,
    /// `64`: a number alone
    Number(f64),
}

/// What is counted, in the words of the card.
#[derive(Clone, Debug, PartialEq)]
pub struct Counted {
    /// What is taken of each, where that is not all of it: its juice, zest or peel.
    pub taken: Option<Portion>,
    /// What is counted, folded, in the singular (`clove`; `cinnamon`, `stick`); nothing where the amount does not say.
    pub words: Vec<String>,
    /// The fewest and the most of them, where the amount gives no one number (`2-3 sprigs`, `a few sprigs`).
    pub between: Option<(f64, f64)>,
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
    /// Where the unit means more than one thing and the house says which.
    pub settled: Option<Settled>,
    /// What is counted, where that is said.
    pub counted: Option<Counted>,
}

impl Literal {
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
            Self::All => "all of it",
            Self::Number(_) => "a number without a unit",
        }
    }
}

/// The amount in grams, millilitres and degrees Celsius ("22.2 ml").
pub(crate) fn echo(literal: &Literal) -> String {
    match *literal {
        Literal::Mass(mass) => format!("{} g", short(in_grams(mass))),
        Literal::Volume(volume) => volume_of(volume),
        Literal::Pieces(n) => counted(n, "piece", "pieces"),
        Literal::Parts(n, None) => counted(n, "part", "parts"),
        Literal::Parts(n, Some(Basis::Weight)) => format!("{} by weight", counted(n, "part", "parts")),
        Literal::Parts(n, Some(Basis::Volume)) => format!("{} by volume", counted(n, "part", "parts")),
        Literal::Concentration(c) => format!("{} g/L", short(in_grams_per_litre(c))),
        Literal::VolumeShare(share) => format!("{} ml/L", short(1000.0 * share)),
        Literal::Percent(fraction) => percent_text(fraction),
        Literal::Abv(abv) => format!("{} % vol", short(abv)),
        Literal::Proof(proof) => format!("{} % vol at 60 °F", short(proof / 2.0)),
        Literal::Brix(brix) => format!("{} °Bx", short(brix)),
        Literal::Temperature(temperature) => temperature_text(temperature),
        Literal::Time(time) => time_of(time),
        Literal::Bottles(n, each) => format!("{} x {}", short(n), volume_of(each)),
        Literal::AsNeeded => "as needed".to_owned(),
        Literal::All => "all of it".to_owned(),
        Literal::Number(n) => short(n),
    }
}

impl Reading {
    /// What has no unit.
    pub(crate) fn without_unit(text: &str, literal: Literal, named: impl Into<String>) -> Self {
        Self { text: text.to_owned(), literal, named: named.into(), measure: None, settled: None, counted: None }
    }

    /// What it is where the thing is weighed and not poured: an ounce of sugar is one by weight.
    pub(crate) fn of_solid(&self) -> Option<Mass> {
        let (settled, Literal::Volume(volume)) = (self.settled?, self.literal) else { return None };
        let count = in_millilitres(volume) / settled.measure.factor;
        settled.of_solid.map(|of| grams(count * of.factor))
    }

    /// The amount as written, what it is, and by which definition:
    /// "0.75 fl oz (US) = 22.2 ml", "1 dash = 0.9 ml, common practice".
    pub fn echo(&self) -> String {
        let meant = echo(&self.literal);
        // Where the unit is the same there is nothing to convert, and the number stays as exact as it was written.
        let unit = |said: &str| said.replace(|c: char| c.is_ascii_digit() || matches!(c, '.' | ','), "");
        let same = unit(&meant) == unit(&self.named);
        let mut said = if same { self.named.clone() } else { format!("{} = {meant}", self.named) };
        let Some(measure) = self.measure else { return said };
        if measure.is_common_practice() {
            said += ", common practice";
        }
        if let Some(definition) = &measure.definition {
            said = format!("{said} ({definition})");
        }
        said
    }
}

fn volume_of(volume: Volume) -> String {
    format!("{} ml", short(in_millilitres(volume)))
}

fn counted(n: f64, one: &str, several: &str) -> String {
    format!("{} {}", short(n), if n == 1.0 { one } else { several })
}

fn time_of(time: Time) -> String {
    const MINUTE_S: f64 = 60.0;
    const HOUR_S: f64 = 3600.0;
    const DAY_S: f64 = 86_400.0;
    match time.get::<second>() {
        s if s >= DAY_S => counted(s / DAY_S, "day", "days"),
        s if s >= HOUR_S => format!("{} h", short(s / HOUR_S)),
        s if s >= MINUTE_S => format!("{} min", short(s / MINUTE_S)),
        s => format!("{} s", short(s)),
    }
}
