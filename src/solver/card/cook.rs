//! What is asked of a card beyond what it says, and what is known while it and the cards inside it are being solved.

use std::collections::HashMap;
use std::sync::Arc;

use crate::card::{Amount, Card, Makes};
use crate::diagnostic::Diagnostic;
use crate::house::House;
use crate::spelling::fold;
use crate::units::{Volume, in_grams, in_millilitres};

use super::super::balance::{BalanceLine, Yield};
use super::super::explain::reach::SolveError;
use super::super::resolve::FoundPart;
use super::super::stage::{Feed, Shares};
use super::super::target::TargetValue;
use super::super::{InnerCard, Solved};

/// How large a batch is asked for, over what the card says.
#[derive(Clone, Debug, PartialEq)]
pub enum BatchSize {
    /// This much in the bottle.
    Makes(Makes),
    /// As much as this many grams or millilitres of one part allow.
    From(String, Amount),
    /// As much as a pot of this size takes with room to stir.
    Pot(Volume),
}

/// Which water from the ice of a drink is taken, where the house has not weighed it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Melt {
    /// The middle of what may be.
    #[default]
    Usual,
    /// The least.
    Least,
    /// The most.
    Most,
    /// None: the drink as it is poured.
    None,
}

/// What is asked beyond the card.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// Another batch size.
    pub size: Option<BatchSize>,
    /// Targets in place of, or beside, the card's.
    pub set: Vec<TargetValue>,
    /// The water from the ice of a drink.
    pub melt: Melt,
    /// Whether the water from ice follows the balance of heat alone, and not what the house weighed of drinks made alike.
    pub by_balance: bool,
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

    /// The targets: the card's in card order, those that are set over them.
    pub(super) fn targets(&self, card: &Card) -> Vec<TargetValue> {
        let mut targets: Vec<TargetValue> = card.targets.iter().map(|t| (t.kind, t.value)).collect();
        for &(kind, value) in &self.set {
            match targets.iter_mut().find(|(k, _)| *k == kind) {
                Some(target) => target.1 = value,
                None => targets.push((kind, value)),
            }
        }
        targets
    }
}

/// The answer, as far as there is one, and all that was found on the way.
#[derive(Clone, Debug)]
pub struct SolveOutcome {
    /// The solved card. There may be one beside errors: what the amounts really give.
    pub solved: Option<Solved>,
    /// Why there is no answer, or not the one that the card asks for; of the card itself, not of those inside it.
    pub errors: Vec<SolveError>,
    /// All that was found, these errors among them.
    pub diagnostics: Vec<Diagnostic>,
}

impl SolveOutcome {
    /// The solved card, what was found being told.
    pub(crate) fn told(self, found: &mut Vec<Diagnostic>) -> Option<Solved> {
        found.extend(self.diagnostics);
        self.solved
    }
}

/// The millilitres at 20 °C of what is asked for; 0 for a mass.
pub(crate) fn asked_ml(makes: &Makes) -> f64 {
    match makes {
        Makes::Volume(v) => in_millilitres(*v),
        Makes::Bottles { count, each } => count * in_millilitres(*each),
        Makes::Mass(_) => 0.0,
    }
}

pub(in super::super) fn yield_of(makes: &Makes) -> Yield {
    match makes {
        Makes::Mass(m) => Yield::Grams(in_grams(*m)),
        other => Yield::Millilitres(asked_ml(other)),
    }
}

pub(super) struct Cook<'a> {
    pub house: &'a House,
    /// The cards being made, outermost first: a name that comes again closes a cycle.
    pub making: Vec<String>,
    /// Cards made already, by folded name; `None` for one that cannot be made.
    pub made: HashMap<String, Option<Arc<Solved>>>,
    /// The cards that were solved so far: the index of the next.
    pub solved: usize,
    pub found: Vec<Diagnostic>,
    /// What of the options counts for the drinks inside too: the water from their ice, that of the outermost at its end.
    pub of_inner: Options,
    /// Errors, with the number of cards that were being made.
    pub errors: Vec<(usize, SolveError)>,
}

pub(super) struct ReadyStage {
    pub parts: Vec<(FoundPart, Feed)>,
    pub lines: Vec<BalanceLine>,
    pub lost: Shares,
}

impl<'a> Cook<'a> {
    pub(crate) fn new(card: &Card, house: &'a House) -> Self {
        Self {
            house,
            making: vec![card.name.value.clone()],
            made: HashMap::new(),
            solved: 0,
            found: Vec::new(),
            of_inner: Options::default(),
            errors: Vec::new(),
        }
    }

    /// To go on where a card has been solved: what is inside it is not solved again.
    pub(crate) fn beside(card: &Card, house: &'a House, solved: &Solved) -> Self {
        let inside = solved.with_inner().into_iter().flat_map(|(card, _)| &card.inner);
        let made = inside.map(|InnerCard { card, .. }| (fold(&card.name), Some(Arc::clone(card))));
        Self { made: made.collect(), solved: solved.index + 1, ..Self::new(card, house) }
    }

    pub(crate) fn refuse(&mut self, error: impl Into<SolveError>) {
        let error = error.into();
        self.found.push(error.said.clone());
        self.errors.push((self.making.len(), error));
    }
}
