//! The units that an amount can be written in, as data, and the ones that are refused because they
//! mean more than one thing.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::references::{self, Standing};
use crate::vocabulary::table::{List, rows};
use crate::vocabulary::{MeasureSystem, Portion};

crate::vocabulary::words! {
    /// Whether a ratio counts grams or millilitres.
    Basis, "basis":
    Weight = "by weight" | "weight" | "by mass",
    Volume = "by volume" | "volume",
}

/// What a unit measures, and so what its factor is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Dimension {
    /// Factor in grams.
    Mass,
    /// Factor in millilitres.
    Volume,
    /// Factor in seconds.
    Time,
    /// Degrees Celsius.
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Pieces.
    Pieces,
    /// Shares of a ratio.
    Parts,
    /// Shares of a ratio by weight.
    PartsByWeight,
    /// Shares of a ratio by volume.
    PartsByVolume,
    /// Percent of something that the unit does not name.
    Percent,
    /// Percent alcohol by volume at 20 °C.
    Abv,
    /// US proof.
    Proof,
    /// Grams of dissolved solids per 100 g.
    Brix,
    /// Bottles; what one holds has to be said.
    Bottles,
}

/// One unit.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Measure {
    /// The name that is printed for one.
    pub name: String,
    /// The name that is printed for several.
    pub plural: String,
    /// Every spelling that is read, in the form that `normalised` gives.
    pub spellings: List<String>,
    /// What it measures.
    pub dimension: Dimension,
    /// One of it, in the unit of its dimension.
    pub factor: f64,
    /// The least that one of it holds where people measure with it, in the same unit.
    pub low: Option<f64>,
    /// The most.
    pub high: Option<f64>,
    /// The portion of the larder that is heaped in it.
    pub portion: Option<Portion>,
    /// Whether it goes on the glass or on top of it, and not into the drink; blank: no.
    pub sprayed: Option<bool>,
    /// The key of its source in the bibliography.
    pub source: String,
    /// Which of several possible definitions this is, where a reader may wonder.
    pub definition: Option<String>,
}

impl Measure {
    /// How far one of it may be off, as a share; `None` where the tool has the size.
    pub(crate) fn spread(&self) -> Option<f64> {
        let off = |edge: Option<f64>| Some((edge? / self.factor - 1.0).abs());
        off(self.low).zip(off(self.high)).map(|(low, high)| low.max(high))
    }

    /// Whether no source stands behind its size: only the habit of the trade.
    pub fn is_common_practice(&self) -> bool {
        references::find(&self.source).is_some_and(|s| s.standing == Standing::CommonPractice)
    }
}

/// A word that is understood and still refused.
#[derive(Clone, Debug, Deserialize)]
pub struct AmbiguousUnit {
    /// Every spelling, normalised.
    pub spellings: List<String>,
    /// What can be written in its place; empty where no unit says the same.
    pub choices: List<String>,
    /// What to do where there are no choices.
    pub advice: String,
    /// What it is in a house that works by US measures.
    pub us: Option<String>,
    /// By imperial ones.
    pub imperial: Option<String>,
    /// By metric ones.
    pub metric: Option<String>,
    /// What it is there of what is weighed and not poured.
    pub of_solid: Option<String>,
}

impl AmbiguousUnit {
    /// The unit that it is in a house that says by which measures it works.
    pub(crate) fn settled(&'static self, system: MeasureSystem) -> Option<Settled> {
        let own = match system {
            MeasureSystem::Us => &self.us,
            MeasureSystem::Imperial => &self.imperial,
            MeasureSystem::Metric => &self.metric,
        };
        let of = |name: &Option<String>| measure(name.as_deref()?);
        Some(Settled { system, word: self.spellings.first()?, measure: of(own)?, of_solid: of(&self.of_solid) })
    }

    /// Whether a house can settle it.
    pub(crate) fn can_be_settled(&self) -> bool {
        self.us.is_some()
    }
}

/// A unit that the house has settled.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settled {
    /// By which measures.
    pub system: MeasureSystem,
    /// The word that it settles.
    pub word: &'static str,
    /// What that is.
    pub measure: &'static Measure,
    /// What it is of something that is weighed and not poured.
    pub of_solid: Option<&'static Measure>,
}

/// A US cup, ml (half a pint: 231 in³ / 16): the cup of the household weights.
pub(crate) const US_CUP_ML: f64 = 3785.411784 / 16.0;

/// All units.
pub static MEASURES: LazyLock<Vec<Measure>> = LazyLock::new(|| rows("measures.csv", include_str!("measures.csv")));

/// The words that are refused.
pub static REFUSED: LazyLock<Vec<AmbiguousUnit>> = LazyLock::new(|| rows("refused.csv", include_str!("refused.csv")));

/// A spelling as the table has it: small letters, single spaces, no abbreviation points, hyphens or brackets.
pub(crate) fn normalised(written: &str) -> String {
    let mut plain = String::with_capacity(written.len());
    let mut after_letter = false;
    for c in written.chars().flat_map(char::to_lowercase) {
        match c {
            '.' if after_letter => {}
            '(' | ')' => {}
            '℃' => plain.push_str("°c"),
            '℉' => plain.push_str("°f"),
            'º' | '˚' => plain.push('°'),
            '-' => plain.push(' '),
            c => plain.push(c),
        }
        after_letter = c.is_alphabetic();
    }
    let words: Vec<_> = plain.split_whitespace().collect();
    words.join(" ").replace("° ", "°")
}

/// By each spelling; a sentence asks for one at every word.
static SPELT: LazyLock<HashMap<&'static str, &'static Measure>> =
    LazyLock::new(|| by_spelling(&MEASURES, |measure| &measure.spellings));
static REFUSED_SPELT: LazyLock<HashMap<&'static str, &'static AmbiguousUnit>> =
    LazyLock::new(|| by_spelling(&REFUSED, |refused| &refused.spellings));

fn by_spelling<T>(
    all: &'static [T],
    of: impl Fn(&'static T) -> &'static List<String>,
) -> HashMap<&'static str, &'static T> {
    let spelt = |one: &'static T| of(one).iter().map(move |spelling| (spelling.as_str(), one));
    // of two that are spelt alike the first counts
    all.iter().rev().flat_map(spelt).collect()
}

/// The unit that is written exactly like this: `C` is a temperature, `c` may be a cup.
fn exact(written: &str) -> Option<&'static Measure> {
    SPELT.get(written).copied()
}

/// The unit that is written like this, in any case and spacing.
pub fn measure(written: &str) -> Option<&'static Measure> {
    exact(written.trim()).or_else(|| exact(&normalised(written)))
}

/// Whether it is what people measure out by hand: a pinch, a dash, a spoon. Such a word alone says one of it.
pub(crate) fn measured_by_hand(written: &str) -> bool {
    measure(written).is_some_and(|m| m.dimension == Dimension::Volume && m.spread().is_some())
}

pub(crate) fn refusal(written: &str) -> Option<&'static AmbiguousUnit> {
    if exact(written.trim()).is_some() {
        return None;
    }
    REFUSED_SPELT.get(normalised(written).as_str()).copied()
}
