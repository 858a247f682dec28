//! A card on the page, its adjustment, its dates: each from the report of its verb.

use chrono::NaiveDate;

use crate::aim;
use crate::assessment::dressed::products_on;
use crate::assessment::{IdentityQuestion, Which, assess};
use crate::card::Card;
#[cfg(feature = "cli")]
use crate::cost::SellAsked;
use crate::diagnostic::{Diagnostic, any_error};
#[cfg(feature = "cli")]
use crate::drinks::glass;
use crate::drinks::glass::drink;
use crate::house::House;
#[cfg(feature = "cli")]
use crate::render::chart::of_card;
use crate::report::Report;
use crate::report::cost::{CostReport, CostView};
use crate::report::cost_question::CostQuestion;
use crate::report::date::{DateReport, DateView};
#[cfg(feature = "cli")]
use crate::report::serve::{ServeReport, ServeView};
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

    /// What its parts are called.
    #[cfg(feature = "cli")]
    pub(super) fn parts(&self) -> impl Iterator<Item = &str> {
        let stages = self.card.iter().flat_map(|card| card.stages.iter().chain([&card.last]));
        let parts = stages.flat_map(|stage| &stage.parts);
        parts.map(|part| part.of.value.as_str())
    }

    /// The products of the house that are put on it, where it is a drink.
    pub(super) fn put_on(&self) -> Vec<String> {
        let own = self.sound().filter(|card| card.is_drink());
        let solved = own.and_then(|card| drink(card, &self.house, &mut Vec::new()));
        solved.map_or_else(Vec::new, |solved| {
            products_on(&solved, &self.house).into_iter().map(|of| of.product).collect()
        })
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
            let solved = solve(card, house, options).told(found)?;
            let asked = options.asked(card);
            let (view, of_view) = SolveView::new(card, &solved, house, asked, celsius(20.0), made);
            // what nothing says is food stands above everything already
            found.extend(of_view.into_iter().filter(|d| d.code != crate::diagnostic::Code::IdentityOpen));
            Some(view)
        })
    }

    /// One guest's glass of a drink.
    #[cfg(feature = "cli")]
    pub(crate) fn served(&self, sell: SellAsked, today: NaiveDate) -> ServeReport {
        self.report(&Options::default(), |card, house, found| {
            let glass = glass(card, house, Some(today), sell, found)?;
            Some(ServeView::new(card, &glass, house))
        })
    }

    /// What the same batch costs, where the house says what things cost.
    pub(crate) fn costed(&self, options: &Options, today: NaiveDate) -> CostReport {
        let question = CostQuestion { options: options.clone(), today: Some(today), ..CostQuestion::default() };
        self.report(options, |card, house, found| CostView::of_card(card, house, &question, found))
    }

    /// What is drawn of it.
    #[cfg(feature = "cli")]
    pub(super) fn charts(&self) -> Vec<String> {
        let options = Options::default();
        let chosen = self.sound().and_then(|card| aim::chosen(card, &self.house, &options, &mut Vec::new()));
        let solved = chosen.and_then(|made| solve(&made.card, &made.house, &options).solved);
        solved.map_or_else(Vec::new, |solved| of_card(&solved, &self.house))
    }

    /// By when it goes, store by store.
    pub(super) fn dated(&self, made: NaiveDate) -> DateReport {
        self.report(&Options::default(), |card, house, found| {
            let solved = solve(card, house, &Options::default()).told(found)?;
            let (judged, of_judgement) = assess(&solved, house, made, Which::All, Draws::default());
            found.extend(of_judgement);
            found.extend(judged.unidentified.iter().map(IdentityQuestion::diagnostic));
            Some(DateView::new(&judged).beside_recipe(&judged, card).for_a_guest((card, &judged), house))
        })
    }
}
