//! How each line is weighed, decided once: the sheet, its rounding and its uncertainty all ask here.

use crate::house::{Instruments, Scale};
use crate::mixture::Component;
use crate::units::in_grams;

use super::by_hand::{self, is_by_hand, is_dosed_by_weight};
use super::resolve::Material;
use super::{Solved, SolvedPart, SolvedStage};

/// Below this many steps of a scale a reading is no longer trusted (common practice, no source).
pub const TRUSTED_STEPS: f64 = 20.0;

/// What a line is weighed on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Weighing {
    /// On the house's scale, into the vessel.
    Scale,
    /// On the fine scale, apart, then into the vessel.
    FineScale,
    /// Too little for any scale of the house: by a stock solution, which is surer.
    Stock(Stock),
    /// Counted, or dosed by a small measure, as its card says: no scale of the house has to weigh it.
    ByHand,
    /// All of what the earlier stage gave.
    Stage,
    /// Water that the ice gives: it is not weighed in.
    Melts,
}

/// How a line is weighed, and how sure that is.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct How {
    /// On what.
    pub by: Weighing,
    /// The step that its grams are rounded to.
    pub step_g: f64,
    /// How far the mass may be off, grams.
    #[serde(rename = "off_g")]
    pub half_width_g: f64,
    /// Whether that is more than a trusted reading may be off: make more, or borrow a finer scale.
    pub unsure: bool,
}

impl How {
    /// A mass in whole steps; never nothing where there is something.
    /// What is counted or dosed by hand is not weighed, and so not rounded: twelve dashes stay twelve.
    pub(crate) fn rounded(&self, mass_g: f64) -> f64 {
        if matches!(self.by, Weighing::ByHand | Weighing::Melts) {
            return mass_g;
        }
        let steps = (mass_g / self.step_g).round();
        if steps == 0.0 && mass_g > 0.0 { mass_g } else { steps * self.step_g }
    }
}

/// How each part of each stage is weighed.
pub fn ways(solved: &Solved, instruments: &Instruments) -> Vec<Vec<How>> {
    solved.stages.iter().map(|stage| ways_for_parts(&stage.parts, instruments)).collect()
}

/// How each of these parts is weighed, where they go into one vessel in this order.
pub(crate) fn ways_for_parts(parts: &[SolvedPart], instruments: &Instruments) -> Vec<How> {
    let total: f64 = parts.iter().map(|p| p.mass_g).sum();
    // What the stocks bring of the water is poured from it no more.
    let mut water_g = water_place(parts).and_then(|place| parts.get(place)).map_or(0.0, |water| water.mass_g);
    let mut all = Vec::with_capacity(parts.len());
    for part in parts {
        let direct = directly(part, instruments, total);
        let stock = if direct.unsure { by_stock(part, &direct, instruments, total, water_g) } else { None };
        if let Some(Weighing::Stock(stock)) = stock.map(|how| how.by) {
            water_g -= stock.brings_g(part.mass_g);
        }
        all.push(stock.unwrap_or(direct));
    }
    all
}

/// The line of water that a stock takes from: the largest.
fn water_place(parts: &[SolvedPart]) -> Option<usize> {
    let waters = parts.iter().enumerate().filter(|(_, part)| part.is_water() && part.melts.is_none());
    waters.max_by(|(_, a), (_, b)| a.mass_g.total_cmp(&b.mass_g)).map(|(place, _)| place)
}

fn finest(mass_g: f64, instruments: &Instruments) -> (Weighing, Scale) {
    match instruments.fine_scale.filter(|fine| mass_g <= in_grams(fine.up_to)) {
        Some(fine) => (Weighing::FineScale, fine),
        None => (Weighing::Scale, instruments.scale),
    }
}

/// A step more or less of water spoils nothing where it is less than this share of the whole (ours).
const LITTLE_WATER: f64 = 0.01;

fn directly(part: &SolvedPart, instruments: &Instruments, total_g: f64) -> How {
    let on = |by, scale: &Scale, unsure| {
        let step_g = in_grams(scale.step);
        // Each of several goes is off by itself.
        let goes = (part.mass_g / in_grams(scale.up_to)).ceil().max(1.0);
        How { by, step_g, half_width_g: step_g * goes.sqrt(), unsure }
    };
    let coarse = &instruments.scale;
    if part.stage().is_some() {
        return on(Weighing::Stage, coarse, false);
    }
    if part.melts.is_some() && part.mass_g > 0.0 {
        return How { by: Weighing::Melts, ..by_hand_of(part, coarse) };
    }
    let trusted = |scale: &Scale| part.mass_g >= TRUSTED_STEPS * in_grams(scale.step);
    if trusted(coarse) || part.mass_g == 0.0 || (part.is_water() && in_grams(coarse.step) < LITTLE_WATER * total_g) {
        return on(Weighing::Scale, coarse, false);
    }
    let (by, scale) = finest(part.mass_g, instruments);
    if is_by_hand(part) {
        return by_hand_of(part, &scale);
    }
    on(by, &scale, !trusted(&scale))
}

/// To two figures: what is counted is not rounded to a scale.
fn by_hand_of(part: &SolvedPart, scale: &Scale) -> How {
    let step_g = 10f64.powf(part.mass_g.log10().floor() - 1.0);
    How { by: Weighing::ByHand, step_g, half_width_g: in_grams(scale.step), unsure: false }
}

/// The card run forward from the rounded masses: what the sheet really makes.
pub(crate) fn as_weighed(solved: &Solved, hows: &[Vec<How>]) -> Solved {
    solved.weighed(|(stage, part), mass_g| {
        let how = hows.get(stage).and_then(|stage| stage.get(part));
        how.map_or(mass_g, |how| how.rounded(mass_g))
    })
}

/// What is dissolved, grams: sizes that are easily halved and not a waste (ours).
const SIZES_G: [f64; 4] = [10.0, 20.0, 50.0, 100.0];
/// One part in this many; the second where the first gives too little to weigh.
const DILUTIONS: [f64; 2] = [10.0, 100.0];
/// A stock is work, and some of it is left over: it must take a third off the uncertainty (ours).
const WORTH_IT: f64 = 2.0 / 3.0;
/// What is more than this share of its stage is a main part of it: then the batch is too small, not the dose (ours).
const MAIN: f64 = 0.05;

/// A stock solution.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stock {
    /// Grams that are dissolved.
    pub dissolve_g: f64,
    /// In so many grams of stock is one of them.
    pub one_in: f64,
}

impl Stock {
    /// The water that it is dissolved in, grams.
    pub fn in_water_g(&self) -> f64 {
        self.dissolve_g * (self.one_in - 1.0)
    }

    /// What to take of it for a dose, grams.
    pub fn take_g(&self, dose_g: f64) -> f64 {
        dose_g * self.one_in
    }

    /// The water that comes with a dose, grams.
    pub fn brings_g(&self, dose_g: f64) -> f64 {
        dose_g * (self.one_in - 1.0)
    }
}

/// How a part is weighed by a stock instead of directly, where that helps: it dissolves, the stage has the water
/// that comes with it, and there is stock enough.
fn by_stock(part: &SolvedPart, direct: &How, instruments: &Instruments, stage_g: f64, water_g: f64) -> Option<How> {
    // A spirit or a bitters is thinned, not dissolved: what would be weighed then is another drink.
    let dissolves = part.feed.holds.is_none()
        && part.found.per_gram.grams_of_all(&NOT_IN_WATER) < 0.01
        && part.found.per_gram.grams_of(Component::Ethanol) == 0.0;
    if !dissolves || !is_dosed_by_weight(part) || part.mass_g > MAIN * stage_g {
        return None;
    }
    let stocks = DILUTIONS.iter().filter_map(|&one_in| {
        let take_g = part.mass_g * one_in;
        let (_, scale) = finest(take_g, instruments);
        let step_g = in_grams(scale.step);
        let enough = |size: &&f64| **size > part.mass_g && **size >= TRUSTED_STEPS * step_g;
        let dissolve_g = *SIZES_G.iter().find(enough).or(SIZES_G.last())?;
        let stock = Stock { dissolve_g, one_in };
        let half_width_g = part.mass_g * (step_g / dissolve_g).hypot(step_g / take_g);
        let fits =
            dissolve_g > part.mass_g && take_g <= in_grams(scale.up_to) && stock.brings_g(part.mass_g) <= water_g;
        let helps = half_width_g <= WORTH_IT * direct.half_width_g;
        let how = How { by: Weighing::Stock(stock), step_g: step_g / one_in, half_width_g, unsure: false };
        (fits && helps).then_some((take_g >= TRUSTED_STEPS * step_g, how))
    });
    let that_help: Vec<(bool, How)> = stocks.collect();
    // The least thinned that is itself weighed truly; where there is none, the most thinned.
    let truly = that_help.iter().find(|(truly, _)| *truly);
    truly.or(that_help.last()).map(|(_, how)| *how)
}

const NOT_IN_WATER: [Component; 3] = [Component::Fibre, Component::Insoluble, Component::Fat];

#[derive(Clone, Debug, PartialEq)]
pub(crate) struct WeighLine {
    pub label: String,
    /// What is counted or dosed by hand, and how much of it that is.
    pub by_hand: Option<(f64, String)>,
    /// Grams, rounded to the scale.
    pub grams: f64,
    /// What goes in: a stock with its water, and that much less of the other water.
    pub poured_g: f64,
    pub ml: Option<f64>,
    pub how: How,
    /// What the scale reads once it is in, the vessel tared away.
    pub reads_g: f64,
    /// The vessel is at the limit of the scale: tare again before this line.
    pub tare_again: bool,
    /// It is more than the scale carries: weigh it in goes.
    pub goes: Option<WeighGoes>,
    /// The share of it that is strained out again, if it is.
    pub strained: bool,
    /// Whether it is poured and its ounces are those of a label, by weight.
    pub by_label: bool,
}

/// A line that is weighed in several goes, the vessel tared before each.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct WeighGoes {
    /// How many.
    pub count: u32,
    /// What the scale reads in each but the last, grams.
    pub each_g: f64,
    /// What it reads in the last, grams.
    pub last_g: f64,
}

impl WeighGoes {
    /// In as few goes as the scale allows; `None` where one is enough.
    fn fewest(grams: f64, capacity_g: f64, step_g: f64) -> Option<Self> {
        let count = (grams / capacity_g).ceil();
        if count <= 1.0 {
            return None;
        }
        let each_g = ((grams / count / step_g - 1e-9).ceil() * step_g).min(capacity_g);
        Some(Self { count: count as u32, each_g, last_g: grams - (count - 1.0) * each_g })
    }
}

pub(crate) fn lines(stage: &SolvedStage, hows: &[How], instruments: &Instruments) -> Vec<WeighLine> {
    let capacity = in_grams(instruments.scale.up_to);
    let water = water_place(&stage.parts);
    let stocks = stage.parts.iter().zip(hows).filter_map(|(part, how)| match how.by {
        Weighing::Stock(stock) => Some(stock.brings_g(part.mass_g)),
        _ => None,
    });
    let by_stocks: f64 = stocks.sum();
    let mut reads = 0.0;
    let mut emptied = false;
    let mut lines = Vec::with_capacity(stage.parts.len());
    for (place, (part, how)) in stage.parts.iter().zip(hows).enumerate() {
        // Nothing of a stage or an inner card is no line; the solver has said so.
        if part.mass_g == 0.0 && !matches!(part.found.what, Material::Ingredient(_)) {
            continue;
        }
        // A stock goes in with its water, and that much less is poured of the other.
        let goes_in = match how.by {
            Weighing::Stock(stock) => stock.take_g(part.mass_g),
            _ if Some(place) == water => part.mass_g - by_stocks,
            _ => part.mass_g,
        };
        let goes = WeighGoes::fewest(goes_in, capacity, how.step_g);
        let tare_again = emptied || (reads > 0.0 && reads + goes_in > capacity);
        if tare_again {
            reads = 0.0;
        }
        reads += goes_in;
        emptied = goes.is_some();
        lines.push(WeighLine {
            label: part.label.clone(),
            by_hand: by_hand::count(part).zip(by_hand::words(part)),
            grams: part.mass_g,
            poured_g: goes_in,
            ml: part.volume_ml(),
            how: *how,
            reads_g: reads,
            tare_again,
            goes,
            strained: part.feed.holds.is_some(),
            by_label: part.written.as_ref().is_some_and(|written| part.found.is_by_label(written)),
        });
    }
    lines
}
