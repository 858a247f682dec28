//! `swap`: a card with another part in it, and what that changes.

use serde::Serialize;

use crate::assessment::swapped::SwapJudgement;
use crate::card::TargetKind;
use crate::house::House;
use crate::properties::Properties;
use crate::safety::Caution;
use crate::solver::Solved;
use crate::solver::swap::Swapped;
use crate::units::celsius;

use super::parts::{AmountView, BatchView, PartView, parts};
use super::{Report, View};

pub(crate) type SwapReport = Report<SwapView>;

#[derive(Clone, Debug, Serialize)]
pub(crate) struct SwapView {
    pub(crate) swap: Exchange,
    pub(crate) before: BatchView,
    /// The parts of the new card.
    pub parts: Vec<PartView>,
    #[serde(rename = "yield")]
    pub(crate) yields: AmountView,
    /// Its properties at 20 °C.
    pub properties: Properties,
    /// Old and new beside each other, part by part.
    pub lines: Vec<SwapLine>,
    pub(crate) allergens: SwapJudgement,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct Exchange {
    pub(crate) old: String,
    pub(crate) new: String,
    pub(crate) kept: Vec<TargetKind>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct SwapLine {
    pub(crate) stage: Option<String>,
    pub of: String,
    pub(crate) old_g: Option<f64>,
    pub(crate) new_g: Option<f64>,
}

impl View for SwapView {
    const VERB: &'static str = "swap";
    const KEYS: &'static str = "swap before parts yield properties lines allergens";

    fn stops(&self) -> bool {
        self.allergens.stops.iter().any(Caution::stops)
    }
}

impl SwapView {
    pub(crate) fn new(swapped: &Swapped, judged: &SwapJudgement, house: &House) -> Self {
        let properties = |solved: &Solved| {
            Properties::of_mixture(solved.bottled(), celsius(20.0), house.settings.altitude.unwrap_or_default())
        };
        let (before, after) = (&swapped.before, &swapped.after);
        Self {
            swap: Exchange { old: swapped.old.clone(), new: swapped.new.clone(), kept: swapped.kept.clone() },
            before: BatchView {
                parts: parts(before),
                yields: AmountView::made(before),
                properties: properties(before),
            },
            parts: parts(after),
            yields: AmountView::made(after),
            properties: properties(after),
            lines: lines(before, after),
            allergens: judged.clone(),
        }
    }
}

/// The parts stand in the same places; water that the card has not got stands behind.
fn lines(before: &Solved, after: &Solved) -> Vec<SwapLine> {
    let mut lines = Vec::new();
    for (i, stage) in after.stages.iter().enumerate() {
        for (j, part) in stage.parts.iter().enumerate() {
            let mut line = |of: &str, old_g, new_g| {
                lines.push(SwapLine { stage: stage.name.clone(), of: of.to_owned(), old_g, new_g });
            };
            match before.stages.get(i).and_then(|stage| stage.parts.get(j)) {
                Some(old) if old.label != part.label => {
                    line(&old.label, Some(old.mass_g), None);
                    line(&part.label, None, Some(part.mass_g));
                }
                Some(old) => line(&part.label, Some(old.mass_g), Some(part.mass_g)),
                None if part.mass_g > 0.0 => line(&part.label, None, Some(part.mass_g)),
                None => {}
            }
        }
    }
    lines
}
