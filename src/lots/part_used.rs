//! What went into a lot, and of which lot it was.

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// Where a part is from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PartFrom {
    /// A lot of this book.
    Lot(String),
    /// Pressed, opened or made on a day.
    Day(NaiveDate),
    /// What its maker printed on it.
    Batch(String),
    /// Nobody has said.
    #[default]
    NotTold,
}

impl PartFrom {
    /// The code of the lot that it is from.
    pub(super) fn lot(&self) -> Option<&str> {
        match self {
            Self::Lot(code) => Some(code),
            Self::Day(_) | Self::Batch(_) | Self::NotTold => None,
        }
    }
}

/// A part that went in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(from = "UsedLine")]
pub struct PartUsed {
    /// What the card calls it.
    pub of: String,
    /// Grams.
    pub mass_g: f64,
    /// Where it is from.
    #[serde(flatten)]
    pub from: PartFrom,
    /// Whether the date of the lot hangs on its day: a product of the house, or fresh juice.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub dated: bool,
    /// Whether its lot is the only one that it can be, and nobody has said so.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub assumed: bool,
    /// What it is, where the card calls it something else.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<String>,
    /// The products of the house that are in a product of the house, by the cards of that day: they are in the lot as well, whichever
    /// lot of the part nobody has written down.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub made_of: Vec<String>,
}

impl PartUsed {
    /// What it is, and not what the card calls it.
    pub fn product(&self) -> &str {
        self.product.as_deref().unwrap_or(&self.of)
    }

    /// Whether a day that the lot's date hangs on is not known: a number on a bottle is no day.
    pub fn is_open(&self) -> bool {
        self.dated && !matches!(self.from, PartFrom::Lot(_) | PartFrom::Day(_))
    }
}

/// A part as it stands in a line, each place of it under a key of its own.
#[derive(Deserialize)]
struct UsedLine {
    of: String,
    mass_g: f64,
    lot: Option<String>,
    day: Option<NaiveDate>,
    batch: Option<String>,
    #[serde(default)]
    dated: bool,
    #[serde(default)]
    assumed: bool,
    product: Option<String>,
    #[serde(default)]
    made_of: Vec<String>,
}

impl From<UsedLine> for PartUsed {
    fn from(line: UsedLine) -> Self {
        let UsedLine { of, mass_g, lot, day, batch, dated, assumed, product, made_of } = line;
        let lot = lot.map(PartFrom::Lot);
        let from = lot.or(day.map(PartFrom::Day)).or(batch.map(PartFrom::Batch)).unwrap_or_default();
        Self { of, mass_g, from, dated, assumed, product, made_of }
    }
}
