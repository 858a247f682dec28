//! Where a card with room landed, which ends and bounds decide it, and what one point more would cost.

use serde::Serialize;

use crate::card::{Landed, LandedPart, LandedRange, OneMore, TargetKind};

/// What was chosen.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct RoomView {
    pub(crate) aim: Option<String>,
    /// What that comes to, with its unit.
    pub(crate) comes_to: Option<String>,
    pub(crate) targets: Vec<TargetRangeView>,
    pub(crate) parts: Vec<BoundView>,
    /// Parts that are not needed for it.
    pub(crate) without: Vec<String>,
    /// Lots that end soon and are to be used up in it.
    pub(crate) use_up: Vec<String>,
    pub(crate) one_more_point: Vec<OneMoreView>,
    /// What was counted, and how it was chosen.
    pub(crate) how: Vec<String>,
    /// Which of equal answers is taken: "the cheapest".
    pub(crate) of_equals: &'static str,
    /// More sugar would not stay dissolved in its store, and so there is no more.
    pub(crate) no_more_stays_dissolved: bool,
}

/// A target with room, in the unit of its kind.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct TargetRangeView {
    pub(crate) of: TargetKind,
    pub(crate) least: Option<f64>,
    pub(crate) most: Option<f64>,
    pub(crate) value: f64,
    /// The end that decides the answer.
    pub(crate) binds: Option<RangeEnd>,
    /// Anywhere else in the range would be as good.
    pub(crate) is_tie: bool,
    /// How far inside that end it stays, so that a batch lies within the range though neither scale nor larder tells all.
    pub(crate) margin: Option<f64>,
}

/// A part with bounds, as they are written.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct BoundView {
    pub(crate) of: String,
    pub(crate) at_least: Option<String>,
    pub(crate) at_most: Option<String>,
    /// The bound that decides the answer.
    pub(crate) binds: Option<RangeEnd>,
}

/// An end of a range or a bound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum RangeEnd {
    Least,
    Most,
}

/// What it adds to move a range that binds by a point.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(crate) struct OneMoreView {
    pub(crate) of: TargetKind,
    pub(crate) step: f64,
    pub(crate) adds: String,
}

impl RangeEnd {
    fn of([least, most]: [bool; 2]) -> Option<Self> {
        least.then_some(Self::Least).or(most.then_some(Self::Most))
    }
}

impl From<&Landed> for RoomView {
    fn from(landed: &Landed) -> Self {
        let range = |LandedRange { range, value, binds, is_tie, margin, inside: _ }: &LandedRange| TargetRangeView {
            of: range.kind,
            least: range.least,
            most: range.most,
            value: *value,
            binds: RangeEnd::of(*binds),
            is_tie: *is_tie,
            margin: *margin,
        };
        let part = |LandedPart { label, written: [at_least, at_most], binds }: &LandedPart| BoundView {
            of: label.clone(),
            at_least: at_least.clone(),
            at_most: at_most.clone(),
            binds: RangeEnd::of(*binds),
        };
        let one_more =
            |OneMore { kind, step, adds }: &OneMore| OneMoreView { of: *kind, step: *step, adds: adds.clone() };
        Self {
            aim: landed.aim.map(crate::card::Aim::words),
            comes_to: landed.comes_to.clone(),
            targets: landed.ranges.iter().map(range).collect(),
            parts: landed.parts.iter().map(part).collect(),
            without: landed.without.clone(),
            use_up: landed.use_up.clone(),
            one_more_point: landed.one_more.iter().map(one_more).collect(),
            how: landed.how.clone(),
            of_equals: landed.of_equals,
            no_more_stays_dissolved: landed.stays_dissolved,
        }
    }
}
