//! What strained solids keep, give and dissolve: the rows of `holds.csv`.

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::vocabulary::Status;
use crate::vocabulary::table::{LongTable, Row};

/// A figure of practice, and between what it lies.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Practice {
    /// What is taken.
    pub usual: f64,
    /// The least.
    pub low: f64,
    /// The most.
    pub high: f64,
}

impl Practice {
    /// How far off it may be, each way.
    pub fn half_width(self) -> f64 {
        (self.high - self.low) / 2.0
    }

    fn scaled(self, by: f64) -> Self {
        Self { usual: by * self.usual, low: by * self.low, high: by * self.high }
    }
}

/// What the solids of a kind do when they are strained out.
#[derive(Clone, Debug, PartialEq)]
pub struct Strained {
    /// How it was done: "drained", "ground in water, pressed in cloth".
    pub what: String,
    /// Liquid of the batch that they keep, grams a gram put in; never below zero.
    pub holds: Practice,
    /// Their own juice that they give to the batch, grams a gram put in.
    pub gives: Option<Practice>,
    /// The share of dry solids that dissolves.
    pub solubles: Option<Practice>,
    /// The share of fat that is lifted off, or of a nut's fat and protein that passes into the milk.
    pub recovered: Option<Practice>,
    /// Whether nobody bottles it with what it flavours, so that a recipe need not say that it is strained out.
    pub(crate) is_never_bottled: bool,
    /// How it is known.
    pub status: Status,
    /// What else there is to know.
    pub notes: String,
}

impl Strained {
    /// (wet weight out - weight in) / weight in: what they keep, less what they give.
    pub fn net(&self) -> f64 {
        self.holds.usual - self.gives.map_or(0.0, |gives| gives.usual)
    }

    /// How far off that may be, each way.
    pub fn half_width(&self) -> f64 {
        self.holds.half_width().hypot(self.gives.map_or(0.0, Practice::half_width))
    }

    /// What a press or a blender gets at the most of fruit with this share of water, grams of juice a gram; `None` where it is no more than
    /// its pieces give. Soft fruit runs through the cloth but for its seeds and skins: as much of it as it has water.
    pub(crate) fn most_pressed(&self, water: f64) -> Option<f64> {
        let (firm, most) = MOST_PRESSED;
        let (given, most) = match -self.net() {
            given if given < firm => (given, most),
            given => (given + self.half_width() + MORE_PRESSED, water),
        };
        (most > given).then_some(most)
    }

    /// Between what it lies and how that is known, in words.
    pub(crate) fn said(&self) -> String {
        let (net, by, what, status) = (self.net(), self.half_width(), &self.what, self.status.as_str());
        match net {
            0.0.. => format!("{:.1} to {:.1}, {what}; {status}", (net - by).max(0.0), net + by),
            _ => format!("{:.1} to {:.1}, {what}; {status}", (-net - by).max(0.0), by - net),
        }
    }
}

/// What a kitchen presses of fruit, grams of juice a gram: between what whole apples and quinces, and what soft fruit give (common
/// practice, no source; the larder's juices "from a kilo" are 0.4 to 0.6).
const MOST_PRESSED: (f64, f64) = (0.4, 0.6);
/// Less than this much more, grams of juice a gram, is in the range of the pieces (ours).
const MORE_PRESSED: f64 = 0.1;

static STRAINED: LazyLock<HashMap<String, Strained>> = LazyLock::new(|| {
    let sheet = LongTable::read("holds.csv", include_str!("data/holds.csv"));
    sheet.rows().map(|row| (row.text("name").to_owned(), read(&row))).collect()
});

/// The row of this name.
pub(super) fn of(name: &str) -> Option<&'static Strained> {
    STRAINED.get(name)
}

fn read(row: &Row<'_>) -> Strained {
    let practice = |usual: &str, low: &str, high: &str| {
        Some(Practice { usual: row.number(usual)?, low: row.number(low)?, high: row.number(high)? })
    };
    let status = row.text("status");
    Strained {
        what: row.text("what").to_owned(),
        holds: practice("holds", "holds_low", "holds_high").unwrap_or_else(|| row.wrong("holds")),
        gives: practice("gives", "gives_low", "gives_high"),
        solubles: practice("solubles_pct", "solubles_low", "solubles_high").map(|pct| pct.scaled(0.01)),
        recovered: practice("recovered", "recovered_low", "recovered_high"),
        is_never_bottled: row.said("left_in").is_some(),
        status: Status::parse(status).unwrap_or_else(|| row.wrong(status)),
        notes: row.text("notes").to_owned(),
    }
}
