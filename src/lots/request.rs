//! What is said of a batch when it is written down.

use chrono::NaiveDate;

use crate::solver::Options;

use super::event::{BatchReading, PartFrom, Pressed};

/// What is said of a batch that was made.
#[derive(Clone, Debug, Default)]
pub struct RecordRequest {
    /// How the card is solved.
    pub options: Options,
    /// The day on which it was finished.
    pub made: NaiveDate,
    /// Who made it.
    pub maker: Option<String>,
    /// Where it is kept; `None`: where the card says.
    pub store: Option<String>,
    /// Where its parts are from, by what the card calls them.
    pub parts: Vec<(String, PartFrom)>,
    /// Whether everything that has to be fresh was pressed or opened on the day it was made.
    pub fresh: bool,
    /// What was read of it.
    pub readings: Vec<BatchReading>,
    /// How many fruits gave its juices.
    pub pressed: Vec<Pressed>,
    /// Grams that it came to on the scale.
    pub weighed_g: Option<f64>,
    /// How many containers, and millilitres in each.
    pub filled: Option<(u32, f64)>,
    /// Of them, those that are kept to be tasted.
    pub kept_back: u32,
}
