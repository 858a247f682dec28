//! A stock solution: a dose that is too small for the scale, weighed in water.

use crate::house::Instruments;
use crate::mixture::Component;
use crate::solver::SolvedPart;
use crate::units::in_grams;

use super::{How, TRUSTED_STEPS, Weighing, finest};

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
pub(super) fn instead(
    part: &SolvedPart,
    direct: &How,
    instruments: &Instruments,
    stage_g: f64,
    water_g: f64,
) -> Option<How> {
    let dissolves = part.feed.holds.is_none() && part.found.per_gram.grams_of_all(&NOT_IN_WATER) < 0.01;
    if !dissolves || part.mass_g > MAIN * stage_g {
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
