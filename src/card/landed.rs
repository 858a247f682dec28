//! A target with room, an aim, and where a card with them landed.

use crate::diagnostic::Span;
use crate::properties::TargetKind;
use crate::vocabulary::{Prized, Spared, Word};

/// A target that may lie anywhere between two values, in the unit of its kind; one of them is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TargetRange {
    /// Which property.
    pub kind: TargetKind,
    /// No less than this.
    pub least: Option<f64>,
    /// No more than this.
    pub most: Option<f64>,
    /// Where it stands.
    pub span: Span,
}

/// What a card with room shall come out best in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// As little of it as can be.
    Least(Spared),
    /// As much of it as can be.
    Most(Prized),
}

impl Aim {
    /// As it is written and printed.
    pub fn words(self) -> String {
        match self {
            Self::Least(of) => format!("least {}", of.word()),
            Self::Most(of) => format!("most {}", of.word()),
        }
    }
}

/// Where a card with room landed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Landed {
    /// Its aim; none where nothing was left to choose.
    pub aim: Option<Aim>,
    /// What that comes to, for the batch that is asked for, with its unit.
    pub comes_to: Option<String>,
    /// Each range.
    pub ranges: Vec<LandedRange>,
    /// Each part with bounds.
    pub parts: Vec<LandedPart>,
    /// Parts without a bound that stand at nothing.
    pub without: Vec<String>,
    /// Lots that are to be used up in it, as they are said.
    pub use_up: Vec<String>,
    /// What one point more of a range that binds would cost.
    pub one_more: Vec<OneMore>,
    /// How it was chosen, where that has to be said.
    pub how: Vec<String>,
    /// Which of equal answers is taken, in words.
    pub of_equals: &'static str,
    /// Whether more sugar would not stay dissolved in its store, and so there is no more.
    pub stays_dissolved: bool,
}

/// Where a target with room landed, in the unit of its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LandedRange {
    /// What was asked.
    pub range: TargetRange,
    /// The same with the ends moved inside by what cannot be told of a batch.
    pub inside: TargetRange,
    /// Where it landed.
    pub value: f64,
    /// Whether its lower, its upper end decides the answer.
    pub binds: [bool; 2],
    /// Whether it stands at an end and anywhere else in the range would be as good.
    pub is_tie: bool,
    /// How far inside that end it stays, for what cannot be told of a batch.
    pub margin: Option<f64>,
}

/// Where a part with bounds landed.
#[derive(Clone, Debug, PartialEq)]
pub struct LandedPart {
    /// What the card calls it.
    pub label: String,
    /// Its bounds as they are written.
    pub written: [Option<String>; 2],
    /// Whether its lower, its upper bound decides the answer.
    pub binds: [bool; 2],
}

/// What it costs to move the end of a range that binds, found by solving again.
#[derive(Clone, Debug, PartialEq)]
pub struct OneMore {
    /// Which target.
    pub kind: TargetKind,
    /// By how much it was moved, in the unit of its kind.
    pub step: f64,
    /// What that adds to what the aim counts, with its unit; below nothing where it saves.
    pub adds: String,
}
