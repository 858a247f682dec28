//! How hot a clause says that something is: "80 °C", "80 Grad", "160 degrees", "60°".

use uom::si::thermodynamic_temperature::degree_celsius;

use crate::units::Literal;
use crate::units::told::{Clause, first_told};
use crate::vocabulary::MeasureSystem;

use super::names::Names;
use super::words::WordList;

/// Above this nothing with water in it is so hot in °C (ours: a syrup of 75 °Bx boils at 105).
const HOTTEST_C: f64 = 110.0;

/// What a clause tells of how hot it is.
pub(super) enum Degrees {
    /// As a card has it, what that is in °C, and what was taken for granted.
    Told { written: String, celsius: f64, assumed: Option<String> },
    /// A number of degrees: whose they are nobody has said.
    Open(String),
}

impl Degrees {
    /// Where a kitchen in °C is meant, or one in °F: no more than this.
    pub(super) fn celsius(&self) -> Option<f64> {
        match self {
            Self::Told { celsius, .. } => Some(*celsius),
            Self::Open(number) => number.parse().ok(),
        }
    }
}

/// The first that it tells; those of a spirit are none of heat.
pub(super) fn degrees(clause: &Clause<'_>, names: Names<'_>) -> Option<Degrees> {
    let is_heat = |literal| if let Literal::Temperature(to) = literal { Some(to) } else { None };
    if let Some((written, at)) = first_told(&clause.words, is_heat) {
        return Some(Degrees::Told { written, celsius: at.get::<degree_celsius>(), assumed: None });
    }
    clause.words.iter().enumerate().find_map(|(at, word)| {
        let number = word.trim_matches(['(', ')']).trim_end_matches('°').replace(',', ".");
        let value = number.parse::<f64>().ok().filter(|value| value.is_finite())?;
        let behind = |n: usize| clause.words.get(at + n).copied().unwrap_or_default();
        // "alcol a 95 gradi" is strong, and not hot
        let is_of_spirit =
            at.checked_sub(2).and_then(|at| clause.words.get(at)).is_some_and(|of| WordList::Strong.has(of));
        let is_sign = word.contains('°');
        if is_sign && clause.words.iter().any(|word| WordList::Strong.has(word)) {
            return None;
        }
        let said = if is_sign { format!("{number}°") } else { format!("{number} {}", behind(1)) };
        let told = |unit: &str, celsius: f64| {
            let assumed = Some(format!("{said} is taken as {unit}"));
            Some(Degrees::Told { written: format!("{number} {unit}"), celsius, assumed })
        };
        let in_fahrenheit = || told("°F", (value - 32.0) / 1.8);
        match () {
            () if !is_sign && WordList::DegreesCelsius.has(behind(1)) && is_of_spirit => {
                Some(Degrees::Open(number.clone()))
            }
            () if !is_sign && WordList::DegreesCelsius.has(behind(1)) => told("°C", value),
            () if !is_sign && !WordList::Degrees.has(behind(1)) => None,
            () if !is_sign && matches!(behind(2).to_lowercase().as_str(), "c" | "celsius") => told("°C", value),
            () if !is_sign && matches!(behind(2).to_lowercase().as_str(), "f" | "fahrenheit") => in_fahrenheit(),
            () if value > HOTTEST_C || names.customs().measures == Some(MeasureSystem::Us) => in_fahrenheit(),
            () => Some(Degrees::Open(number.clone())),
        }
    })
}
