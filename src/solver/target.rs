//! The properties that can be aimed at: one table of what is said of each, and how far it may be missed.

use crate::mixture::Mixture;
use crate::properties::TargetKind;
use crate::units::display::{as_read, grouped};
use crate::units::{celsius, in_kg_per_m3};

/// A property that the liquid shall have: °Bx, % vol, g/L or pH units.
pub type TargetValue = (TargetKind, f64);

pub(super) struct TargetRow {
    /// Printed before and after its number.
    around: [&'static str; 2],
    /// Of its number. A pH is aimed at more finely than one is computed.
    decimals: usize,
    /// What fixed amounts may miss it by before it is a finding: so much, and this share of what was asked
    /// (common practice, no source: about what a kitchen can tell).
    agrees: [f64; 2],
    /// What a part must bring to reach it.
    pub brings: &'static str,
    pub for_example: &'static str,
    /// How it is offered for `[target]`; none for what may turn out not to be computable.
    pub offer: Option<&'static str>,
}

pub(super) fn row(kind: TargetKind) -> &'static TargetRow {
    const fn row(
        around: [&'static str; 2],
        decimals: usize,
        agrees: [f64; 2],
        [brings, for_example]: [&'static str; 2],
        offer: Option<&'static str>,
    ) -> TargetRow {
        TargetRow { around, decimals, agrees, brings, for_example, offer }
    }
    const SWEET: [&str; 2] = ["sugar", "white sugar"];
    const SOUR: [&str; 2] = ["acid", "citric acid or a juice"];
    match kind {
        TargetKind::Brix => const { &row(["", " °Bx"], 1, [0.5, 0.0], SWEET, Some("brix = 50")) },
        TargetKind::Abv => const { &row(["", " % ABV"], 1, [0.3, 0.0], ["alcohol", "a spirit"], Some("abv = 18")) },
        TargetKind::Sugar => const { &row(["", " g/L sugar"], 0, [0.0, 0.02], SWEET, Some("sugar = \"250 g/L\"")) },
        TargetKind::Acid => const { &row(["", " g/L acid"], 1, [0.0, 0.05], SOUR, Some("acid = \"4 g/L\"")) },
        TargetKind::Ph => const { &row(["pH ", ""], 2, [0.1, 0.0], SOUR, None) },
    }
}

pub(crate) fn target_words(kind: TargetKind, value: f64) -> String {
    let [before, after] = row(kind).around;
    format!("{before}{}{after}", target_figure(kind, value))
}

pub(crate) fn target_figure(kind: TargetKind, value: f64) -> String {
    grouped(value, row(kind).decimals)
}

/// A figure that somebody wrote: as it is printed, or with as many decimals as it has.
pub(crate) fn target_written(kind: TargetKind, value: f64) -> String {
    let printed = grouped(value, row(kind).decimals);
    if (rounded_into(kind, value, true) - value).abs() < 1e-9 * value.abs().max(1.0) { printed } else { as_read(value) }
}

/// The last figure that is printed of a kind and still lies inside a range that ends at `value`: rounded down at
/// its `upper` end, up at its lower. Asked for as it is printed it can be met.
pub(super) fn rounded_into(kind: TargetKind, value: f64, upper: bool) -> f64 {
    let step = 10_f64.powi(i32::try_from(row(kind).decimals).unwrap_or(0));
    // What is a rounding away from a printed figure is that figure.
    let scaled = value * step;
    (if upper { (scaled + 1e-6).floor() } else { (scaled - 1e-6).ceil() }) / step
}

pub(super) fn agrees(kind: TargetKind, asked: f64, gives: f64) -> bool {
    (asked - gives).abs() <= tolerance(kind, asked)
}

/// How far about a kitchen can tell, in the unit of the kind.
pub(super) fn tolerance(kind: TargetKind, asked: f64) -> f64 {
    let [so_much, share] = row(kind).agrees;
    so_much + share * asked
}

/// Density of a liquid at 20 °C, g/ml; `None` where it cannot be computed (a dry mixture).
pub(crate) fn g_per_ml(liquid: &Mixture) -> Option<f64> {
    liquid.density(celsius(20.0)).ok().map(|d| in_kg_per_m3(d.value) / 1000.0)
}

/// Millilitres at 20 °C of a liquid, where its density can be computed.
pub fn volume_ml(liquid: &Mixture) -> Option<f64> {
    let density = liquid.density(celsius(20.0)).ok()?;
    Some(liquid.total_grams() / in_kg_per_m3(density.value) * 1000.0)
}
