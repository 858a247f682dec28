//! A pan as it was while something stood in it: what its steps put in behind that was not there yet, and neither weakened what stood
//! nor kept it.

use crate::card::Part;
use crate::house::House;
use crate::mixture::Mixture;
use crate::paste;
use crate::safety::standing::{Stood, standing, stands_or_steeps};
use crate::solver::{Solved, SolvedPart, SolvedStage};

/// A pan while something stood or steeped in it.
pub(super) struct PanThen<'s> {
    pub(super) step: &'s String,
    /// The piece of the step that says so.
    pub(super) text: &'s str,
    pub(super) made: SolvedStage,
}

impl PanThen<'_> {
    /// Where and how long, by that piece.
    pub(super) fn stood(&self) -> Option<Stood> {
        standing(self.text)
    }

    pub(super) fn hours(&self) -> f64 {
        self.stood().map_or(0.0, |stood| stood.hours)
    }

    pub(super) fn is_in(&self, step: &String) -> bool {
        std::ptr::eq(self.step, step)
    }
}

/// The pieces of the steps of a pan in which something stands or steeps, each with the pan as it then was.
pub(super) fn as_it_stood<'s>(solved: &'s Solved, place: usize, house: &House) -> Vec<PanThen<'s>> {
    let (Some(stage), Some(made)) = (solved.card.all_stages().nth(place), solved.stages.get(place)) else {
        return Vec::new();
    };
    let each = paste::put_in_behind_each(&solved.card, stage, house, stands_or_steeps);
    let then = |late: Vec<&Part>| {
        let labels: Vec<&str> = late.into_iter().map(|part| part.label.value.as_str()).collect();
        without(made, &labels)
    };
    each.into_iter().map(|of| PanThen { step: of.step, text: of.text, made: then(of.late) }).collect()
}

/// The pan without these parts; where those are all of it, nobody told what stood.
fn without(made: &SolvedStage, late: &[&str]) -> SolvedStage {
    let mut then = made.clone();
    then.parts.retain(|part| !late.contains(&part.label.as_str()));
    if then.parts.is_empty() || then.parts.len() == made.parts.len() {
        return made.clone();
    }
    let mixture = |all: Mixture, part: &SolvedPart| all + part.found.per_gram * part.mass_g;
    then.course.combined = then.parts.iter().fold(Mixture::EMPTY, mixture);
    then
}
