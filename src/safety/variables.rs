//! The variables of the triggers by their names, and the one place each comes from.

use crate::vocabulary::{Tag, Word};

use super::facts::{Fact, FactOrigin, Facts, Flag, Member, Quantity};
use super::members::Members;

/// A variable of the trigger language.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs)]
pub enum Variable {
    Quantity(Quantity),
    Flag(Flag),
    Tcs,
    TcsWithoutAcid,
    Storage,
    Tags,
    Allergens,
    Process,
    Market,
}

impl Variable {
    /// Every variable.
    pub fn all() -> impl Iterator<Item = Self> {
        let words = [Self::Tcs, Self::TcsWithoutAcid, Self::Storage];
        let sets = [Self::Market, Self::Tags, Self::Allergens, Self::Process];
        let quantities = Quantity::ALL.iter().map(|&q| Self::Quantity(q));
        quantities.chain(Flag::ALL.iter().map(|&f| Self::Flag(f))).chain(words).chain(sets)
    }

    /// The variable with this name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::all().find(|v| v.name() == name)
    }

    /// Its name in a trigger.
    pub fn name(self) -> &'static str {
        match self {
            Self::Quantity(quantity) => quantity.name(),
            Self::Flag(flag) => flag.name(),
            Self::Tcs => "tcs",
            Self::TcsWithoutAcid => "tcs_no_acid",
            Self::Storage => "storage",
            Self::Tags => "tags",
            Self::Allergens => "allergens",
            Self::Process => "process",
            Self::Market => "market",
        }
    }

    /// What it is, for "not stated: …".
    pub fn asked(self) -> &'static str {
        match self {
            Self::Quantity(quantity) => quantity.asked(),
            Self::Flag(flag) => flag.asked(),
            Self::Tcs => "the class of the pH and water activity table",
            Self::TcsWithoutAcid => "the class that it would have without the added acid",
            Self::Storage => "where it is kept",
            Self::Tags => "what the ingredients are",
            Self::Allergens => "the allergens of the ingredients",
            Self::Process => "how it is made and packed",
            Self::Market => "the market (in house.toml: [house] market = \"UK\")",
        }
    }

    /// The one place it comes from.
    pub(crate) fn origin(self) -> FactOrigin {
        match self {
            Self::Quantity(quantity) => quantity.origin(),
            Self::Flag(flag) => flag.origin(),
            Self::Tcs | Self::TcsWithoutAcid => FactOrigin::Computed,
            Self::Storage | Self::Market => FactOrigin::House,
            Self::Tags | Self::Allergens => FactOrigin::Larder,
            Self::Process => FactOrigin::Card,
        }
    }
}

impl Facts {
    /// Makes a fact unknown.
    pub fn forget(&mut self, variable: Variable) {
        match variable {
            Variable::Quantity(quantity) => *self.number_mut(quantity) = Fact::Unknown,
            Variable::Flag(flag) => *self.flag_mut(flag) = Fact::Unknown,
            Variable::Tcs => self.tcs = Fact::Unknown,
            Variable::TcsWithoutAcid => self.tcs_no_acid = Fact::Unknown,
            Variable::Storage => self.storage = Fact::Unknown,
            Variable::Tags => self.tags = Members::default(),
            Variable::Allergens => self.allergens = Members::default(),
            Variable::Process => self.process = Members::default(),
            Variable::Market => self.market.clear(),
        }
    }
}

/// What has to be stated of a thing whose name leaves it open, in words.
pub(crate) fn ask_of(name: &str, tag: Tag) -> String {
    match tag {
        Tag::ForagedUnsure => format!("whether an expert has named the foraged plant `{name}`"),
        tag => format!("whether `{name}` is or holds {}", tag.said()),
    }
}

/// What has to be stated, in words.
pub(crate) fn ask(variable: Variable, member: Option<&Member>) -> String {
    match member {
        Some(Member::Process(process)) => format!("whether it is {}", process.asked()),
        Some(Member::Tag(Tag::ForagedUnsure)) => "whether an expert has named the foraged plant".to_owned(),
        Some(Member::Tag(tag)) => format!("whether an ingredient is or holds {}", tag.said()),
        _ => variable.asked().to_owned(),
    }
}
