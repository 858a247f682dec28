//! Ratios: parts that are measured against each other and must say by weight or by volume.

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::input::FileReader;
use crate::units::Basis;
use crate::units::measures::US_CUP_ML;

use super::model::{Amount, Part};

/// A US cup of granulated white sugar, g: USDA National Nutrient Database for Standard Reference,
/// release 26 (2013), NDB 19335, portion "1 cup". Cup weights are good to about 2 %.
const SUGAR_CUP_G: f64 = 200.0;
/// Water at 20 °C, g/ml: Tanaka and others, Metrologia 38 (2001) 301, 998.207 kg/m3.
const WATER_G_PER_ML: f64 = 0.998207;

/// °Bx of sugar and water in this ratio: by weight, and by cups.
fn readings(sugar: f64, water: f64) -> (f64, f64) {
    let brix = |sugar: f64, water: f64| 100.0 * sugar / (sugar + water);
    (brix(sugar, water), brix(sugar * SUGAR_CUP_G / US_CUP_ML, water * WATER_G_PER_ML))
}

pub(super) struct PartLine {
    pub part: Part,
    /// The basis of its ratio, if it says so.
    pub basis: Option<Basis>,
}

/// What one part of a ratio says of weight or volume holds for those that do not say.
pub(super) fn settle(lines: &mut [PartLine]) {
    let mut said = lines.iter().filter_map(|line| line.basis);
    let Some(told) = said.next().filter(|told| said.all(|other| other == *told)) else { return };
    for line in lines {
        if let Amount::Parts { basis, .. } = &mut line.part.amount.value {
            *basis = told;
            line.basis = Some(told);
        }
    }
}

/// Checks the ratio between these parts. The parts of one table are one ratio.
pub(super) fn check(reader: &mut FileReader<'_>, lines: &[PartLine]) {
    let share = |line: &PartLine| match line.part.amount.value {
        Amount::Parts { parts, .. } => Some(parts),
        _ => None,
    };
    let ratio: Vec<(&Part, f64, Option<Basis>)> =
        lines.iter().filter_map(|line| Some((&line.part, share(line)?, line.basis))).collect();
    if let [(only, ..)] = ratio.as_slice() {
        reader.found.push(
            Diagnostic::error(Code::LoneRatio, format!("only `{}` is given in parts", only.label.value))
                .at(only.amount.span, "parts of what?")
                .help("give the other side of the ratio in parts too, or write a weight or \"as needed\" here"),
        );
    } else if ratio.iter().any(|(.., basis)| basis.is_none()) {
        reader.found.push(without_basis(&ratio));
    } else if let (Some(weight), Some(volume)) = (first(&ratio, Basis::Weight), first(&ratio, Basis::Volume)) {
        reader.found.push(
            Diagnostic::error(Code::MixedBasis, "one ratio counts by weight here and by volume there")
                .at(weight, "by weight")
                .at(volume, "by volume")
                .help("write all of them by weight, or all of them by volume"),
        );
    }
}

fn first(ratio: &[(&Part, f64, Option<Basis>)], wanted: Basis) -> Option<Span> {
    ratio.iter().find(|(.., basis)| *basis == Some(wanted)).map(|(part, ..)| part.amount.span)
}

fn without_basis(ratio: &[(&Part, f64, Option<Basis>)]) -> Diagnostic {
    let shares: Vec<_> = ratio.iter().map(|(_, n, _)| n.to_string()).collect();
    let title = format!("the ratio {} does not say by weight or by volume", shares.join(":"));
    let mut diagnostic = Diagnostic::error(Code::RatioBasis, title);
    for (part, _, basis) in ratio {
        if basis.is_none() {
            diagnostic = diagnostic.at(part.amount.span, "by weight or by volume?");
        }
    }
    let lines = |basis: &str| {
        let lines: Vec<_> = ratio
            .iter()
            .map(|(part, n, _)| format!("{} = \"{n} {} {basis}\"", key(part), if *n == 1.0 { "part" } else { "parts" }))
            .collect();
        lines.join(", ")
    };
    let mut help = format!("write {}\nor write {}", lines("by weight"), lines("by volume"));
    if let Some((sugar, water)) = sugar_and_water(ratio) {
        let (weight, cups) = readings(sugar, water);
        help.push_str(&format!(
            "\nwith white sugar {sugar}:{water} by weight is {weight:.1} °Bx, by cups {cups:.1} °Bx; scales are the surer way"
        ));
    }
    diagnostic.help(help)
}

/// The two shares, where the ratio has two parts and one of them is water.
fn sugar_and_water(ratio: &[(&Part, f64, Option<Basis>)]) -> Option<(f64, f64)> {
    let is_water = |part: &Part| part.of.value.trim().to_lowercase() == "water";
    match ratio {
        [(a, _, _), (b, _, _)] if is_water(a) == is_water(b) => None,
        [(a, water, _), (_, sugar, _)] if is_water(a) => Some((*sugar, *water)),
        [(_, sugar, _), (_, water, _)] => Some((*sugar, *water)),
        _ => None,
    }
}

fn key(part: &Part) -> String {
    crate::input::key(&part.label.value)
}
