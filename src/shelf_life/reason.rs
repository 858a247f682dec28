//! The words of a verdict: the one rule that decided, what else must be said, what kind of date it is.

use std::fmt;

use serde::{Serialize, Serializer};

use super::hurdles::Hurdles;
use super::staling::{Stale, Tier};

/// Why a product needs control.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ControlBecause {
    /// Its pH is not known, and a low one would do.
    PhUnknown,
    /// Its pH, water activity and strength do not rule out growth.
    Hurdles,
}

impl ControlBecause {
    pub(crate) fn of(hurdles: &Hurdles) -> Self {
        if hurdles.ph_up.is_none() { Self::PhUnknown } else { Self::Hurdles }
    }
}

impl fmt::Display for ControlBecause {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::PhUnknown => "its pH is not known",
            Self::Hurdles => "its acid, sugar and strength do not rule out growth",
        })
    }
}

/// The rule that decided.
#[derive(Clone, Debug, PartialEq)]
pub enum DateRule {
    /// The legal limit of food that needs control.
    Control {
        /// Why it holds.
        because: ControlBecause,
        /// Days.
        days: u32,
        /// The warmest store, °C.
        max_c: f64,
        /// Who entered another limit, when and from where; `None` for the published default.
        entered: Option<String>,
    },
    /// A limit of the authority for what needs no control, as the house entered it.
    LocalCode {
        /// Days.
        days: u32,
        /// Who, when and where it is written.
        entered: String,
    },
    /// A lot that spoiled.
    SpoiledLot,
    /// The house's own lots, as the house has accepted them.
    OfLots {
        /// How many.
        lots: usize,
    },
    /// Growth of yeast or lactic bacteria: by then one lot in ten of all lots.
    Growth {
        /// The organism that is first most often.
        organism: &'static str,
    },
    /// It is no longer good.
    Stale(Stale),
}

impl DateRule {
    pub(crate) fn tier(&self) -> Tier {
        match self {
            Self::Control { .. } | Self::LocalCode { .. } => Tier::Law,
            Self::SpoiledLot | Self::OfLots { .. } => Tier::House,
            Self::Growth { .. } => Tier::Assumed,
            Self::Stale(what) => what.tier(),
        }
    }
}

impl fmt::Display for DateRule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Control { because, days, max_c, entered } => {
                write!(f, "{because}: {days} days at {max_c} °C or below, day made = day 1 ")?;
                match entered {
                    Some(entered) => write!(f, "(local code, as the house entered it: {entered})"),
                    None => f.write_str("(Food Code 3-501.17)"),
                }
            }
            Self::LocalCode { days, entered } => {
                write!(f, "local code, as the house entered it: {days} days, day made = day 1 ({entered})")
            }
            Self::SpoiledLot => f.write_str("a lot of it spoiled at this age"),
            Self::OfLots { lots } => write!(f, "{lots} lots of the house say so, and the house accepted it"),
            Self::Growth { organism } => {
                write!(
                    f,
                    "in 1 of 10 of all lots {organism} may show by then: bubbles, sour smell; throw that one away"
                )
            }
            Self::Stale(what) => f.write_str(what.words()),
        }
    }
}

/// What else must be said beside the date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Note {
    /// The screen rests on alcohol, which the tables of the Food Code give no credit.
    ByAlcohol,
    /// A limit longer or warmer than the default, or an assessment, was entered and counts.
    HouseResponsibility,
    /// A lot spoiled.
    DiscardTheLot,
    /// It stood warm before it was bottled, which took much of its life.
    StoodWarm,
    /// It is dated with the water that may still go in.
    WithMoreWater,
    /// Z. lentus grows at 4 °C and is not in the model.
    FridgeIsNoProof,
}

impl Note {
    /// Whether it must be said even where no date is given.
    pub(crate) fn matters_without_a_date(self) -> bool {
        matches!(self, Self::DiscardTheLot | Self::HouseResponsibility)
    }

    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Self::ByAlcohol => {
                "not by the Food Code tables, which give alcohol no credit; by published growth limits; your authority \
                 may see it otherwise"
            }
            Self::HouseResponsibility => {
                "a limit milder than the published default, or an assessment, was entered: the house answers for it"
            }
            Self::DiscardTheLot => "a lot with gas, haze, film, mould or a swollen cap is discarded, not averaged away",
            Self::WithMoreWater => "dated with all the water that may still go in, to taste (more_water)",
            Self::StoodWarm => {
                "it stood warm before it was bottled, which is much of its life: of a stage that stands in the fridge write \
                 at = \"4 °C\""
            }
            Self::FridgeIsNoProof => "a yeast that grows at 4 °C (Z. lentus) is not in the model: a fridge is no proof",
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
