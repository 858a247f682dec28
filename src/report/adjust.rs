//! `adjust`: what to add to a made batch, and where it lands.

use serde::Serialize;

use crate::card::TargetKind;
use crate::house::House;
use crate::mixture::Mixture;
use crate::properties::Properties;
use crate::properties::value_of;
use crate::safety::Caution;
use crate::solver::adjust::Adjusted;
use crate::solver::target::TargetValue;
use crate::solver::weighing;
use crate::uncertainty::adjusted::{self, Landing};
use crate::units::celsius;

use super::caution::CautionView;
use super::parts::{AmountView, Targets};
use super::weigh::WeighView;
use super::{Report, View};

pub(crate) type AdjustReport = Report<AdjustView>;

#[derive(Clone, Debug, Serialize)]
pub(crate) struct AdjustView {
    pub(crate) have: AmountView,
    pub(crate) readings: Targets,
    pub(crate) wanted: Targets,
    pub(crate) add: Vec<AddLine>,
    pub(crate) after: Properties,
    #[serde(rename = "yield")]
    pub(crate) yields: AmountView,
    /// What it is before and after, added as weighed.
    pub as_weighed: AsWeighed,
    /// How sure what was read is, before and after: half-widths at 95 %.
    pub doubt: Vec<Landing>,
    pub(crate) vessel_ml: Option<f64>,
    pub(crate) fits: Option<bool>,
    /// What is drawn off first, where it does not.
    pub(crate) draw_off_g: Option<f64>,
    pub(crate) stops: Vec<CautionView>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct AddLine {
    pub of: String,
    pub mass_g: f64,
    /// Millilitres at 20 °C; null for a solid.
    pub volume_ml: Option<f64>,
    pub(crate) weighed_g: f64,
    #[serde(flatten)]
    pub(crate) weigh: WeighView,
}

/// Where the batch lands with what the scales can weigh.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct AsWeighed {
    #[serde(rename = "yield")]
    pub(crate) yields: AmountView,
    pub(crate) landings: Vec<AdjustLine>,
}

#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct AdjustLine {
    pub of: TargetKind,
    pub(crate) in_hand: f64,
    pub(crate) wanted: Option<f64>,
    pub(crate) then: f64,
}

impl View for AdjustView {
    const VERB: &'static str = "adjust";
    const KEYS: &'static str = "have readings wanted add after yield as_weighed doubt vessel_ml fits draw_off_g stops";

    fn stops(&self) -> bool {
        !self.stops.is_empty()
    }
}

impl AdjustView {
    pub(crate) fn new(adjusted: &Adjusted, house: &House, stops: &[Caution]) -> Self {
        let instruments = &house.settings.instruments;
        let hows = weighing::ways_for_parts(&adjusted.add, instruments);
        let add = adjusted.add.iter().zip(&hows).map(|(part, how)| {
            let weighed_g = how.rounded(part.mass_g);
            AddLine {
                of: part.label.clone(),
                mass_g: part.mass_g,
                volume_ml: part.volume_ml(),
                weighed_g,
                weigh: WeighView::new(*how, weighed_g),
            }
        });
        let made = adjusted.after();
        let mut weighed = adjusted.clone();
        for (part, how) in weighed.add.iter_mut().zip(&hows) {
            part.mass_g = how.rounded(part.mass_g);
        }
        Self {
            have: AmountView::of_liquid(&adjusted.batch),
            readings: Targets(adjusted.readings.clone()),
            wanted: Targets(adjusted.targets.clone()),
            add: add.collect(),
            after: Properties::of_mixture(&made, celsius(20.0), house.settings.altitude.unwrap_or_default()),
            yields: AmountView::of_liquid(&made),
            as_weighed: as_weighed(&adjusted.batch, &weighed.after(), &adjusted.targets),
            doubt: adjusted::landings(adjusted, instruments),
            vessel_ml: adjusted.vessel_ml,
            fits: adjusted.vessel_ml.map(|_| adjusted.share_that_fits().is_none()),
            draw_off_g: adjusted.draw_off_g(),
            stops: CautionView::all(stops),
        }
    }
}

fn as_weighed(batch: &Mixture, after: &Mixture, targets: &[TargetValue]) -> AsWeighed {
    let kinds = [TargetKind::Brix, TargetKind::Abv, TargetKind::Sugar, TargetKind::Acid];
    let landing = |of| {
        let (in_hand, then) = value_of(of, batch).zip(value_of(of, after))?;
        let wanted = targets.iter().find(|(kind, _)| *kind == of).map(|(_, value)| *value);
        Some(AdjustLine { of, in_hand, wanted, then })
    };
    AsWeighed { yields: AmountView::of_liquid(after), landings: kinds.into_iter().filter_map(landing).collect() }
}
