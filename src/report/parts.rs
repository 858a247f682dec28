//! Parts and amounts of a solved card, as every report on a card shows them.

use serde::{Serialize, Serializer};

use crate::card::{Makes, TargetKind};
use crate::mixture::Mixture;
use crate::properties::Properties;
use crate::solver::Solved;
use crate::solver::target::{TargetValue, volume_ml};
use crate::uncertainty::Uncertainty;
use crate::units::{in_grams, in_millilitres};

/// One part.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PartView {
    /// What the card calls it.
    pub of: String,
    pub(crate) ingredient: String,
    pub(crate) stage: Option<String>,
    /// Grams.
    pub mass_g: f64,
    /// Millilitres at 20 °C; null for a solid.
    pub volume_ml: Option<f64>,
    pub(crate) solved: bool,
    pub(crate) written: String,
    pub(crate) strained: bool,
}

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

#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AmountView {
    /// Grams.
    pub mass_g: f64,
    /// Millilitres at 20 °C; null for a solid.
    pub volume_ml: Option<f64>,
}

impl AmountView {
    pub(super) fn of_liquid(liquid: &Mixture) -> Self {
        Self { mass_g: liquid.total_grams(), volume_ml: volume_ml(liquid) }
    }

    /// How much there is of a liquid of a solved card: of a dried one no volume.
    pub(super) fn of_card(liquid: &Mixture, solved: &Solved) -> Self {
        let all = Self::of_liquid(liquid);
        Self { volume_ml: all.volume_ml.filter(|_| !solved.is_dry()), ..all }
    }

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

impl Serialize for Makes {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let keys = match *self {
            Self::Volume(volume) => vec![("volume_ml", in_millilitres(volume))],
            Self::Mass(mass) => vec![("mass_g", in_grams(mass))],
            Self::Bottles { count, each } => vec![("count", count), ("each_ml", in_millilitres(each))],
        };
        serializer.collect_map(keys)
    }
}

/// The uncertainties of the headline numbers, by the key of the property.
pub(super) fn by_property<S: Serializer>(all: &[Uncertainty], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(all.iter().map(|uncertainty| (property_key(uncertainty.kind), uncertainty)))
}

/// The key of a target among the properties.
pub(crate) fn property_key(kind: TargetKind) -> &'static str {
    match kind {
        TargetKind::Brix => "brix",
        TargetKind::Abv => "abv_pct",
        TargetKind::Sugar => "sugar_g_l",
        TargetKind::Acid => "acid_g_l",
        TargetKind::Ph => "ph",
    }
}
