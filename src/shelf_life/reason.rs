//! The words of a verdict: the one rule that decided, what else must be said, what kind of date it is.

use std::fmt;

use serde::{Serialize, Serializer};

use crate::vocabulary::ProductClass;

use super::ceilings::Tier;
use super::refusal::HeldBy;

/// The rule that decided.
#[derive(Clone, Debug, PartialEq)]
pub enum DateRule {
    /// The legal limit of food that needs control.
    FoodCode {
        /// Why it holds.
        held: HeldBy,
        /// Days.
        days: u32,
        /// The warmest store.
        max_c: f64,
        /// Whose limit it is.
        code: CodeOf,
    },
    /// A limit on everything, from the authority of the place.
    LocalCode {
        /// Days.
        days: u32,
        /// Who entered it, when and from where, if that was said.
        entered: Option<String>,
    },
    /// The figure of a class.
    Class {
        /// Which.
        class: ProductClass,
        /// How good it is.
        tier: Tier,
    },
    /// A lot that spoiled.
    SpoiledLot,
    /// The growth model.
    Growth {
        /// The organism that is first most often.
        organism: &'static str,
    },
    /// The quality model.
    Quality {
        /// What goes.
        what: &'static str,
    },
}

/// Whose limit on food that needs control holds.
#[derive(Clone, Debug, PartialEq)]
pub enum CodeOf {
    /// The published default.
    Default,
    /// The authority of the place, as the house entered it: who did, when and from where, if that was said.
    Place(Option<String>),
}

impl DateRule {
    /// Whether its words say how good its evidence is.
    pub(crate) fn names_tier(&self) -> bool {
        matches!(self, Self::Class { .. })
    }
}

/// Who entered a limit, in brackets.
fn attributed(f: &mut fmt::Formatter<'_>, entered: Option<&String>) -> fmt::Result {
    entered.map_or(Ok(()), |entered| write!(f, " ({entered})"))
}

impl fmt::Display for DateRule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FoodCode { held, days, max_c, code } => {
                let (code, entered) = match code {
                    CodeOf::Place(entered) => ("local code, as the house entered it", entered.as_ref()),
                    CodeOf::Default => ("food code", None),
                };
                write!(f, "{code}: {days} days at {max_c} °C or below, because {held}")?;
                attributed(f, entered)
            }
            Self::LocalCode { days, entered } => {
                write!(f, "local code, as the house entered it: {days} days at most")?;
                attributed(f, entered.as_ref())
            }
            Self::Class { class, tier } => write!(f, "class: what is usually quoted for {class} ({})", tier.words()),
            Self::SpoiledLot => f.write_str("lots: one spoiled at this age; discard it"),
            Self::Growth { organism } => {
                write!(f, "growth model: by then 1 bottle in 20 could be spoiled, most often by {organism}")
            }
            Self::Quality { what } => write!(f, "quality guess, learn from lots: {what}"),
        }
    }
}

/// What else must be said beside the date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Note {
    /// The spread is so wide that a middle value means nothing.
    ModelCannotTell,
    /// Growth depends on lactic bacteria: only the ceiling may be trusted.
    LacticBacteria,
    /// The model is known to be wrong for juice, on the long side.
    JuiceModelNotTrusted,
    /// `pa` by a table that ignores alcohol.
    TableIgnoresAlcohol,
    /// A limit longer or warmer than the default, or an assessment, was entered.
    HouseResponsibility,
    /// No class was named, or the product is less than its class asks for.
    ShortestThatFits,
    /// The store is warmer than any figure of the class.
    WarmerThanAnyFigure,
    /// The growth model decided below 20 % vol.
    YeastMustGetIn,
    /// Z. lentus grows at 4 °C and is not in the model.
    FridgeIsNoProof,
    /// A lot spoiled.
    DiscardTheLot,
    /// A preservative was added and earns nothing.
    PreservativeEarnsNothing,
}

impl Note {
    /// Whether it must be said even where no date is given.
    pub(crate) fn matters_without_a_date(self) -> bool {
        matches!(self, Self::DiscardTheLot | Self::HouseResponsibility | Self::PreservativeEarnsNothing)
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::ModelCannotTell => "the growth model cannot tell: its doubt is too wide for a middle value",
            Self::LacticBacteria => "depends on lactic bacteria, of which too little is known: trust the ceiling only",
            Self::JuiceModelNotTrusted => {
                "cold-loving bacteria of juice are not in the growth model: it may only shorten"
            }
            Self::TableIgnoresAlcohol => {
                "the acidity and water table ignores alcohol; no growth is reported at this strength, which is no \
                 certificate: ask before storing warm"
            }
            Self::HouseResponsibility => {
                "a limit milder than the published default, or an assessment, was entered: the house answers for it"
            }
            Self::ShortestThatFits => {
                "no class is named, or it asks for more than this has (a rich syrup 65 °Bx, a liqueur 15 % vol, a \
                 cordial less than half raw juice): the shortest figure that fits is used"
            }
            Self::WarmerThanAnyFigure => "no figure is quoted for so warm a store; a cooler one caps it",
            Self::YeastMustGetIn => "if a sugar-loving yeast got in; hot-filled and sealed lasts longer; keep it cold",
            Self::FridgeIsNoProof => "a yeast that grows at 4 °C (Z. lentus) is not in the model: a fridge is no proof",
            Self::DiscardTheLot => "a lot with gas, haze, film, mould or a swollen cap is discarded, not averaged away",
            Self::PreservativeEarnsNothing => "no verified limits: the preservative earns no day",
        }
    }
}

impl Serialize for Note {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.words())
    }
}

/// What kind of date it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// Not to be used after it.
    UseBy,
    /// Better before it.
    BestBefore,
    /// No date.
    None,
}
