//! What was wrong with a lot: the signs that a taster names, why it was thrown away, and why nobody is to use it.

use std::fmt;

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use crate::spelling::name_words;
use crate::vocabulary::Word;

crate::vocabulary::words! {
    /// What can be wrong with a lot.
    Sign, "sign":
    Gas = "gas" | "fizzy",
    Haze = "haze" | "hazy" | "cloudy",
    Film = "film",
    Mould = "mould" | "mold" | "mouldy" | "moldy",
    Swollen = "swollen cap",
    Sour = "sour",
    Stale = "stale",
    Faded = "faded",
    Crystals = "crystals",
}

impl Sign {
    /// Whether something grew: then the product is pulled below that age at once, and the lot is discarded.
    pub fn is_growth(self) -> bool {
        matches!(self, Self::Gas | Self::Haze | Self::Film | Self::Mould | Self::Swollen)
    }
}

crate::vocabulary::words! {
    /// Why a lot is thrown away, where no sign says it.
    Reason, "reason":
    Off = "off" | "spoiled" | "spoilt" | "rotten" | "smells",
    Unsafe = "unsafe" | "contaminated" | "foreign body",
    PastItsDate = "past its date" | "out of date",
    Spilt = "spilt" | "spilled" | "dropped" | "smashed" | "breakage",
    NotNeeded = "not needed" | "left over",
}

/// Why a lot was thrown away, as far as it decides whether what it went into goes with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum DiscardCause {
    /// What was seen in it.
    Sign(Sign),
    /// What else it was.
    Reason(Reason),
}

impl DiscardCause {
    /// Whether what it went into goes with it. Stale, faded and crystals are a matter of taste.
    pub fn pulls(self) -> bool {
        match self {
            Self::Sign(sign) => sign.is_growth() || sign == Sign::Sour,
            Self::Reason(reason) => matches!(reason, Reason::Off | Reason::Unsafe),
        }
    }

    /// The sign that was seen, where it is one.
    pub fn sign(self) -> Option<Sign> {
        match self {
            Self::Sign(sign) => Some(sign),
            Self::Reason(_) => None,
        }
    }

    /// The word of it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Sign(sign) => sign.word(),
            Self::Reason(reason) => reason.word(),
        }
    }

    fn all() -> impl Iterator<Item = Self> {
        let reasons = Reason::ALL.iter().copied().map(Self::Reason);
        Sign::ALL.iter().copied().map(Self::Sign).chain(reasons)
    }

    /// The words that pull, or those that do not.
    pub fn words(pulls: bool) -> Vec<&'static str> {
        Self::all().filter(|cause| cause.pulls() == pulls).map(Self::word).collect()
    }

    /// The cause that a reason states. One that pulls may stand anywhere in it ("the film on it"), where it is not denied; one
    /// that does not has to be all of it, or stand before a colon. `None`: nobody has said it.
    pub fn read(why: &str) -> Option<Self> {
        let said = name_words(why);
        let is_in = |word: &&str| {
            let phrase = name_words(word);
            said.windows(phrase.len())
                .any(|words| words.iter().zip(&phrase).all(|(word, of)| word.text == of.text && !word.denied))
        };
        let spoken = |cause: &Self| {
            let also = match cause {
                Self::Sign(sign) => sign.also(),
                Self::Reason(reason) => reason.also(),
            };
            [cause.word()].iter().chain(also).any(is_in)
        };
        let head = why.split(':').next().unwrap_or_default();
        let harmless = || Sign::parse(head).map(Self::Sign).or_else(|| Reason::parse(head).map(Self::Reason));
        Self::all().filter(|cause| cause.pulls()).find(spoken).or_else(harmless)
    }
}

/// Why nobody is to use a lot any more.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PulledFor {
    /// Something grew in it.
    Growth {
        /// What was seen.
        sign: Sign,
        /// On which day.
        on: NaiveDate,
    },
    /// It was found off.
    Off {
        /// On which day.
        on: NaiveDate,
    },
    /// It was thrown away for what pulls.
    Thrown {
        /// Why.
        cause: DiscardCause,
        /// On which day.
        on: NaiveDate,
    },
    /// It was thrown away before its date, and nobody said for what: it may be anything.
    NotSaid {
        /// On which day.
        on: NaiveDate,
    },
    /// It was used up, and what was wrong with it was told after that; of `None` it may be anything.
    AfterUse {
        /// What was wrong.
        cause: Option<DiscardCause>,
        /// On which day that was told.
        on: NaiveDate,
    },
    /// A lot is in it that was pulled, through whatever it went into.
    Holds {
        /// That lot.
        lot: String,
        /// Why it was pulled.
        why: Box<Self>,
    },
}

impl PulledFor {
    /// What follows for a lot that was used up from what is told of it after that.
    pub(super) fn after_use(cause: Option<DiscardCause>, on: NaiveDate) -> Option<Self> {
        cause.is_none_or(DiscardCause::pulls).then_some(Self::AfterUse { cause, on })
    }

    /// The day on which it was seen.
    pub fn on(&self) -> NaiveDate {
        match self {
            Self::Growth { on, .. }
            | Self::Off { on }
            | Self::Thrown { on, .. }
            | Self::NotSaid { on }
            | Self::AfterUse { on, .. } => *on,
            Self::Holds { why, .. } => why.on(),
        }
    }

    /// In a word or two, for a column.
    pub fn short(&self) -> String {
        match self {
            Self::Growth { sign, .. } => sign.word().to_owned(),
            Self::Off { .. } => Reason::Off.word().to_owned(),
            Self::Thrown { cause, .. } => cause.word().to_owned(),
            Self::NotSaid { .. } => "thrown away, nobody said why".to_owned(),
            Self::AfterUse { cause, .. } => cause.map_or("pulled", DiscardCause::word).to_owned(),
            Self::Holds { lot, why } => format!("holds {lot}: {}", why.short()),
        }
    }
}

impl fmt::Display for PulledFor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let on = self.on().format("%a %-d %b %Y");
        match self {
            Self::Growth { sign, .. } => write!(f, "something grew in it: {sign}, seen on {on}"),
            Self::Off { .. } => write!(f, "it was found off on {on}"),
            Self::Thrown { cause, .. } => write!(f, "it was thrown away on {on}: {}", cause.word()),
            Self::NotSaid { .. } => {
                write!(f, "it was thrown away on {on}, before its date, and nothing that was said clears it")
            }
            Self::AfterUse { cause: Some(cause), .. } => {
                write!(f, "it was pulled on {on}, after it was used up: {}", cause.word())
            }
            Self::AfterUse { cause: None, .. } => {
                write!(f, "it was pulled on {on}, after it was used up, and nothing that was said clears it")
            }
            Self::Holds { lot, why } => write!(f, "lot {lot} is in it, and of that {why}"),
        }
    }
}
