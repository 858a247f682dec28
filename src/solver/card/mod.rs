//! A card, brought to the engine: looked up, stage by stage, solved for its last stage, and scaled
//! back through the earlier ones.

mod lookup;
mod size;
mod unneeded;
mod words;

use std::collections::HashMap;
use std::sync::Arc;

use crate::card::{self, Card, Makes, Stage, TargetKind};
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::house::House;
use crate::mixture::{Component, Mixture};
use crate::spelling::fold;
use crate::units::Volume;

use super::balance::{BalanceLine, MassBalance, MassRule, TargetValue, Yield, value_of};
use super::resolve::FoundPart;
use super::stage::{self, Feed, Shares};
use super::{Solved, SolvedPart, SolvedStage, explain, ph};

pub use lookup::find;
use size::yield_of;
pub use size::{asked_ml, volume_ml};
pub use words::{target_figure, target_words};

/// How large a batch is asked for, over what the card says.
#[derive(Clone, Debug, PartialEq)]
pub enum BatchSize {
    /// This much in the bottle.
    Makes(Makes),
    /// As much as this many grams or millilitres of one part allow.
    From(String, card::Amount),
    /// As much as a pot of this size takes with room to stir.
    Pot(Volume),
}

/// What is asked beyond the card.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// Another batch size.
    pub size: Option<BatchSize>,
    /// Targets in place of, or beside, the card's.
    pub set: Vec<TargetValue>,
}

impl Options {
    /// The size that is asked for: by the command, else by the card. `None` where another amount decides it.
    pub fn asked(&self, card: &Card) -> Option<Makes> {
        match &self.size {
            Some(BatchSize::Makes(makes)) => Some(*makes),
            Some(BatchSize::From(..) | BatchSize::Pot(_)) => None,
            None => card.makes.as_ref().map(|m| m.value),
        }
    }
}

/// The answer, as far as there is one, and all that was found on the way.
#[derive(Clone, Debug)]
pub struct SolveOutcome {
    /// The solved card. There may be one beside errors: what the amounts really give.
    pub solved: Option<Solved>,
    /// What was found.
    pub diagnostics: Vec<Diagnostic>,
}

/// Solves a card in its house.
pub fn solve(card: &Card, house: &House, options: &Options) -> SolveOutcome {
    let mut cook =
        Cook { house, making: vec![Making::named(&card.name.value)], made: HashMap::new(), found: Vec::new() };
    let solved = cook.card(card, options);
    let diagnostics = cook.found.into_iter().map(|d| d.in_file(&card.file)).collect();
    SolveOutcome { solved, diagnostics }
}

struct Cook<'a> {
    house: &'a House,
    /// The formulas being made, outermost first: a name that comes again closes a ring.
    making: Vec<Making>,
    /// Formulas made already, by folded name.
    made: HashMap<String, Option<Arc<Solved>>>,
    found: Vec<Diagnostic>,
}

/// A formula that is being made.
struct Making {
    folded: String,
    /// As it was written.
    name: String,
}

impl Making {
    fn named(name: &str) -> Self {
        Self { folded: fold(name), name: name.to_owned() }
    }
}

/// A stage whose parts have been looked up.
struct ReadyStage {
    parts: Vec<(FoundPart, Feed)>,
    lines: Vec<BalanceLine>,
    lost: Shares,
}

impl Cook<'_> {
    fn card(&mut self, card: &Card, options: &Options) -> Option<Solved> {
        let mut solved = Solved {
            card: Arc::new(card.clone()),
            name: card.name.value.clone(),
            stages: Vec::new(),
            inner: Vec::new(),
            targets: Vec::new(),
        };
        let mut complete = true;
        for stage in &card.stages {
            match self.early_stage(card, stage, &mut solved) {
                Some(ready) => solved.stages.push(ready),
                None => {
                    complete = false;
                    // A stand-in keeps the places of the later stages, so that they are checked too.
                    solved.stages.push(SolvedStage {
                        name: stage.name.as_ref().map(|n| n.value.clone()),
                        parts: Vec::new(),
                        lost: Shares::default(),
                        course: stage::Course::default(),
                    });
                }
            }
        }
        let mut ready = self.look_up(card, &card.last, &mut solved)?;
        if !complete {
            return None;
        }
        let targets = targets_of(card, options);
        solved.targets.clone_from(&targets);
        let masses = self.last_masses(card, &mut ready, &targets, options)?;
        let made = finish(&card.last, ready, &masses);
        if made.course.out.total_grams() <= 0.0 {
            self.found.push(nothing_left(card.name.span));
            return None;
        }
        solved.stages.push(made);
        back_through_stages(&mut solved);
        self.found.extend(unneeded::warnings(card, &solved));
        self.compare_yield(card, &solved, options);
        let solved = self.sized(card, solved, options)?;
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
            Ok(masses) => {
                let made = finish(stage, ready, &masses);
                if made.course.out.total_grams() <= 0.0 {
                    self.found.push(nothing_left(span));
                    return None;
                }
                Some(made)
            }
            Err(trouble) => {
                self.found.push(explain::stage_trouble(&trouble, span));
                None
            }
        }
    }

    /// The masses of the last stage.
    fn last_masses(
        &mut self,
        card: &Card,
        ready: &mut ReadyStage,
        targets: &[TargetValue],
        options: &Options,
    ) -> Option<Vec<f64>> {
        let mut lines = ready.lines.clone();
        if card.last.loss.evaporated_as_needed.is_some() {
            lines.push(BalanceLine::boiled_off());
        }
        let lines = &lines;
        let ratio = lines.iter().any(|l| matches!(l.rule, MassRule::Ratio(_)));
        let sized = options.size.is_some();
        let makes = match &options.size {
            // A card that says nothing of its size can be made in the size that is asked for.
            Some(BatchSize::Makes(makes)) if card.makes.is_none() => Some(*makes),
            _ => card.makes.as_ref().map(|m| m.value),
        };
        let mut balance = MassBalance { lines, targets, yields: None, left_behind: ready.lost.left_behind };
        let unknowns = balance.unknowns();
        // Where no amount is written the size is a rule that cannot be left to a comparison.
        let anchored = lines.iter().any(|l| matches!(l.rule, MassRule::Fixed(g) if g > 0.0));
        let by_size = unknowns > 0 && (unknowns == targets.len() + 1 || (!anchored && unknowns <= targets.len()));
        if by_size {
            // A size taken from one part scales the whole card: any size will do to begin with.
            let any_size = sized.then_some(Yield::Grams(1000.0));
            balance.yields = makes.map(|m| yield_of(&m)).or(any_size);
            if balance.yields.is_none() {
                self.found.push(explain::no_size(card, ratio));
                return None;
            }
        } else if unknowns > targets.len() + 1 {
            self.found.push(explain::too_few_rules(card, lines, targets, makes.is_some()));
            return None;
        }
        let kept = targets.len().min(if by_size { unknowns - 1 } else { unknowns });
        let (used, rest) = targets.split_at(kept);
        balance.targets = used;
        let masses = match used.iter().position(|(kind, _)| *kind == TargetKind::Ph) {
            None => balance.solve().map_err(|trouble| explain::trouble(card, &balance, &trouble)),
            Some(index) => {
                ph::masses(&balance, index).map_err(|why| explain::no_ph_masses(card, &balance, index, &why))
            }
        };
        match masses {
            Ok(masses) if masses.iter().all(|m| *m == 0.0) => {
                self.found.push(explain::not_the_whole(card));
                None
            }
            Ok(masses) => {
                let liquid = lines.iter().zip(&masses).map(|(l, m)| l.joins * *m).sum();
                self.compare_targets(card, &balance, rest, liquid);
                self.evaporated_as_found(card, ready, &masses)?;
                Some(masses)
            }
            Err(why) => {
                self.found.extend(why);
                None
            }
        }
    }

    /// Puts the water that was found to boil off, the mass behind those of the parts, in place of a share
    /// that the card states.
    fn evaporated_as_found(&mut self, card: &Card, ready: &mut ReadyStage, masses: &[f64]) -> Option<()> {
        let Some(&boiled_off) = masses.get(ready.parts.len()) else { return Some(()) };
        let parts = ready.parts.iter().zip(masses);
        let water: f64 = parts.map(|((_, feed), m)| feed.per_gram.grams_of(Component::Water) * m).sum();
        if boiled_off > water {
            self.found.push(explain::too_little_water(card));
            return None;
        }
        ready.lost.evaporated = if water > 0.0 { boiled_off / water } else { 0.0 };
        Some(())
    }

    /// Whether the targets that fixed nothing are met all the same.
    fn compare_targets(&mut self, card: &Card, balance: &MassBalance<'_>, targets: &[TargetValue], liquid: Mixture) {
        for &(kind, asked) in targets {
            if kind == TargetKind::Ph {
                self.found.extend(match ph::ph_at_20(&liquid) {
                    Ok(gives) => explain::target_differs(card, balance, (kind, asked), gives),
                    Err(why) => Some(explain::no_ph(card, asked, &why)),
                });
            } else if let Some(gives) = value_of(kind, &liquid) {
                self.found.extend(explain::target_differs(card, balance, (kind, asked), gives));
            }
        }
    }
}

/// The targets: the card's in card order, those of the command line over them.
fn targets_of(card: &Card, options: &Options) -> Vec<TargetValue> {
    let mut targets: Vec<TargetValue> = card.targets.iter().map(|t| (t.kind, t.value)).collect();
    for &(kind, value) in &options.set {
        match targets.iter_mut().find(|(k, _)| *k == kind) {
            Some(target) => target.1 = value,
            None => targets.push((kind, value)),
        }
    }
    targets
}

fn finish(stage: &Stage, ready: ReadyStage, masses: &[f64]) -> SolvedStage {
    let course = stage::run(ready.parts.iter().map(|(_, feed)| feed).zip(masses.iter().copied()), ready.lost);
    let parts = stage
        .parts
        .iter()
        .zip(ready.parts)
        .zip(ready.lines)
        .zip(masses)
        .map(|(((part, (found, feed)), line), &mass_g)| SolvedPart {
            label: part.label.value.clone(),
            of: part.of.value.clone(),
            found,
            feed,
            mass_g,
            solved: line.rule == MassRule::Open,
            written: part.written.clone(),
        })
        .collect();
    SolvedStage { name: stage.name.as_ref().map(|n| n.value.clone()), parts, lost: ready.lost, course }
}

/// Scales every earlier stage to what the later ones take of it, and counts the inner formulas.
pub(super) fn back_through_stages(solved: &mut Solved) {
    for place in (0..solved.stages.len().saturating_sub(1)).rev() {
        let later = solved.stages[place + 1..].iter().flat_map(|s| &s.parts);
        let takes: Vec<f64> = later.filter(|p| p.stage() == Some(place)).map(|p| p.mass_g).collect();
        let need: f64 = takes.iter().sum();
        let stage = &mut solved.stages[place];
        let made = stage.course.out.total_grams();
        // A stage that nothing uses is left as its card states it: the reader of the card has said so.
        if !takes.is_empty() && made > 0.0 {
            let factor = need / made;
            for part in &mut stage.parts {
                part.mass_g *= factor;
            }
            stage.course = stage.course.scaled(factor);
        }
    }
    for place in 0..solved.inner.len() {
        solved.inner[place].1 = solved.inner_grams(place);
    }
}

fn nothing_left(span: Span) -> Diagnostic {
    Diagnostic::error(Code::NothingLeft, "nothing is left to bottle: the strained solids would keep all of the liquid")
        .at(span, "these amounts")
        .help("use more liquid or fewer solids, or correct `holds`")
}
