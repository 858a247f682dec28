//! What happened to a lot: one line of the book.

use std::borrow::Cow;
use std::sync::Arc;

use chrono::{DateTime, Datelike, Days, NaiveDate, Utc};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

use crate::card::TargetKind;
use crate::input::{NO_DAY, YEARS};
use crate::vocabulary::PhBy;

pub use super::part_used::{PartFrom, PartUsed};

pub use super::cause::{DiscardCause, Sign};

/// One event. It is never changed: a later event withdraws it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Event {
    /// Unique over all writers.
    pub id: String,
    /// When it was written, UTC.
    pub at: DateTime<Utc>,
    /// The offset of the house's clock from UTC at that time, minutes: what the clock on the wall showed.
    pub zone_min: i32,
    /// The lot that it is of.
    pub lot: String,
    /// What happened.
    #[serde(flatten)]
    pub happened: Happened,
}

/// What every line says.
#[derive(Deserialize)]
struct EventHead<'a> {
    id: String,
    #[serde(deserialize_with = "of_a_calendar")]
    at: DateTime<Utc>,
    #[serde(default, deserialize_with = "of_a_clock")]
    zone_min: i32,
    lot: String,
    #[serde(borrow)]
    what: Cow<'a, str>,
}

impl Event {
    /// An event from its line. A recording is most of a book and read by itself: what is only found behind its word would be
    /// kept twice on the way.
    ///
    /// # Errors
    /// Where the line is none.
    pub fn of_line(line: &[u8]) -> serde_json::Result<Self> {
        let EventHead { id, at, zone_min, lot, what } = serde_json::from_slice(line)?;
        let happened = match what.as_ref() {
            RECORDED => Happened::Recorded(serde_json::from_slice(line)?),
            _ => serde_json::from_slice(line)?,
        };
        Ok(Self { id, at, zone_min, lot, happened })
    }
}

/// A time or a day from which days can be counted: in a line that somebody wrote by hand it may be any.
fn of_a_calendar<'de, D: Deserializer<'de>, T: Deserialize<'de> + Datelike>(reader: D) -> Result<T, D::Error> {
    let at = T::deserialize(reader)?;
    if YEARS.contains(&at.year()) { Ok(at) } else { Err(D::Error::custom(format!("a date is {NO_DAY}"))) }
}

/// An offset of less than a day (RFC 3339, section 5.6).
fn of_a_clock<'de, D: Deserializer<'de>>(reader: D) -> Result<i32, D::Error> {
    let minutes = i32::deserialize(reader)?;
    let is_one = minutes.unsigned_abs() < 24 * 60;
    if is_one { Ok(minutes) } else { Err(D::Error::custom("`zone_min` is a day or more: no clock is so far from UTC")) }
}

/// How a line says that it is a recording: the word of [`Happened::Recorded`].
pub(super) const RECORDED: &str = "recorded";

/// What happened.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum Happened {
    /// It was made.
    Recorded(Arc<Recorded>),
    /// Somebody looked at it and tasted it.
    Tasted {
        /// How it was.
        taste: Taste,
        /// What was wrong.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        signs: Vec<Sign>,
        /// In the taster's words.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        note: Option<String>,
    },
    /// The bottle was opened.
    Opened {
        /// The day that its date then is.
        use_by: UseBy,
    },
    /// It was put into another store: also frozen, also thawed.
    Moved {
        /// The store.
        to: String,
        /// Whether the clock stops there.
        frozen: bool,
        /// The day that its date then is.
        use_by: UseBy,
    },
    /// A label of it was printed.
    Labelled(OnLabel),
    /// All of it went over the bar while it was good.
    UsedUp,
    /// It was thrown away.
    Discarded {
        /// In the words of who did it.
        why: String,
        /// Which of the causes that is; none where nobody has said it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        cause: Option<DiscardCause>,
    },
    /// What was not known of a part when the lot was made.
    Told {
        /// The part.
        part: String,
        /// Where it is from.
        from: PartFrom,
        /// The day that its date then is.
        use_by: UseBy,
    },
    /// The house takes as its quality date what the lots of this one's recipe bear in its store.
    Accepted {
        /// Whole days.
        days: u32,
    },
    /// An earlier event was wrong.
    Withdrawn {
        /// Its id.
        event: String,
        /// Why.
        why: String,
        /// Who says so.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by: Option<String>,
    },
}

/// A date as the rules give it, or why there is none.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct UseBy {
    /// The last day; `None`: see `refused`, or it is in the freezer.
    pub day: Option<NaiveDate>,
    /// Whether it is only better before that day.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub best_before: bool,
    /// The rule that decided, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub because: Option<String>,
    /// Why there is no date.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub refused: Option<String>,
    /// Days that are left when it is thawed, while it is in the freezer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub days_left_when_thawed: Option<u64>,
    /// The day after which its quality is lost in the freezer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thaw_by: Option<NaiveDate>,
    /// There is no date only because a day is not told: once it is, there may be one.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub not_told: bool,
}

impl UseBy {
    /// The same once it is opened on a day, for so many days; `None`: opened it has no date.
    pub(super) fn once_opened(self, on: NaiveDate, days: Option<u32>, because: &str) -> Self {
        let Some(days) = days else { return Self { refused: Some(because.to_owned()), ..Self::default() } };
        let last = on.checked_add_days(Days::new(u64::from(days).saturating_sub(1)));
        match last.filter(|last| self.day.is_none_or(|day| *last < day)) {
            Some(_) if self.refused.is_some() => self,
            Some(day) => Self { day: Some(day), because: Some(format!("once opened: {because}")), ..self },
            None => self,
        }
    }
}

/// What the last label of a lot said that may change after it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OnLabel {
    /// Its last day; none in the freezer.
    pub day: Option<NaiveDate>,
    /// Days that were left, in the freezer.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub days_left_when_thawed: Option<u64>,
    /// Its allergens.
    pub allergens: Vec<String>,
    /// The content hash of all its words.
    #[serde(default)]
    pub hash: String,
}

/// A batch as it was made, with the sheet that it was made from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Recorded {
    /// The product.
    pub product: String,
    /// The content hash under which card, larder and program version are kept.
    pub sheet: String,
    /// The content hash of the cards and of what their ingredients were taken to be: lots of one recipe teach of each other,
    /// whatever a price or a scale of the house was.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub recipe: String,
    /// The day on which it was finished.
    #[serde(deserialize_with = "of_a_calendar")]
    pub made: NaiveDate,
    /// Grams.
    pub mass_g: f64,
    /// Whether that was weighed, and not only computed.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub weighed: bool,
    /// Millilitres at 20 °C.
    pub volume_ml: Option<f64>,
    /// How many containers, and what each holds, millilitres.
    pub filled: Option<(u32, f64)>,
    /// Of them, how many are kept to be tasted and not for service.
    #[serde(default, skip_serializing_if = "is_none")]
    pub kept_back: u32,
    /// Who made it.
    pub maker: Option<String>,
    /// Where it is kept.
    pub store: String,
    /// What went in.
    pub parts: Vec<PartUsed>,
    /// How many fruits gave a juice of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pressed: Vec<Pressed>,
    /// What was read of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<BatchReading>,
    /// Its date in that store.
    pub use_by: UseBy,
    /// Whether its count runs from its oldest part, and goes on in what it goes into: it needs control, or holds raw juice. `None` in a
    /// line of an old book.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub needs_cold: Option<bool>,
    /// Its allergens.
    pub allergens: Vec<String>,
    /// Of whom nobody has stated theirs.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub allergens_not_stated: Vec<String>,
    /// Its strength, % vol.
    pub abv_pct: Option<f64>,
}

impl Recorded {
    /// Its amounts that are below zero, or no number: none of them can be.
    pub fn below_zero(&self) -> Vec<String> {
        let of = |what: &str, value: f64| (what.to_owned(), value);
        let own =
            [("mass", Some(self.mass_g)), ("volume", self.volume_ml), ("container", self.filled.map(|(_, ml)| ml))];
        let own = own.into_iter().chain([("abv", self.abv_pct)]).filter_map(|(what, value)| Some(of(what, value?)));
        let parts = self.parts.iter().map(|part| of(&part.of, part.mass_g));
        let pressed = self.pressed.iter().map(|pressed| of(&pressed.of, pressed.pieces));
        let read = self.readings.iter().map(|read| of(read.of.key(), read.value));
        let wrong = own.chain(parts).chain(pressed).chain(read).filter(|(_, value)| !can_be(value));
        wrong.map(|(what, value)| format!("{what} {value}")).collect()
    }

    /// Has nothing in the place of an amount that cannot be.
    pub(super) fn without_below_zero(&mut self) {
        let settle = |value: &mut f64| *value = if can_be(value) { *value } else { 0.0 };
        settle(&mut self.mass_g);
        self.parts.iter_mut().for_each(|part| settle(&mut part.mass_g));
        self.volume_ml = self.volume_ml.filter(can_be);
        self.abv_pct = self.abv_pct.filter(can_be);
        self.filled = self.filled.filter(|(_, ml)| can_be(ml));
        self.pressed.retain(|pressed| can_be(&pressed.pieces));
        self.readings.retain(|read| can_be(&read.value));
    }
}

/// Whether it may be an amount: neither below zero nor no number.
fn can_be(value: &f64) -> bool {
    *value >= 0.0
}

fn is_none(count: &u32) -> bool {
    *count == 0
}

/// How many fruits gave a juice.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pressed {
    /// What the card calls the juice.
    pub of: String,
    /// Fruits.
    pub pieces: f64,
}

/// One reading of a batch.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BatchReading {
    /// Of what: brix, abv, acid, ph.
    #[serde(with = "by_key")]
    pub of: TargetKind,
    /// In the unit of its kind.
    pub value: f64,
    /// With which instrument, of a pH.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<PhBy>,
}

/// A target by its key.
mod by_key {
    use serde::{Deserialize, Deserializer, Serializer, de::Error};

    use crate::card::TargetKind;

    pub(super) fn serialize<S: Serializer>(kind: &TargetKind, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(kind.key())
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<TargetKind, D::Error> {
        let key = String::deserialize(deserializer)?;
        TargetKind::from_key(&key)
            .ok_or_else(|| D::Error::custom(format!("`{key}` is nothing that is read of a batch")))
    }
}

crate::vocabulary::words! {
    /// How a lot was when it was tasted.
    Taste, "taste":
    Fine = "fine",
    Going = "going",
    Off = "off",
}
