//! A card from its first stage to its size.

use std::sync::Arc;

use crate::card::{Card, Stage};
use crate::diagnostic::Span;

use super::super::balance::{MassBalance, MassRule, Yield};
use super::super::error::SolveError;
use super::super::explain::unneeded;
use super::super::stage::{self, Course, Shares};
use super::super::{Solved, SolvedPart, SolvedStage};
use super::cook::{Cook, ReadyStage};
use super::options::Options;

impl Cook<'_> {
    /// Solves a card; what is wrong with it is noted.
    pub(super) fn card(&mut self, card: &Card, options: &Options) -> Option<Solved> {
        let mut solved = Solved {
            card: Arc::new(card.clone()),
            name: card.name.value.clone(),
            stages: Vec::new(),
            inner: Vec::new(),
            index: 0,
            targets: options.targets(card),
        };
        let mut complete = true;
        for stage in &card.stages {
            let made = self.early_stage(card, stage, &mut solved);
            complete &= made.is_some();
            // A stand-in keeps the places of the later stages, so that they are checked too.
            solved.stages.push(made.unwrap_or_else(|| SolvedStage {
                name: stage.name.as_ref().map(|n| n.value.clone()),
                parts: Vec::new(),
                lost: Shares::default(),
                course: Course::default(),
            }));
        }
        let mut ready = self.look_up(card, &card.last, &mut solved)?;
        if !complete {
            return None;
        }
        let masses = self.last_masses(card, &mut ready, &solved.targets, options)?;
        let made = self.finish(card, &card.last, ready, &masses, card.name.span)?;
        solved.stages.push(made);
        solved.back_through_stages();
        self.found.extend(unneeded(card, &solved));
        self.compare_yield(card, &solved, options);
        let mut solved = self.sized(card, solved, options)?;
        solved.index = self.solved;
        self.solved += 1;
        Some(solved)
    }

    /// An earlier stage for the amounts that its card states; it is scaled to need later.
    fn early_stage(&mut self, card: &Card, stage: &Stage, solved: &mut Solved) -> Option<SolvedStage> {
        let ready = self.look_up(card, stage, solved)?;
        let ratio = ready.lines.iter().any(|l| matches!(l.rule, MassRule::Ratio(_)));
        let balance = MassBalance {
            lines: &ready.lines,
            targets: &[],
            yields: ratio.then_some(Yield::Grams(1000.0)),
            left_behind: ready.lost.left_behind,
        };
        let span = stage.name.as_ref().map_or(card.name.span, |n| n.span);
        match balance.solve() {
            Ok(masses) => self.finish(card, stage, ready, &masses, span),
            Err(why) => {
                self.refuse(card, SolveError::Stage(span, why));
                None
            }
        }
    }

    /// Runs a stage with its masses forward; something must be left of it.
    fn finish(
        &mut self,
        card: &Card,
        stage: &Stage,
        ready: ReadyStage,
        masses: &[f64],
        span: Span,
    ) -> Option<SolvedStage> {
        let course = stage::run(ready.parts.iter().map(|(_, feed)| feed).zip(masses.iter().copied()), ready.lost);
        if course.out.total_grams() <= 0.0 {
            self.refuse(card, SolveError::NothingLeft(span));
            return None;
        }
        let parts = stage.parts.iter().zip(ready.parts).zip(ready.lines).zip(masses);
        let parts = parts.map(|(((part, (found, feed)), line), &mass_g)| SolvedPart {
            label: part.label.value.clone(),
            of: part.of.value.clone(),
            found,
            feed,
            mass_g,
            solved: line.rule == MassRule::Open,
            written: Some(part.written.clone()),
        });
        let name = stage.name.as_ref().map(|n| n.value.clone());
        Some(SolvedStage { name, parts: parts.collect(), lost: ready.lost, course })
    }
}
