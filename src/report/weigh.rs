//! How a line is weighed, as every report with lines to weigh shows it.

use serde::Serialize;

use crate::solver::weighing::{How, Stock, Weighing};

/// How a line is weighed, and how sure that is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WeighView {
    /// On what.
    pub by: WeighedBy,
    /// The step that its grams are rounded to.
    pub step_g: f64,
    /// How far its mass may be off, grams.
    pub off_g: f64,
    /// Whether that is more than a trusted reading may be off.
    pub unsure: bool,
    /// The stock solution that it is weighed by.
    pub stock: Option<StockView>,
}

/// What a line is weighed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WeighedBy {
    /// The house's scale, into the vessel.
    Scale,
    /// The fine scale, apart.
    FineScale,
    /// A stock solution.
    Stock,
    /// All of what an earlier stage gave.
    Stage,
}

/// A stock solution for a dose.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StockView {
    /// What is dissolved, grams.
    pub dissolve_g: f64,
    /// In so much water, grams.
    pub in_water_g: f64,
    /// So much of it is weighed, grams.
    pub take_g: f64,
    /// So much less water goes in, grams.
    pub less_water_g: f64,
    /// The step that weighing it is rounded to, grams.
    pub step_g: f64,
}

impl WeighView {
    /// How so many grams are weighed.
    pub(super) fn new(how: &How, grams: f64) -> Self {
        let (by, stock) = match how.by {
            Weighing::Scale => (WeighedBy::Scale, None),
            Weighing::FineScale => (WeighedBy::FineScale, None),
            Weighing::Stage => (WeighedBy::Stage, None),
            Weighing::Stock(stock) => (WeighedBy::Stock, Some(stock_view(&stock, grams, how.step_g))),
        };
        Self { by, step_g: how.step_g, off_g: how.half_width_g, unsure: how.unsure, stock }
    }

    /// How far the mass may be off, in percent of so many grams.
    pub(crate) fn off_pct(&self, grams: f64) -> f64 {
        100.0 * self.off_g / grams
    }
}

fn stock_view(stock: &Stock, dose_g: f64, step_g: f64) -> StockView {
    StockView {
        dissolve_g: stock.dissolve_g,
        in_water_g: stock.in_water_g(),
        take_g: stock.take_g(dose_g),
        less_water_g: stock.brings_g(dose_g),
        step_g: step_g * stock.one_in,
    }
}
