//! What the parts of a card are: stages of the same card, cards of the house, ingredients.

use crate::card::{Card, Part, Stage};
use crate::diagnostic::{Diagnostic, Spanned, any_error};
use crate::house::House;
use crate::spelling::{fold, nearest_name};

use super::super::Solved;
use super::super::balance::{BalanceLine, MassRule};
use super::super::error::{PartError, SolveError};
use super::super::resolve::{FoundPart, Material};
use super::super::stage::Shares;
use super::cook::{Cook, ReadyStage};

/// In a house of more cards than this a misspelt part is not held against the name of every one of them: with
/// as many slips as cards that would take longer than all the rest.
const MOST_NAMES: usize = 1000;

impl Cook<'_> {
    /// Looks up every part of a stage, so that all unknown names are reported in one run.
    pub(super) fn look_up(&mut self, card: &Card, stage: &Stage, solved: &mut Solved) -> Option<ReadyStage> {
        let lost = Shares {
            evaporated: stage.loss.evaporated.map_or(0.0, |x| x.value),
            left_behind: stage.loss.left_behind.map_or(0.0, |x| x.value),
        };
        let mut ready = ReadyStage { parts: Vec::new(), lines: Vec::new(), lost };
        for part in &stage.parts {
            let Some(found) = self.find(card, part, solved) else { continue };
            let feed = found.feed(part).map_err(|error| self.refuse_part(card, part, error));
            let rule = found.rule(part).map_err(|error| self.refuse_part(card, part, error));
            if let (Ok(feed), Ok(rule)) = (feed, rule) {
                ready.lines.push(feed.line(lost.evaporated, rule));
                ready.parts.push((found, feed));
            }
        }
        shares_of_the_whole(&mut ready.lines);
        (ready.lines.len() == stage.parts.len() && !ready.lines.is_empty()).then_some(ready)
    }

    fn refuse_part(&mut self, card: &Card, part: &Part, error: PartError) {
        self.refuse(card, SolveError::Part { name: part.of.clone(), amount: part.amount.span, error });
    }

    fn find(&mut self, card: &Card, part: &Part, solved: &mut Solved) -> Option<FoundPart> {
        match self.look_for(card, &part.of.value, solved) {
            Ok(found) => Some(found),
            Err(error) => {
                if let Some(error) = error {
                    self.refuse_part(card, part, error);
                }
                None
            }
        }
    }

    /// A stage of this card, a card of the house, or an ingredient: in that order. An error of `None` has been
    /// reported where it stands.
    fn look_for(&mut self, card: &Card, name: &str, solved: &mut Solved) -> Result<FoundPart, Option<PartError>> {
        let key = fold(name);
        let is_it = |n: &str| fold(n) == key;
        let mut made = solved.stages.iter().enumerate();
        if let Some((place, stage)) = made.find(|(_, s)| s.name.as_deref().is_some_and(is_it)) {
            let some = (!stage.parts.is_empty()).then(|| FoundPart::liquid(Material::Stage(place), &stage.course.out));
            return some.ok_or(None);
        }
        if card.stages.iter().any(|s| s.name.as_ref().is_some_and(|n| is_it(&n.value))) {
            return Err(Some(PartError::StageOrder));
        }
        let said = self.house.said_of(name).filter(|d| !self.found.contains(d)).cloned().collect::<Vec<_>>();
        let broken = any_error(&said);
        self.found.extend(said);
        let ingredient = self.house.larder.find(name);
        if (!is_it(&card.name.value) || ingredient.is_none())
            && let Some(inner) = self.inner_card(name, solved)
        {
            return inner;
        }
        match ingredient {
            Some(ingredient) => Ok(FoundPart::ingredient(ingredient)),
            None if broken => Err(None),
            None => Err(Some(PartError::Unknown(self.near(card, name)))),
        }
    }

    /// A name of the house that is near to one that nothing has.
    fn near(&self, card: &Card, name: &str) -> Option<String> {
        let stages = card.stages.iter().filter_map(|s| s.name.as_ref().map(|n| n.value.as_str()));
        let own = fold(&card.name.value);
        // Not the card that is being read: it cannot go into itself.
        let cards = self.house.cards().map(|f| f.name.as_str()).filter(|n| fold(n) != own);
        let few = cards.clone().nth(MOST_NAMES).is_none();
        nearest_name(name, stages.chain(cards.filter(|_| few)))
            .map(str::to_owned)
            .or_else(|| self.house.larder.suggest(name).map(str::to_owned))
    }
}

/// A card in percentages that make up the whole is a ratio by weight: one scale is open, not none.
fn shares_of_the_whole(lines: &mut [BalanceLine]) {
    let share = |l: &BalanceLine| match l.rule {
        MassRule::Share(p) if (l.joins.total_grams() - 1.0).abs() < 1e-9 && l.keeps == 0.0 => Some(p),
        _ => None,
    };
    let whole: Option<f64> = lines.iter().map(share).sum();
    if whole.is_some_and(|sum| (sum - 1.0).abs() < 1e-6) {
        for line in lines {
            if let MassRule::Share(p) = line.rule {
                line.rule = MassRule::Ratio(p);
            }
        }
    }
}

/// What a name means beside a solved card: one of its stages, a card of the house, or an ingredient. A
/// card that is found joins the inner ones of `solved`.
///
/// # Errors
/// Where nothing has this name, or the card cannot be made.
pub(crate) fn find(card: &Card, house: &House, name: &str, solved: &mut Solved) -> Result<FoundPart, Vec<Diagnostic>> {
    let mut cook = Cook::beside(card, house, solved);
    let found = cook.look_for(card, name, solved);
    // A card stands behind all those inside it.
    if cook.solved > solved.index + 1 {
        solved.index = cook.solved;
    }
    found.map_err(|error| {
        // The name was not read from the card: only what was found in other files has a place.
        let own = error.map(|error| {
            let name = Spanned::new(name.to_owned(), card.name.span);
            let said = SolveError::Part { amount: name.span, name, error }.diagnostic(card);
            Diagnostic { labels: Vec::new(), fix: None, ..said }
        });
        cook.found.into_iter().chain(own).collect()
    })
}
