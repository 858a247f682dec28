//! How much of a substance that has a limit is in a litre and in a serving, at the most that the weight of what carries
//! it can bring. A most is no measurement: it says whether there is a reason to ask.

use std::fmt;
use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use crate::references::Key;
use crate::units::display::grouped;
use crate::units::{Abv, grams_per_litre};
use crate::vocabulary::table;
use crate::vocabulary::{Scope, Tag, Word};

use super::doses::{LiquoriceLabel, liquorice_label};
use super::warnings::{WarnedOf, words_of};

#[derive(Debug, Deserialize)]
struct ContentRow {
    substance: String,
    tag: Tag,
    mg_per_g: Option<f64>,
    limit_mg_l: Option<f64>,
    limit_mg_serving: Option<f64>,
    above_abv: Option<f64>,
    up_to_abv: Option<f64>,
    market: Scope,
    rule: String,
    source_id: Key,
    status: String,
}

static CONTENTS: LazyLock<Vec<ContentRow>> =
    LazyLock::new(|| table::rows("dose-contents.csv", include_str!("data/dose-contents.csv")));

/// The tags of what carries a substance with a limit.
pub(crate) fn carriers() -> impl Iterator<Item = Tag> {
    CONTENTS.iter().map(|row| row.tag)
}

/// What goes into a batch of one carrier.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carrier {
    /// What it is.
    pub tag: Tag,
    /// Its grams.
    pub grams: f64,
    /// Whether it is the dry plant that the table speaks of, and no drink or extract of it.
    pub is_dry: bool,
    /// Litres of the product; `None` where that is not known.
    pub litres: Option<f64>,
    /// Servings in it; `None` where nobody says how much is served.
    pub servings: Option<f64>,
    /// The strength of the product.
    pub abv: Option<Abv>,
}

/// The most that there is of a substance, beside its limit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Intake {
    /// The substance.
    pub substance: &'static str,
    /// What brings it.
    pub from: Tag,
    /// Grams of that in the batch.
    pub grams: f64,
    /// Milligrams in a litre, at most; `None` where the weight does not tell.
    pub mg_per_l: Option<f64>,
    /// Milligrams in a serving, at most; `None` where the weight does not tell or the serving is not stated.
    pub mg_per_serving: Option<f64>,
    /// The limits that it is held against.
    pub limit_mg_per_l: Option<f64>,
    /// The same for a serving.
    pub limit_mg_per_serving: Option<f64>,
    /// Whether it may pass one of them.
    pub may_pass: bool,
    /// Whether a thousandth of it would be below: then milligrams were perhaps meant.
    pub grams_for_milligrams: bool,
    /// Where the rule holds.
    pub market: &'static str,
    /// The rule.
    pub rule: &'static str,
    /// What a label must say, where a rule on labels says it.
    pub label: Option<&'static str>,
    /// Which rule that is.
    #[serde(skip)]
    pub(crate) warned: Option<WarnedOf>,
    /// Its source.
    pub source: Key,
    /// How sure content and limit are.
    pub status: &'static str,
}

/// The doses of a carrier, row by row of the table of what holds how much (`dose-contents.csv`); none where no row speaks of it.
pub fn intakes(carrier: &Carrier) -> Vec<Intake> {
    let abv = carrier.abv.map_or(0.0, Abv::get);
    let holds = |row: &&ContentRow| {
        row.tag == carrier.tag
            && row.above_abv.is_none_or(|above| abv > above)
            && row.up_to_abv.is_none_or(|up_to| abv <= up_to)
    };
    CONTENTS.iter().filter(holds).map(|row| intake(row, carrier)).collect()
}

fn intake(row: &'static ContentRow, carrier: &Carrier) -> Intake {
    let mg = row.mg_per_g.filter(|_| carrier.is_dry).map(|content| content * carrier.grams);
    let share = |of: Option<f64>| mg.zip(of).filter(|(_, n)| *n > 0.0).map(|(mg, n)| mg / n);
    let (mg_per_l, mg_per_serving) = (share(carrier.litres), share(carrier.servings));
    let pairs = [(mg_per_l, row.limit_mg_l), (mg_per_serving, row.limit_mg_serving)];
    let ratio = pairs.iter().filter_map(|(mg, limit)| Some((*mg)? / (*limit)?)).reduce(f64::max);
    /// So far above a limit that a slip of the unit is likelier than a dose (ours).
    const SLIP: f64 = 100.0;
    let warned = match row.tag {
        Tag::Liquorice | Tag::Glycyrrhizin => of_liquorice(mg_per_l, carrier.abv),
        _ => None,
    };
    Intake {
        substance: &row.substance,
        from: row.tag,
        grams: carrier.grams,
        mg_per_l,
        mg_per_serving,
        limit_mg_per_l: row.limit_mg_l,
        limit_mg_per_serving: row.limit_mg_serving,
        may_pass: ratio.is_some_and(|ratio| ratio > 1.0),
        grams_for_milligrams: ratio.is_some_and(|ratio| ratio > SLIP && ratio / 1000.0 <= 1.0),
        market: row.market.as_str(),
        rule: &row.rule,
        label: warned.and_then(words_of),
        warned,
        source: row.source_id,
        status: &row.status,
    }
}

/// What a label says of so much glycyrrhizinic acid; of what nobody knows how much it holds, the most.
fn of_liquorice(mg_per_l: Option<f64>, abv: Option<Abv>) -> Option<WarnedOf> {
    let Some(mg_per_l) = mg_per_l else { return Some(WarnedOf::MuchLiquorice) };
    match liquorice_label(Some(grams_per_litre(mg_per_l / 1000.0)), abv.or(Abv::new(0.0))?)? {
        LiquoriceLabel::Nothing => None,
        LiquoriceLabel::Name => Some(WarnedOf::Liquorice),
        LiquoriceLabel::BloodPressure => Some(WarnedOf::MuchLiquorice),
    }
}

/// What is poured where nobody says how much, in litres: a double measure (ours; bitters and tinctures say their own).
const MEASURE_L: f64 = 0.05;

impl Intake {
    /// Whether a measure of it may pass what a body bears, by a limit that is of one serving alone; where no serving is stated, a double
    /// measure of it.
    pub(crate) fn may_harm(&self) -> bool {
        let of_measure = || self.mg_per_serving.is_none().then_some(self.mg_per_l? * MEASURE_L);
        let in_measure = of_measure().zip(self.limit_mg_per_serving).is_some_and(|(mg, limit)| mg > limit);
        self.limit_mg_per_l.is_none() && (self.may_pass || in_measure)
    }
}

impl fmt::Display for Intake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digits = |mg: f64| grouped(mg, if mg < 10.0 { 2 } else { 0 });
        write!(f, "{} from {} g of {}: ", self.substance, digits(self.grams), self.from.said())?;
        match (self.mg_per_l, self.mg_per_serving) {
            (None, None) => write!(f, "not known from its weight")?,
            (Some(litre), None) => {
                write!(f, "at most {} mg/L, a serving is not stated", digits(litre))?;
                if self.limit_mg_per_serving.is_some() {
                    write!(f, ": {} mg in a double measure of 50 ml", digits(litre * MEASURE_L))?;
                }
            }
            (litre, Some(serving)) => {
                if let Some(litre) = litre {
                    write!(f, "at most {} mg/L, ", digits(litre))?;
                }
                write!(f, "at most {} mg in a serving", digits(serving))?;
            }
        }
        let over = if self.may_pass { "MAY EXCEED" } else { "limit" };
        write!(f, "; {over} ({}): {}", self.market, self.rule)?;
        if let Some(label) = self.label {
            write!(f, "; a label says: {label}")?;
        }
        if self.grams_for_milligrams {
            write!(f, "; were milligrams meant?")?;
        }
        write!(f, " [{}; {}]", self.source.reference().key, self.status)
    }
}
