//! The sugars of what the tables of composition have only as other carbohydrate: the rows of `sugars.csv`.

use std::sync::LazyLock;

use crate::vocabulary::table::LongTable;

static SUGARS: LazyLock<LongTable> = LazyLock::new(|| LongTable::read("sugars.csv", include_str!("data/sugars.csv")));

/// How much sugar is in a gram of it, whose kinds nobody told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SugarRange {
    /// At least, grams in a gram.
    pub low: f64,
    /// At most, grams in a gram.
    pub high: f64,
}

impl SugarRange {
    /// Of the embedded ingredient with this id; `None` where its record names its sugars.
    pub(super) fn of(id: &str) -> Option<Self> {
        let row = SUGARS.rows_of(id).next()?;
        let gram = |column| row.number(column).unwrap_or_else(|| row.wrong(column)) / 100.0;
        Some(Self { low: gram("low_g"), high: gram("high_g") })
    }

    /// What is counted, grams in a gram.
    pub fn middle(self) -> f64 {
        f64::midpoint(self.low, self.high)
    }

    /// Half the way from the least to the most, grams in a gram.
    pub fn half_width(self) -> f64 {
        (self.high - self.low) / 2.0
    }
}
