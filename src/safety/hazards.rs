//! The plants, additives and habits that can hurt, with the limit that somebody has set.

use std::fmt;
use std::sync::LazyLock;

use serde::{Deserialize, Deserializer, Serialize, de};

use crate::references::Key;
use crate::units::display::grouped;
use crate::vocabulary::table::{self, List};
use crate::vocabulary::{Process, Scope, Tag, Word};

use super::catalogue::catalogue;
use super::facts::{Fact, Facts, Member, Quantity};
use super::trigger::{self, Condition, Truth};

/// One hazard in one market.
#[derive(Clone, Debug, Deserialize)]
pub struct Hazard {
    /// Its key.
    pub id: String,
    /// The tags of the ingredients that carry it.
    pub ingredient_tags: List<Tag>,
    /// What it does.
    pub hazard: String,
    /// Where the rule holds.
    pub market: Scope,
    /// To what it applies.
    pub applies_to: String,
    /// To which products it is shown.
    shown: Shown,
    /// The limit, where it is a number; 0 with a unit that says "added" means prohibited.
    #[serde(rename = "limit_value")]
    pub limit: Option<f64>,
    /// The unit of the limit.
    #[serde(rename = "limit_unit")]
    pub unit: String,
    /// What is compared with the limit, where it is computed.
    #[serde(deserialize_with = "quantity")]
    dose: Option<Quantity>,
    /// The rule in words.
    pub rule: String,
    /// Its source.
    pub source_id: Key,
    /// How sure the figure is.
    pub status: String,
    /// What else there is to know.
    pub note: String,
}

/// To which products a hazard is shown that carry one of its tags.
#[derive(Clone, Debug)]
enum Shown {
    Always,
    /// To none: it speaks of what is no drink, or stands behind a figure.
    Never,
    /// Unless this surely does not hold.
    When(Condition),
}

impl<'de> Deserialize<'de> for Shown {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        match String::deserialize(deserializer)?.as_str() {
            "" => Ok(Self::Always),
            "never" => Ok(Self::Never),
            when => trigger::parse(when).map(Self::When).map_err(de::Error::custom),
        }
    }
}

fn quantity<'de, D: Deserializer<'de>>(cell: D) -> Result<Option<Quantity>, D::Error> {
    let name = String::deserialize(cell)?;
    let found = Quantity::ALL.iter().copied().find(|quantity| quantity.name() == name);
    match found {
        None if !name.is_empty() => Err(de::Error::custom(format!("no number is called `{name}`"))),
        found => Ok(found),
    }
}

/// All of them.
pub fn all() -> &'static [Hazard] {
    static HAZARDS: LazyLock<Vec<Hazard>> =
        LazyLock::new(|| table::rows("hazards.csv", include_str!("data/hazards.csv")));
    &HAZARDS
}

impl Hazard {
    fn is_carried_by(&self, facts: &Facts) -> bool {
        let by_process = |tag: &Tag| Process::ALL.iter().any(|&p| p.word() == tag.word() && facts.process.has(p));
        let carried = self.ingredient_tags.iter().any(|tag| facts.tags.has(*tag) || by_process(tag));
        let applies = match &self.shown {
            Shown::Always => true,
            Shown::Never => false,
            // Where one of its markets asks, all that is known of the product is the same.
            Shown::When(when) => when.evaluate(facts, crate::vocabulary::Market::Eu) != Truth::False,
        };
        carried && applies
    }
}

/// What somebody has set or said of a hazard that a product carries.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PublishedLimit {
    /// The key of the hazard.
    pub id: &'static str,
    /// The tags that carry it here.
    pub carried_by: Vec<Tag>,
    /// What it does.
    pub hazard: &'static str,
    /// Where it holds ("EU,UK", "any").
    pub market: &'static str,
    /// To what it applies.
    pub applies_to: &'static str,
    /// The limit, where it is a number.
    pub limit: Option<f64>,
    /// Its unit.
    pub unit: &'static str,
    /// What this product has of it, in the unit of the limit; `None` where that is not known from weight.
    pub dose: Option<f64>,
    /// The rule in words.
    pub rule: &'static str,
    /// The key of its source.
    pub source: Key,
    /// How sure the figure is.
    pub status: &'static str,
    /// What else there is to know.
    pub note: &'static str,
    /// Whether it says no more than a caution on the same thing: no figure, and a caution that looks for its tags.
    #[serde(skip)]
    pub is_said_by_caution: bool,
}

/// Whether a caution of the catalogue looks for one of these tags.
fn has_caution(tags: &[Tag]) -> bool {
    let looks_for = |member: &Member| matches!(member, Member::Tag(tag) if tags.contains(tag));
    catalogue().rules.iter().any(|rule| rule.condition.members().iter().any(looks_for))
}

/// The hazards that a product surely carries, by the rules of its markets (none named: of all).
pub fn carried_by(facts: &Facts) -> Vec<PublishedLimit> {
    let here = |hazard: &&Hazard| hazard.market.holds_in_any(&facts.market) && hazard.is_carried_by(facts);
    all()
        .iter()
        .filter(here)
        .map(|h| PublishedLimit {
            id: &h.id,
            carried_by: h.ingredient_tags.iter().copied().filter(|tag| facts.tags.has(*tag)).collect(),
            hazard: &h.hazard,
            market: h.market.as_str(),
            applies_to: &h.applies_to,
            limit: h.limit,
            unit: &h.unit,
            dose: h.dose.and_then(|quantity| match facts.number(quantity) {
                Fact::Known(dose) => Some(dose),
                Fact::None | Fact::Unknown => None,
            }),
            rule: &h.rule,
            source: h.source_id,
            status: &h.status,
            note: &h.note,
            is_said_by_caution: h.limit.is_none() && has_caution(&h.ingredient_tags),
        })
        .collect()
}

impl fmt::Display for PublishedLimit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tags: Vec<String> = self.carried_by.iter().map(|tag| tag.said()).collect();
        write!(f, "{} ({}): ", tags.join(", "), self.market)?;
        if let Some(limit) = self.limit {
            write!(f, "{limit} {}; ", self.unit)?;
        }
        if let Some(dose) = self.dose {
            write!(f, "here {}; ", grouped(dose, if dose < 10.0 { 2 } else { 0 }))?;
        }
        write!(f, "{}; {}", self.rule, self.applies_to)
    }
}
