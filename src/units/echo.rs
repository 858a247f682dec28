//! What was understood, said back to the maker.

use uom::si::time::second;

use super::amount::{Literal, Reading};
use super::display::{percent_text, short, temperature_text};
use super::measures::Basis;
use super::{Mass, MassDensity, Time, Volume, in_grams, in_grams_per_litre, in_millilitres};

/// The amount in grams, millilitres and degrees Celsius ("22.2 ml").
pub(crate) fn echo(literal: &Literal) -> String {
    match *literal {
        Literal::Mass(mass) => mass_of(mass),
        Literal::Volume(volume) => volume_of(volume),
        Literal::Pieces(n) => counted(n, "piece", "pieces"),
        Literal::Parts(n, None) => counted(n, "part", "parts"),
        Literal::Parts(n, Some(Basis::Weight)) => format!("{} by weight", counted(n, "part", "parts")),
        Literal::Parts(n, Some(Basis::Volume)) => format!("{} by volume", counted(n, "part", "parts")),
        Literal::Concentration(c) => concentration_of(c),
        Literal::VolumeShare(share) => format!("{} ml/L", short(1000.0 * share)),
        Literal::Percent(fraction) => percent_text(fraction),
        Literal::Abv(abv) => format!("{} % vol", short(abv)),
        Literal::Proof(proof) => format!("{} % vol at 60 °F", short(proof / 2.0)),
        Literal::Brix(brix) => format!("{} °Bx", short(brix)),
        Literal::Temperature(temperature) => temperature_text(temperature),
        Literal::Time(time) => time_of(time),
        Literal::Bottles(n, each) => format!("{} x {}", short(n), volume_of(each)),
        Literal::AsNeeded => "as needed".to_owned(),
        Literal::Number(n) => short(n),
    }
}

impl Reading {
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
        if let Some(definition) = measure.definition {
            said = format!("{said} ({definition})");
        }
        said
    }
}

fn mass_of(mass: Mass) -> String {
    format!("{} g", short(in_grams(mass)))
}

fn volume_of(volume: Volume) -> String {
    format!("{} ml", short(in_millilitres(volume)))
}

fn concentration_of(concentration: MassDensity) -> String {
    format!("{} g/L", short(in_grams_per_litre(concentration)))
}

fn counted(n: f64, one: &str, several: &str) -> String {
    format!("{} {}", short(n), if n == 1.0 { one } else { several })
}

/// In the largest unit that it fills.
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
