//! The weigh sheet: every mass rounded to a scale that the house owns, in tare order.

use crate::house::{Instruments, Scale};
use crate::mixture::Component;
use crate::quantity::in_grams;
use crate::solve::{Solved, SolvedPart, SolvedStage};

/// Below this many steps of a scale a reading is no longer trusted (common practice, no source).
pub const TRUSTED_STEPS: f64 = 20.0;

/// How a line is weighed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Weighing {
    /// On the house's scale, into the vessel.
    Scale,
    /// On the fine scale, apart, then into the vessel.
    FineScale,
    /// Too little for any scale of the house: by a stock solution of one part in this many.
    Stock(f64),
    /// Too little for any scale of the house, and it does not dissolve: make more, or borrow a finer scale.
    TooLittle,
    /// All of what the earlier stage gave.
    Stage,
}

/// One line of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The part as the card calls it.
    pub label: String,
    /// Grams, rounded to the scale.
    pub grams: f64,
    /// The step it was rounded to, grams.
    pub step_g: f64,
    /// Millilitres at 20 °C of a liquid.
    pub ml: Option<f64>,
    /// How it is weighed.
    pub weighing: Weighing,
    /// What the scale reads once it is in, the vessel tared away.
    pub reads_g: f64,
    /// The vessel is at the limit of the scale: tare again before this line.
    pub tare_again: bool,
    /// The share of it that is strained out again, if it is.
    pub strained: bool,
}

/// Which scale a mass is weighed on, and that scale's step in grams.
pub fn weighing(part: &SolvedPart, instruments: &Instruments) -> (Weighing, f64) {
    let coarse = &instruments.scale;
    let fine = instruments.fine_scale.as_ref();
    if part.stage().is_some() {
        return (Weighing::Stage, in_grams(coarse.step));
    }
    // A gram of water more or less spoils nothing, and a solution of water is water.
    let water = part.found.per_gram.grams_of(Component::Water) > 0.99;
    if part.mass_g >= TRUSTED_STEPS * in_grams(coarse.step) || part.mass_g == 0.0 || water {
        return (Weighing::Scale, in_grams(coarse.step));
    }
    if let Some(fine) =
        fine.filter(|f| part.mass_g >= TRUSTED_STEPS * in_grams(f.step) && part.mass_g <= in_grams(f.up_to))
    {
        return (Weighing::FineScale, in_grams(fine.step));
    }
    let finest: &Scale = fine.unwrap_or(coarse);
    if part.feed.holds.is_some() {
        return (Weighing::TooLittle, in_grams(finest.step));
    }
    // One part in ten, or in a hundred where ten is not enough.
    let dilution = if part.mass_g * 10.0 >= TRUSTED_STEPS * in_grams(finest.step) { 10.0 } else { 100.0 };
    (Weighing::Stock(dilution), in_grams(finest.step) / dilution)
}

/// A mass rounded to the scale that it is weighed on; never to nothing where there is something.
pub fn rounded(part: &SolvedPart, instruments: &Instruments) -> f64 {
    let (_, step) = weighing(part, instruments);
    let steps = (part.mass_g / step).round();
    if steps == 0.0 && part.mass_g > 0.0 { part.mass_g } else { steps * step }
}

/// The card run forward from the rounded masses: what the sheet really makes.
pub fn as_weighed(solved: &Solved, instruments: &Instruments) -> Solved {
    solved.weighed(|part| rounded(part, instruments))
}

/// The lines of one stage in tare order.
pub fn lines(stage: &SolvedStage, instruments: &Instruments) -> Vec<Line> {
    let capacity = in_grams(instruments.scale.up_to);
    let mut reads = 0.0;
    let mut lines = Vec::with_capacity(stage.parts.len());
    for part in &stage.parts {
        let (weighing, step_g) = weighing(part, instruments);
        let tare_again = reads > 0.0 && reads + part.mass_g > capacity;
        if tare_again {
            reads = 0.0;
        }
        reads += part.mass_g;
        lines.push(Line {
            label: part.label.clone(),
            grams: part.mass_g,
            step_g,
            ml: part.volume_ml(),
            weighing,
            reads_g: reads,
            tare_again,
            strained: part.feed.holds.is_some(),
        });
    }
    lines
}
