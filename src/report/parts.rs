//! Parts and amounts of a solved card, as every report on a card shows them.

use serde::{Serialize, Serializer};

use crate::mixture::Mixture;
use crate::properties::Properties;
use crate::solver::Solved;
use crate::solver::target::TargetValue;
use crate::solver::target::volume_ml;

/// One part.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PartView {
    /// What the card calls it.
    pub of: String,
    /// The ingredient, stage or card that it is.
    pub ingredient: String,
    /// The stage that it goes into; null for the card's own parts.
    pub stage: Option<String>,
    /// Grams.
    pub mass_g: f64,
    /// Millilitres at 20 °C; null for a solid.
    pub volume_ml: Option<f64>,
    /// Whether its amount was found.
    pub solved: bool,
    /// Its amount as the card writes it.
    pub written: String,
    /// Whether it is strained out again.
    pub strained: bool,
}

/// The parts of every stage, in the order of the card.
pub(super) fn parts(solved: &Solved) -> Vec<PartView> {
    let stages = solved.stages.iter();
    stages
        .flat_map(|stage| {
            stage.parts.iter().map(|part| PartView {
                of: part.label.clone(),
                ingredient: part.of.clone(),
                stage: stage.name.clone(),
                mass_g: part.mass_g,
                volume_ml: part.volume_ml(),
                solved: part.solved,
                written: part.written.as_ref().map(|read| read.text.clone()).unwrap_or_default(),
                strained: part.feed.holds.is_some(),
            })
        })
        .collect()
}

/// So much of a liquid.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AmountView {
    /// Grams.
    pub mass_g: f64,
    /// Millilitres at 20 °C; null for a solid.
    pub volume_ml: Option<f64>,
}

impl AmountView {
    /// How much there is of a liquid.
    pub(super) fn of_liquid(liquid: &Mixture) -> Self {
        Self { mass_g: liquid.total_grams(), volume_ml: volume_ml(liquid) }
    }

    /// How much there is of a liquid of a solved card: of a dried one no volume.
    pub(super) fn of_card(liquid: &Mixture, solved: &Solved) -> Self {
        let all = Self::of_liquid(liquid);
        Self { volume_ml: all.volume_ml.filter(|_| !solved.is_dry()), ..all }
    }

    /// What a solved card makes.
    pub(super) fn made(solved: &Solved) -> Self {
        Self::of_card(solved.bottled(), solved)
    }
}

/// Parts, and what they make.
#[derive(Clone, Debug, Serialize)]
pub struct BatchView {
    /// The parts.
    pub parts: Vec<PartView>,
    /// What they make.
    #[serde(rename = "yield")]
    pub yields: AmountView,
    /// Properties of that.
    pub properties: Properties,
}

/// Targets or readings, by their keys on a card.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Targets(pub Vec<TargetValue>);

impl Serialize for Targets {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(kind, value)| (kind.key(), value)))
    }
}
