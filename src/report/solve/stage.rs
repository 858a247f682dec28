//! A stage as it is worked at the bench.

use serde::Serialize;
use uom::si::time::minute;

use crate::card::{Amount, Part, Stage};
use crate::house::Instruments;
use crate::properties::flash_point_c;
use crate::solver::stage::Course;
use crate::solver::weighing::{self, How, WeighGoes, WeighLine};
use crate::solver::{Solved, SolvedPart};
use crate::units::degrees_celsius;
use crate::units::display::percent_text;
use crate::vocabulary::Bubbles;

use super::super::weigh::WeighView;
use super::bench::pure_alcohol_ml;

/// One stage.
#[derive(Clone, Debug, Serialize)]
pub struct StageView {
    pub(crate) stage: Option<String>,
    #[serde(flatten)]
    pub(crate) exact: CourseView,
    pub(crate) takes: Option<String>,
    /// Whether nothing of it goes on: then there is nothing to add.
    pub(crate) nothing_needed: bool,
    /// What to add, in tare order; these numbers and those below are of the batch as it is weighed.
    pub lines: Vec<SheetLine>,
    pub(crate) heated: Option<HeatedView>,
    /// What the pan must hold after heating or drying, where water goes up.
    pub finish: Option<FinishView>,
    pub(crate) strained: Option<StrainedView>,
    pub(crate) flash_point_c: Option<f64>,
    /// What goes on.
    pub gives_g: f64,
    /// What stays in the pan and the funnel.
    pub stays_behind_g: f64,
}

#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct CourseView {
    pub(crate) combined_g: f64,
    pub(crate) evaporated_g: f64,
    /// What the pan then holds.
    pub in_pan_g: f64,
    pub(crate) strained_out_g: f64,
    pub(crate) left_behind_g: f64,
    pub(crate) out_g: f64,
}

/// One line to weigh.
#[derive(Clone, Debug, Serialize)]
pub struct SheetLine {
    /// The part.
    pub of: String,
    pub(crate) written: String,
    /// Of this batch, where it is counted.
    pub pieces: Option<f64>,
    /// How it is counted or dosed: "11 cloves", "bitters, 20 dashes".
    pub by_hand: Option<String>,
    /// Grams, in whole steps of the scale.
    pub mass_g: f64,
    /// Grams that go in: of a stock with its water, of the other water that much less.
    pub poured_g: f64,
    /// Millilitres at 20 °C; null for a solid.
    pub volume_ml: Option<f64>,
    /// What the scale reads once it is in, the vessel tared away.
    pub reads_g: f64,
    /// Whether the scale is tared again before it.
    pub tare_again: bool,
    /// The goes that it is weighed in, where it is more than the scale carries.
    pub goes: Option<WeighGoes>,
    pub(crate) strained: bool,
    /// Whether it is poured and its ounces are those of a label, by weight.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub(crate) by_label: bool,
    #[serde(flatten)]
    pub(crate) weigh: WeighView,
}

impl SheetLine {
    /// Millilitres of what goes in.
    pub(crate) fn poured_ml(&self) -> Option<f64> {
        let all = |ml: f64| if self.poured_g == self.mass_g { ml } else { ml * self.poured_g / self.mass_g };
        self.volume_ml.map(all)
    }
}

#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct HeatedView {
    pub(crate) to_c: f64,
    pub(crate) hold_min: Option<f64>,
    pub(crate) bubbles: Option<Bubbles>,
}

/// Finished on the scale.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct FinishView {
    /// What the pan must hold, grams net.
    pub in_pan_g: f64,
    pub(crate) evaporated_g: f64,
    pub(crate) evaporated_share: f64,
    /// Whether what is finished is solid, so that no water can be added back.
    pub(crate) dries: bool,
}

/// The wet solids that stay in the strainer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(crate) struct StrainedView {
    pub(crate) wet_g: f64,
    pub(crate) liquid_g: f64,
    pub(crate) alcohol_ml: f64,
}

/// The stages of a card: `weighed` is what the rounded sheet makes, each part weighed as `hows` says.
pub(super) fn stages(exact: &Solved, weighed: &Solved, hows: &[Vec<How>], instruments: &Instruments) -> Vec<StageView> {
    let written = exact.card.all_stages();
    let made = exact.stages.iter().zip(&weighed.stages).zip(written).zip(hows);
    made.map(|(((exactly, made), written), hows)| {
        let course = &made.course;
        let strains = made.parts.iter().any(|p| p.feed.holds.is_some() && p.mass_g > 0.0);
        // what a card with room chose none of is said where it says what it chose
        let chosen_out: &[String] = exact.card.landed.as_ref().map_or(&[], |landed| &landed.without);
        let mut lines = weighing::lines(made, hows, instruments);
        lines.retain(|line| line.grams > 0.0 || !chosen_out.contains(&line.label));
        StageView {
            stage: made.name.clone(),
            exact: CourseView::from(&exactly.course),
            takes: written.takes.as_ref().map(|takes| takes.written.clone()),
            nothing_needed: course.combined.total_grams() == 0.0,
            lines: lines.into_iter().map(|line| as_poured(sheet_line(line, written), exact, &exactly.parts)).collect(),
            heated: written.heated.map(|heated| HeatedView {
                to_c: degrees_celsius(heated.value.to),
                hold_min: heated.value.hold.map(|hold| hold.get::<minute>()),
                bubbles: heated.value.bubbles,
            }),
            finish: (course.evaporated_g > 0.0).then(|| FinishView {
                in_pan_g: course.in_pan_g(),
                evaporated_g: course.evaporated_g,
                evaporated_share: made.lost.evaporated,
                dries: course.out.is_dry() || (exact.is_dry() && made.name.is_none()),
            }),
            strained: strains.then(|| StrainedView {
                wet_g: course.strained_out_g,
                liquid_g: course.kept.total_grams(),
                alcohol_ml: pure_alcohol_ml(&course.kept),
            }),
            flash_point_c: flash_point_c(&course.combined.dissolved()),
            gives_g: course.out.total_grams(),
            stays_behind_g: course.left_behind_g,
        }
    })
    .collect()
}

/// A drink is poured: its millilitres are those of the card, not those of the grams that a scale shows.
fn as_poured(line: SheetLine, drink: &Solved, parts: &[SolvedPart]) -> SheetLine {
    let part = parts.iter().find(|part| drink.card.is_drink() && part.label == line.of);
    SheetLine { volume_ml: part.map_or(line.volume_ml, SolvedPart::volume_ml), ..line }
}

fn sheet_line(line: WeighLine, stage: &Stage) -> SheetLine {
    let written = stage.parts.iter().find(|part| part.label.value == line.label);
    SheetLine {
        weigh: WeighView::new(line.how, line.grams),
        written: written.map(|part| part.written.text.clone()).unwrap_or_default(),
        pieces: line
            .by_hand
            .as_ref()
            .map(|(count, _)| *count)
            .filter(|_| written.is_some_and(|part| matches!(part.amount.value, Amount::Pieces(_)))),
        by_hand: line.by_hand.map(|(_, words)| words).or_else(|| share_of(written?, stage)),
        mass_g: line.grams,
        poured_g: line.poured_g,
        volume_ml: line.ml,
        reads_g: line.reads_g,
        tare_again: line.tare_again,
        goes: line.goes,
        strained: line.strained,
        by_label: line.by_label,
        of: line.label,
    }
}

/// "water, 20 % of the weight": what a percentage was taken for, where it is not one of parts that make up the whole.
fn share_of(part: &Part, stage: &Stage) -> Option<String> {
    let share = |part: &Part| if let Amount::Share(share) = part.amount.value { Some(share) } else { None };
    let all: f64 = stage.parts.iter().filter_map(share).sum();
    let share = share(part).filter(|_| (all - 1.0).abs() > 1e-6)?;
    Some(format!("{}, {} of the weight", part.label.value, percent_text(share)))
}

impl From<&Course> for CourseView {
    fn from(course: &Course) -> Self {
        Self {
            combined_g: course.combined.total_grams(),
            evaporated_g: course.evaporated_g,
            in_pan_g: course.in_pan_g(),
            strained_out_g: course.strained_out_g,
            left_behind_g: course.left_behind_g,
            out_g: course.out.total_grams(),
        }
    }
}
