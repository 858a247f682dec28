//! What is known while a card and the cards inside it are being solved.

use std::collections::HashMap;
use std::sync::Arc;

use crate::card::Card;
use crate::diagnostic::Diagnostic;
use crate::house::House;
use crate::spelling::fold;

use super::super::balance::BalanceLine;
use super::super::error::SolveError;
use super::super::resolve::FoundPart;
use super::super::stage::{Feed, Shares};
use super::super::{InnerCard, Solved};

/// The work on one card of a house.
pub(super) struct Cook<'a> {
    pub house: &'a House,
    /// The cards being made, outermost first: a name that comes again closes a cycle.
    pub making: Vec<String>,
    /// Cards made already, by folded name; `None` for one that cannot be made.
    pub made: HashMap<String, Option<Arc<Solved>>>,
    /// The cards that were solved so far: the index of the next.
    pub solved: usize,
    pub found: Vec<Diagnostic>,
    /// Errors, with the number of cards that were being made.
    pub errors: Vec<(usize, SolveError)>,
}

/// A stage whose parts have been looked up.
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
            errors: Vec::new(),
        }
    }

    /// To go on where a card has been solved: what is inside it is not solved again.
    pub(crate) fn beside(card: &Card, house: &'a House, solved: &Solved) -> Self {
        let inside = solved.with_inner().into_iter().flat_map(|(card, _)| &card.inner);
        let made = inside.map(|InnerCard { card, .. }| (fold(&card.name), Some(Arc::clone(card))));
        Self { made: made.collect(), solved: solved.index + 1, ..Self::new(card, house) }
    }

    /// Notes an error of this card, and what is said of it.
    pub(crate) fn refuse(&mut self, card: &Card, error: SolveError) {
        self.found.push(error.diagnostic(card));
        self.errors.push((self.making.len(), error));
    }
}
