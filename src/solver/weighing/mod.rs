//! How each line is weighed, decided once: the sheet, its rounding and its uncertainty all ask here.

mod lines;
mod stock;

use crate::house::{Instruments, Scale};
use crate::mixture::Component;
use crate::solver::{Solved, SolvedPart};
use crate::units::in_grams;

pub(crate) use lines::{WeighGoes, WeighLine, lines};
pub use stock::Stock;

/// Below this many steps of a scale a reading is no longer trusted (common practice, no source).
pub const TRUSTED_STEPS: f64 = 20.0;

/// What a line is weighed on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Weighing {
    /// On the house's scale, into the vessel.
    Scale,
    /// On the fine scale, apart, then into the vessel.
    FineScale,
    /// Too little for any scale of the house: by a stock solution, which is surer.
    Stock(Stock),
    /// All of what the earlier stage gave.
    Stage,
}

/// How a line is weighed, and how sure that is.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct How {
    /// On what.
    pub by: Weighing,
    /// The step that its grams are rounded to.
    pub step_g: f64,
    /// How far the mass may be off, grams.
    #[serde(rename = "off_g")]
    pub half_width_g: f64,
    /// Whether that is more than a trusted reading may be off: make more, or borrow a finer scale.
    pub unsure: bool,
}

impl How {
    /// A mass in whole steps; never nothing where there is something.
    pub(crate) fn rounded(&self, mass_g: f64) -> f64 {
        let steps = (mass_g / self.step_g).round();
        if steps == 0.0 && mass_g > 0.0 { mass_g } else { steps * self.step_g }
    }
}

/// How each part of each stage is weighed.
pub fn ways(solved: &Solved, instruments: &Instruments) -> Vec<Vec<How>> {
    solved.stages.iter().map(|stage| ways_for_parts(&stage.parts, instruments)).collect()
}

/// How each of these parts is weighed, where they go into one vessel in this order.
pub(crate) fn ways_for_parts(parts: &[SolvedPart], instruments: &Instruments) -> Vec<How> {
    let total: f64 = parts.iter().map(|p| p.mass_g).sum();
    // What the stocks bring of the water is poured from it no more.
    let mut water_g = water_place(parts).and_then(|place| parts.get(place)).map_or(0.0, |water| water.mass_g);
    let mut all = Vec::with_capacity(parts.len());
    for part in parts {
        let direct = directly(part, instruments, total);
        let stock = if direct.unsure { stock::instead(part, &direct, instruments, total, water_g) } else { None };
        if let Some(Weighing::Stock(stock)) = stock.map(|how| how.by) {
            water_g -= stock.brings_g(part.mass_g);
        }
        all.push(stock.unwrap_or(direct));
    }
    all
}

fn is_water(part: &SolvedPart) -> bool {
    part.found.per_gram.grams_of(Component::Water) > 0.99
}

/// The line of water that a stock takes from: the largest.
fn water_place(parts: &[SolvedPart]) -> Option<usize> {
    let waters = parts.iter().enumerate().filter(|(_, part)| is_water(part) && part.stage().is_none());
    waters.max_by(|(_, a), (_, b)| a.mass_g.total_cmp(&b.mass_g)).map(|(place, _)| place)
}

/// The finest scale that carries a mass.
fn finest(mass_g: f64, instruments: &Instruments) -> (Weighing, Scale) {
    match instruments.fine_scale.filter(|fine| mass_g <= in_grams(fine.up_to)) {
        Some(fine) => (Weighing::FineScale, fine),
        None => (Weighing::Scale, instruments.scale),
    }
}

/// A step more or less of water spoils nothing where it is less than this share of the whole (ours).
const LITTLE_WATER: f64 = 0.01;

fn directly(part: &SolvedPart, instruments: &Instruments, total_g: f64) -> How {
    let on = |by, scale: &Scale, unsure| {
        let step_g = in_grams(scale.step);
        // Each of several goes is off by itself.
        let goes = (part.mass_g / in_grams(scale.up_to)).ceil().max(1.0);
        How { by, step_g, half_width_g: step_g * goes.sqrt(), unsure }
    };
    let coarse = &instruments.scale;
    if part.stage().is_some() {
        return on(Weighing::Stage, coarse, false);
    }
    let trusted = |scale: &Scale| part.mass_g >= TRUSTED_STEPS * in_grams(scale.step);
    if trusted(coarse) || part.mass_g == 0.0 || (is_water(part) && in_grams(coarse.step) < LITTLE_WATER * total_g) {
        return on(Weighing::Scale, coarse, false);
    }
    let (by, scale) = finest(part.mass_g, instruments);
    on(by, &scale, !trusted(&scale))
}

/// The card run forward from the rounded masses: what the sheet really makes.
pub(crate) fn as_weighed(solved: &Solved, hows: &[Vec<How>]) -> Solved {
    solved.weighed(|(stage, part), mass_g| {
        let how = hows.get(stage).and_then(|stage| stage.get(part));
        how.map_or(mass_g, |how| how.rounded(mass_g))
    })
}
