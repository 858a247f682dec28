//! `adjust`: what to add to a made batch, and where it lands.

use serde::Serialize;

use crate::assessment::{self, crystals::over_saturated};
use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::mixture::Component;
use crate::properties::Properties;
use crate::properties::value_of;
use crate::safety::Caution;
use crate::solver::adjust::{AdjustRequest, Adjusted, adjust};
use crate::solver::target::TargetValue;
use crate::solver::{Options, solve, weighing};
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
    /// Where the card leaves room and the batch lies in it: no less, and no more than this.
    pub(crate) wanted_within: Option<[Option<f64>; 2]>,
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
    /// What is to be added to a batch of a card, with what is found on the way. `None` where nothing can be said, or nothing
    /// need be added.
    pub(crate) fn of_card(
        card: &Card,
        house: &House,
        asked: &AdjustRequest,
        found: &mut Vec<Diagnostic>,
    ) -> Option<Self> {
        if let Some(right) = reads_as_it_should(card, house, &asked.readings) {
            return right.refused(found);
        }
        let (adjusted, of_batch) = adjust(card, house, asked);
        found.extend(of_batch);
        let adjusted = adjusted?;
        found.extend(true_solids(&adjusted, &asked.readings));
        found.extend(over_saturated(&adjusted.batch));
        // What stops the card stops a batch of it: what is wrong with the card itself the answer has said.
        let solved = solve(card, house, &Options::default()).solved;
        let (stops, unidentified) = solved.map_or_else(Default::default, |solved| assessment::stops(&solved, house));
        found.extend(unidentified);
        Some(Self::new(&adjusted, house, &stops))
    }

    fn new(adjusted: &Adjusted, house: &House, stops: &[Caution]) -> Self {
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
            as_weighed: as_weighed(&weighed),
            doubt: adjusted::landings(adjusted, instruments),
            vessel_ml: adjusted.vessel_ml,
            fits: adjusted.vessel_ml.map(|_| adjusted.share_that_fits().is_none()),
            draw_off_g: adjusted.draw_off_g(),
            stops: CautionView::all(stops),
        }
    }
}

/// Of additions as they are weighed.
fn as_weighed(adjusted: &Adjusted) -> AsWeighed {
    let (batch, after) = (&adjusted.batch, &adjusted.after());
    let kinds = [TargetKind::Brix, TargetKind::Abv, TargetKind::Sugar, TargetKind::Acid];
    let landing = |of| {
        let (in_hand, then) = value_of(of, batch).zip(value_of(of, after))?;
        let wanted = adjusted.targets.iter().find(|(kind, _)| *kind == of).map(|(_, value)| *value);
        let range = adjusted.ranges.iter().find(|range| range.kind == of && wanted.is_none());
        let wanted_within = range.map(|range| [range.least, range.most]);
        Some(AdjustLine { of, in_hand, wanted, wanted_within, then })
    };
    AsWeighed { yields: AmountView::of_liquid(after), landings: kinds.into_iter().filter_map(landing).collect() }
}

/// What a refractometer shows of a right batch with spirit in it, given as if it were the Brix: nothing is to be added.
fn reads_as_it_should(card: &Card, house: &House, readings: &[TargetValue]) -> Option<Diagnostic> {
    let read = readings.iter().find(|(kind, _)| *kind == TargetKind::Brix)?.1;
    let solved = solve(card, house, &Options::default()).solved?;
    let right = solved.bottled();
    let shows = right.refractometer_reading(celsius(20.0)).ok()?.value.get();
    let is_spirit = right.grams_of(Component::Ethanol) > 0.0 && (shows - right.brix().get()).abs() > 0.5;
    (is_spirit && (read - shows).abs() <= 0.5).then(|| {
        let title = format!("{read} is what a refractometer shows of a right batch: {shows:.1}, for the spirit in it");
        Diagnostic::error(Code::BadArgument, title)
            .help(format!("nothing is to be added; for its true Brix: stillroom read --refractometer {read} --abv …"))
    })
}

/// In spirit a refractometer does not show the Brix: it is said what was taken, and what it would show.
fn true_solids(adjusted: &Adjusted, readings: &[TargetValue]) -> Option<Diagnostic> {
    let brix = readings.iter().find(|(kind, _)| *kind == TargetKind::Brix)?.1;
    let shows = adjusted.batch.refractometer_reading(celsius(20.0)).ok()?.value.get();
    (adjusted.batch.grams_of(Component::Ethanol) > 0.0 && (shows - brix).abs() > 0.5).then(|| {
        let title = format!("{brix} °Bx was taken as true dissolved solids; with this alcohol a refractometer shows {shows:.1}");
        Diagnostic::warning(Code::Understood, title).help(format!(
            "if {brix} is what the refractometer shows, get the true value first: stillroom read --refractometer {brix} --abv …"
        ))
    })
}
