//! A card on the page, its adjustment, its dates: each from the report of its verb.

use chrono::NaiveDate;

use crate::aim;
use crate::assessment::{IdentityQuestion, Which, assess};
use crate::card::Card;
use crate::diagnostic::{Diagnostic, any_error};
use crate::house::House;
use crate::report::Report;
use crate::report::cost::{CostReport, CostView};
use crate::report::cost_question::CostQuestion;
use crate::report::date::{DateReport, DateView};
use crate::report::solve::{SolveReport, SolveView};
use crate::shelf_life::Draws;
use crate::solver::{Options, solve};
use crate::units::celsius;

/// A card that was read, or could not be, with its house and what was found on the way.
pub(crate) struct PageCard {
    pub(crate) card: Option<Card>,
    pub(crate) house: House,
    pub(crate) found: Vec<Diagnostic>,
}

impl PageCard {
    fn name(&self) -> Option<&str> {
        self.card.as_ref().map(|card| card.name.value.as_str())
    }

    /// The card, if nothing of it must be mended before.
    fn sound(&self) -> Option<&Card> {
        self.card.as_ref().filter(|_| !any_error(&self.found))
    }

    /// A report of what was answered and found; the texts are not at hand where it is read.
    pub(super) fn report<V: crate::report::View>(
        &self,
        options: &Options,
        answer: impl FnOnce(&Card, &House, &mut Vec<Diagnostic>) -> Option<V>,
    ) -> Report<V> {
        let mut found = self.found.clone();
        let card = self.sound().and_then(|card| aim::chosen(card, &self.house, options, &mut found));
        let view = card.and_then(|made| answer(&made.card, &made.house, &mut found));
        Report::new(view, &found, |_| None).of_product(self.name())
    }

    /// The sheet of a size and of targets, made on a day.
    pub(crate) fn solved(&self, options: &Options, made: NaiveDate) -> SolveReport {
        self.report(options, |card, house, found| {
            let outcome = solve(card, house, options);
            found.extend(outcome.diagnostics);
            let asked = options.asked(card);
            let (view, of_view) = SolveView::new(card, &outcome.solved?, house, asked, celsius(20.0), made);
            // what nothing says is food stands above everything already
            found.extend(of_view.into_iter().filter(|d| d.code != crate::diagnostic::Code::IdentityOpen));
            Some(view)
        })
    }

    /// What the same batch costs, where the house says what things cost.
    pub(crate) fn costed(&self, options: &Options, today: NaiveDate) -> CostReport {
        let question = CostQuestion { options: options.clone(), today: Some(today), ..CostQuestion::default() };
        self.report(options, |card, house, found| CostView::of_card(card, house, &question, found))
    }

    /// By when it goes, store by store.
    pub(super) fn dated(&self, made: NaiveDate) -> DateReport {
        self.report(&Options::default(), |card, house, found| {
            let outcome = solve(card, house, &Options::default());
            found.extend(outcome.diagnostics);
            let (judged, of_judgement) = assess(&outcome.solved?, house, made, Which::All, Draws::default());
            found.extend(of_judgement);
            found.extend(judged.unidentified.iter().map(IdentityQuestion::diagnostic));
            Some(DateView::new(&judged))
        })
    }
}
