//! How a line is weighed, as every report with lines to weigh shows it.

use serde::{Serialize, Serializer};

use crate::solver::weighing::{How, Weighing};

/// How a line is weighed, and how sure that is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(crate) struct WeighView {
    #[serde(flatten)]
    pub(crate) how: How,
    pub(crate) stock: Option<StockView>,
}

impl Serialize for Weighing {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(match self {
            Self::Scale => "scale",
            Self::FineScale => "fine_scale",
            Self::Stock(_) => "stock",
            Self::ByHand => "by_hand",
            Self::Stage => "stage",
            Self::Melts => "melts",
        })
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(crate) struct StockView {
    pub(crate) dissolve_g: f64,
    pub(crate) in_water_g: f64,
    pub(crate) take_g: f64,
    pub(crate) less_water_g: f64,
    /// The step that weighing it is rounded to.
    pub(crate) step_g: f64,
}

impl WeighView {
    pub(super) fn new(how: How, grams: f64) -> Self {
        let stock = match how.by {
            Weighing::Stock(stock) => Some(StockView {
                dissolve_g: stock.dissolve_g,
                in_water_g: stock.in_water_g(),
                take_g: stock.take_g(grams),
                less_water_g: stock.brings_g(grams),
                step_g: how.step_g * stock.one_in,
            }),
            _ => None,
        };
        Self { how, stock }
    }

    /// How far the mass may be off, in percent of so many grams.
    pub(crate) fn off_pct(&self, grams: f64) -> f64 {
        100.0 * self.how.half_width_g / grams
    }
}
