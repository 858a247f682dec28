//! The closed lists of words that cards, houses and the embedded tables use: one enum a list, one table each. Reading,
//! printing and "did you mean" come from the table, so that nothing is ever decided on a text.

use std::cmp::Ordering;
use std::fmt;

use serde::{Deserialize, Deserializer, Serialize, de};

mod aim;
mod allergen;
mod counted_drink;
mod evidence;
mod food;
mod how;
mod kind;
mod market;
mod measure_system;
mod portion;
mod process;
mod product_class;
mod qualifier;
pub(crate) mod table;
mod tag;

pub use aim::{Prized, Spared};
pub use allergen::Allergen;
pub(crate) use counted_drink::CountedDrink;
pub use evidence::{Evidence, Status};
pub use food::{FoodStatement, NoStatement};
pub(crate) use food::{misnomer, warned};
pub use how::{DrinkHow, GoesInAfter, IceKind};
pub use kind::Kind;
pub(crate) use market::or_all;
pub use market::{Market, Scope};
pub use measure_system::MeasureSystem;
pub use portion::Portion;
pub use process::{Bubbles, Container, Fill, PhBy, Process, StatedProcess, Washed};
pub use product_class::ProductClass;
pub(crate) use product_class::{is_general, is_made};
pub(crate) use qualifier::is_qualifier;
pub use tag::Tag;

/// A word of a closed list.
pub trait Word: Copy + Eq + Ord + 'static {
    /// What the words of the list are, for messages ("process").
    const WHAT: &'static str;
    /// The whole list, in its order.
    const ALL: &'static [Self];

    /// The word as it is written and printed.
    fn word(self) -> &'static str;

    /// Other spellings that are read as the same.
    fn also(self) -> &'static [&'static str];

    /// The word that is written here; capitals and spaces around it do not matter.
    fn parse(written: &str) -> Option<Self> {
        let written = written.trim();
        if let Some(same) = Self::ALL.iter().find(|w| w.word() == written) {
            return Some(*same);
        }
        let other_capitals = |word: &str| !written.is_ascii() && word.to_lowercase() == written.to_lowercase();
        let is = |word: &&str| word.eq_ignore_ascii_case(written) || other_capitals(word);
        Self::ALL.iter().copied().find(|w| is(&w.word()) || w.also().iter().any(is))
    }

    /// The word that was probably meant.
    fn nearest(written: &str) -> Option<Self> {
        crate::spelling::nearest(written, Self::words()).and_then(Self::parse)
    }

    /// All words of the list.
    fn words() -> impl Iterator<Item = &'static str> {
        Self::ALL.iter().map(|w| w.word())
    }

    /// The word in a sentence: without underscores.
    fn said(self) -> String {
        self.word().replace('_', " ")
    }
}

/// A closed list from its table: variant, word, other spellings.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident, $what:literal: $($variant:ident = $word:literal $(| $also:literal)*,)*) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        #[allow(missing_docs)]
        pub enum $name {
            $($variant,)*
        }

        impl $crate::vocabulary::Word for $name {
            const WHAT: &'static str = $what;
            const ALL: &'static [Self] = &[$(Self::$variant,)*];

            fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)* }
            }

            fn also(self) -> &'static [&'static str] {
                match self { $(Self::$variant => &[$($also,)*],)* }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.pad($crate::vocabulary::Word::word(*self))
            }
        }

        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str($crate::vocabulary::Word::word(*self))
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                $crate::vocabulary::read_known(deserializer)
            }
        }
    };
}
pub(crate) use words;

/// A word of an embedded table: one that the list does not have is an error.
pub(crate) fn read_known<'de, T: Word, D: Deserializer<'de>>(deserializer: D) -> Result<T, D::Error> {
    let written = String::deserialize(deserializer)?;
    T::parse(&written).ok_or_else(|| de::Error::custom(format!("no {} is called `{written}`", T::WHAT)))
}

/// A word of a list that a maker may add to. What the list does not know is kept as it was written: nothing that
/// somebody stated is lost. Ordered as it is printed.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(untagged)]
pub enum Open<T> {
    /// A word of the list.
    Known(T),
    /// Any other.
    Other(String),
}

impl<T: Word> Open<T> {
    /// Reads a word; any text is one.
    pub fn read(written: &str) -> Self {
        T::parse(written).map_or_else(|| Self::Other(written.to_owned()), Self::Known)
    }

    /// The word as it is printed.
    pub fn as_str(&self) -> &str {
        match self {
            Self::Known(word) => word.word(),
            Self::Other(written) => written,
        }
    }

    pub(crate) fn known(&self) -> Option<T> {
        match self {
            Self::Known(word) => Some(*word),
            Self::Other(_) => None,
        }
    }

    /// The word in a sentence: without underscores.
    pub(crate) fn said(&self) -> String {
        self.as_str().replace('_', " ")
    }
}

impl<T: Word> AsRef<str> for Open<T> {
    fn as_ref(&self) -> &str {
        self.as_str()
    }
}

impl<T> From<T> for Open<T> {
    fn from(word: T) -> Self {
        Self::Known(word)
    }
}

impl<T: Word> PartialEq<T> for Open<T> {
    fn eq(&self, other: &T) -> bool {
        self.known() == Some(*other)
    }
}

impl<T: Word> Ord for Open<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.as_str().cmp(other.as_str())
    }
}

impl<T: Word> PartialOrd for Open<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T: Word> fmt::Display for Open<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.as_str())
    }
}
