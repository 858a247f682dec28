//! The lines of a stage in tare order: what the scale reads, and when it must be emptied.

use crate::house::Instruments;
use crate::solver::SolvedStage;
use crate::solver::resolve::Material;
use crate::units::in_grams;

use super::{How, Weighing, water_place};

/// One line of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct WeighLine {
    /// The part as the card calls it.
    pub label: String,
    /// Grams, rounded to the scale.
    pub grams: f64,
    /// Millilitres at 20 °C of a liquid.
    pub ml: Option<f64>,
    pub how: How,
    /// What the scale reads once it is in, the vessel tared away.
    pub reads_g: f64,
    /// The vessel is at the limit of the scale: tare again before this line.
    pub tare_again: bool,
    /// It is more than the scale carries: weigh it in goes.
    pub goes: Option<WeighGoes>,
    /// The share of it that is strained out again, if it is.
    pub strained: bool,
}

/// A line that is weighed in several goes, the vessel tared before each.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct WeighGoes {
    /// How many.
    pub count: u32,
    /// What the scale reads in each but the last, grams.
    pub each_g: f64,
    /// What it reads in the last, grams.
    pub last_g: f64,
}

impl WeighGoes {
    /// In as few goes as the scale allows; `None` where one is enough.
    fn fewest(grams: f64, capacity_g: f64, step_g: f64) -> Option<Self> {
        let count = (grams / capacity_g).ceil();
        if count <= 1.0 {
            return None;
        }
        let each_g = ((grams / count / step_g - 1e-9).ceil() * step_g).min(capacity_g);
        Some(Self { count: count as u32, each_g, last_g: grams - (count - 1.0) * each_g })
    }
}

/// The lines of one stage in tare order.
pub(crate) fn lines(stage: &SolvedStage, hows: &[How], instruments: &Instruments) -> Vec<WeighLine> {
    let capacity = in_grams(instruments.scale.up_to);
    let water = water_place(&stage.parts);
    let stocks = stage.parts.iter().zip(hows).filter_map(|(part, how)| match how.by {
        Weighing::Stock(stock) => Some(stock.brings_g(part.mass_g)),
        _ => None,
    });
    let by_stocks: f64 = stocks.sum();
    let mut reads = 0.0;
    let mut emptied = false;
    let mut lines = Vec::with_capacity(stage.parts.len());
    for (place, (part, how)) in stage.parts.iter().zip(hows).enumerate() {
        // Nothing of a stage or an inner card is no line; the solver has said so.
        if part.mass_g == 0.0 && !matches!(part.found.what, Material::Ingredient(_)) {
            continue;
        }
        // A stock goes in with its water, and that much less is poured of the other.
        let goes_in = match how.by {
            Weighing::Stock(stock) => stock.take_g(part.mass_g),
            _ if Some(place) == water => part.mass_g - by_stocks,
            _ => part.mass_g,
        };
        let goes = WeighGoes::fewest(goes_in, capacity, how.step_g);
        let tare_again = emptied || (reads > 0.0 && reads + goes_in > capacity);
        if tare_again {
            reads = 0.0;
        }
        reads += goes_in;
        emptied = goes.is_some();
        lines.push(WeighLine {
            label: part.label.clone(),
            grams: part.mass_g,
            ml: part.volume_ml(),
            how: *how,
            reads_g: reads,
            tare_again,
            goes,
            strained: part.feed.holds.is_some(),
        });
    }
    lines
}
