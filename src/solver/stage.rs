//! What happens to one stage once its masses are known: combine, evaporate, strain, leave behind.

use crate::mixture::{Component, Mixture};

use super::balance::{BalanceLine, MassRule};

/// One part as it goes into the pan: what a gram of it is, and whether it is strained out again.
#[derive(Clone, Copy, Debug)]
pub struct Feed {
    /// Composition of one gram.
    pub per_gram: Mixture,
    /// What its strained solids hold: (wet weight out - weight in) / weight in. `None`: not strained.
    pub holds: Option<f64>,
}

impl Feed {
    /// What one gram brings to the liquid when this share of its water evaporates.
    pub fn joins(&self, evaporated: f64) -> Mixture {
        let wet = self.per_gram.without_water(evaporated * self.per_gram.grams_of(Component::Water));
        if self.holds.is_some() { wet.dissolved() } else { wet }
    }

    /// Liquid that its strained solids keep, grams for each gram of the part.
    pub(crate) fn keeps(&self) -> f64 {
        self.holds.map_or(0.0, |holds| 1.0 + holds - self.per_gram.grams_of_all(&Component::STAYS_IN_STRAINER))
    }

    /// The part as the engine sees it.
    pub fn line(&self, evaporated: f64, rule: MassRule) -> BalanceLine {
        BalanceLine { joins: self.joins(evaporated), keeps: self.keeps(), rule }
    }
}

/// Shares that are lost: of the water by evaporation, of the strained batch in the pan and the funnel.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shares {
    /// Of all water.
    pub evaporated: f64,
    /// Of the strained batch.
    pub left_behind: f64,
}

/// The course of a stage. Masses in grams; what goes in comes out:
/// `combined = evaporated + strained_out + left_behind + out`.
#[derive(Clone, Copy, Debug, Default)]
pub struct Course {
    /// Everything that went in.
    pub combined: Mixture,
    /// Water that went up, grams.
    pub evaporated_g: f64,
    /// Wet solids that were strained out, grams.
    pub strained_out_g: f64,
    /// The liquid in them.
    pub kept: Mixture,
    /// Liquid in the pan and the funnel, grams.
    pub left_behind_g: f64,
    /// What is bottled, or goes into the next stage.
    pub out: Mixture,
}

impl Course {
    /// What the pan holds after heating, before anything is strained or left behind, grams.
    pub fn in_pan_g(&self) -> f64 {
        self.combined.total_grams() - self.evaporated_g
    }

    /// With this share of what the strained solids hold exchanged for another liquid of as much weight.
    #[must_use]
    pub(crate) fn keeping(&self, other: &Mixture, share: f64) -> Self {
        let strained_g = self.out.total_grams() + self.left_behind_g;
        let bottled = if strained_g > 0.0 { self.out.total_grams() / strained_g } else { 1.0 };
        let shift = (*other + self.kept * -1.0) * share;
        Self { kept: self.kept + shift, out: self.out + shift * -bottled, ..*self }
    }

    #[must_use]
    pub(crate) fn scaled(&self, factor: f64) -> Self {
        Self {
            combined: self.combined * factor,
            evaporated_g: self.evaporated_g * factor,
            strained_out_g: self.strained_out_g * factor,
            kept: self.kept * factor,
            left_behind_g: self.left_behind_g * factor,
            out: self.out * factor,
        }
    }
}

/// What a stage adds up of its lines before anything is strained or left behind.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Sums {
    combined: Mixture,
    liquid: Mixture,
    evaporated_g: f64,
    kept_g: f64,
    solids_g: f64,
}

impl Sums {
    /// With so many grams more of a line; with fewer, if that is below zero.
    pub(crate) fn add(&mut self, feed: &Feed, mass: f64, lost: Shares) {
        self.combined += feed.per_gram * mass;
        self.liquid += feed.joins(lost.evaporated) * mass;
        self.evaporated_g += lost.evaporated * feed.per_gram.grams_of(Component::Water) * mass;
        self.kept_g += feed.keeps() * mass;
        if feed.holds.is_some() {
            self.solids_g += feed.per_gram.grams_of_all(&Component::STAYS_IN_STRAINER) * mass;
        }
    }

    pub(crate) fn course(&self, lost: Shares) -> Course {
        let per_gram = self.liquid.per_gram();
        let strained = self.liquid.total_grams() - self.kept_g;
        let left_behind_g = lost.left_behind * strained;
        Course {
            combined: self.combined,
            evaporated_g: self.evaporated_g,
            kept: per_gram * self.kept_g,
            strained_out_g: self.solids_g + self.kept_g,
            left_behind_g,
            out: per_gram * (strained - left_behind_g),
        }
    }
}

/// Adds up the lines of a stage.
pub(crate) fn sums<'a>(feeds: impl Iterator<Item = (&'a Feed, f64)>, lost: Shares) -> Sums {
    let mut sums = Sums::default();
    feeds.for_each(|(feed, mass)| sums.add(feed, mass, lost));
    sums
}

/// The same where the lines at these places go in behind the straining: what the solids keep is of the others.
pub(crate) fn run_in_order(feeds: &[(&Feed, f64)], lost: Shares, behind: &[usize]) -> Course {
    let course = run(feeds.iter().copied(), lost);
    if behind.is_empty() { course } else { course.keeping(&in_front(feeds, lost, behind).kept, 1.0) }
}

/// The course of what stands in front of the straining alone.
pub(crate) fn in_front(feeds: &[(&Feed, f64)], lost: Shares, behind: &[usize]) -> Course {
    let is_in_front = |(place, _): &(usize, &(&Feed, f64))| !behind.contains(place);
    run(feeds.iter().enumerate().filter(is_in_front).map(|(_, line)| *line), lost)
}

/// Runs a stage forward. The out mass is negative where the solids would keep more than there is.
pub fn run<'a>(feeds: impl Iterator<Item = (&'a Feed, f64)>, lost: Shares) -> Course {
    sums(feeds, lost).course(lost)
}
