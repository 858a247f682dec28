//! What the parts of a card are: stages of the same card, formulas of the house (made once), ingredients.

use std::collections::HashMap;
use std::sync::Arc;

use crate::card::{self, Card, Makes, Part, Stage};
use crate::diagnostic::{Code, Diagnostic, Spanned, any_error};
use crate::house::{House, SourceFile};
use crate::spelling::{fold, nearest_name};
use crate::units::grams;

use super::super::Solved;
use super::super::balance::{BalanceLine, MassRule};
use super::super::resolve::{FoundPart, Material, unknown};
use super::super::stage::Shares;
use super::{BatchSize, Cook, Making, Options, ReadyStage};

/// In a house of more formulas than this a misspelt part is not held against the name of every one of them: with
/// as many slips as cards that would take longer than all the rest.
const MOST_NAMES: usize = 1000;
/// Formulas in formulas are followed so many levels deep (ours: no bar goes beyond a few).
const DEEPEST: usize = 50;

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
            let feed = found.feed(part, &mut self.found);
            let rule = found.rule(part, &mut self.found);
            if let (Some(feed), Some(rule)) = (feed, rule) {
                ready.lines.push(feed.line(lost.evaporated, rule));
                ready.parts.push((found, feed));
            }
        }
        shares_of_the_whole(&mut ready.lines);
        (ready.lines.len() == stage.parts.len() && !ready.lines.is_empty()).then_some(ready)
    }

    /// A stage of this card, a formula of the house, or an ingredient: in that order.
    fn find(&mut self, card: &Card, part: &Part, solved: &mut Solved) -> Option<FoundPart> {
        let name = part.of.value.as_str();
        let key = fold(name);
        let is_it = |n: &str| fold(n) == key;
        let mut made = solved.stages.iter().enumerate();
        if let Some((place, stage)) = made.find(|(_, s)| s.name.as_deref().is_some_and(is_it)) {
            // A stage that failed has been reported where it stands.
            return (!stage.parts.is_empty()).then(|| FoundPart::liquid(Material::Stage(place), &stage.course.out));
        }
        if card.stages.iter().any(|s| s.name.as_ref().is_some_and(|n| is_it(&n.value))) {
            self.found.push(
                Diagnostic::error(Code::StageOrder, format!("the stage `{name}` is used before it is made"))
                    .at(part.of.span, "used here")
                    .help("stages are made in the order of the card: move that stage above this one"),
            );
            return None;
        }
        let said = self.house.said_of(name).filter(|d| !self.found.contains(d)).cloned().collect::<Vec<_>>();
        let broken = any_error(&said);
        self.found.extend(said);
        if (!is_it(&card.name.value) || self.house.larder.find(name).is_none())
            && let Some(result) = self.inner_formula(part, solved)
        {
            return result;
        }
        match self.house.larder.find(name) {
            Some(ingredient) => Some(FoundPart::ingredient(ingredient)),
            None if broken => None,
            None => {
                let stages = card.stages.iter().filter_map(|s| s.name.as_ref().map(|n| n.value.as_str()));
                let own = fold(&card.name.value);
                // Not the card that is being read: it cannot go into itself.
                let formulas = self.house.cards().map(|f| f.name.as_str()).filter(|n| fold(n) != own);
                let few = formulas.clone().nth(MOST_NAMES).is_none();
                let near = nearest_name(name, stages.chain(formulas.filter(|_| few)))
                    .map(str::to_owned)
                    .or_else(|| self.house.larder.suggest(name).map(str::to_owned));
                self.found.push(unknown(part, near));
                None
            }
        }
    }

    /// Another formula of the house. `None`: there is none of that name; `Some(None)`: there is,
    /// and it cannot be made (reported).
    fn inner_formula(&mut self, part: &Part, solved: &mut Solved) -> Option<Option<FoundPart>> {
        let name = part.of.value.as_str();
        let file = self.house.card(name)?.clone();
        let key = fold(name);
        if let Some(start) = self.making.iter().position(|m| m.folded == key) {
            let mut ring: Vec<&str> = self.making[start..].iter().map(|m| m.name.as_str()).collect();
            ring.push(name);
            self.found.push(
                Diagnostic::error(Code::CardCycle, format!("a ring of formulas: {}", ring.join(" -> ")))
                    .at(part.of.span, "closes the ring")
                    .help("a product cannot be made from itself: take one of these parts out, or buy it in"),
            );
            return Some(None);
        }
        if self.making.len() > DEEPEST {
            self.found.push(
                Diagnostic::error(Code::CardDepth, format!("formulas in formulas, more than {DEEPEST} levels deep"))
                    .at(part.of.span, "not followed further")
                    .help("write the ingredients of one of them on the card that uses it"),
            );
            return Some(None);
        }
        let inner = match self.made.get(&key) {
            Some(made) => made.clone(),
            None => {
                self.making.push(Making { folded: key.clone(), name: name.to_owned() });
                let inner = self.make_inner(part, file).map(Arc::new);
                self.making.pop();
                self.made.insert(key, inner.clone());
                inner
            }
        };
        Some(inner.map(|inner| {
            let known = solved.inner.iter().position(|(own, _)| Arc::ptr_eq(own, &inner));
            let place = known.unwrap_or(solved.inner.len());
            let found = FoundPart::liquid(Material::Card(place), inner.bottled());
            if known.is_none() {
                solved.inner.push((inner, 0.0));
            }
            found
        }))
    }

    fn make_inner(&mut self, part: &Part, source: SourceFile) -> Option<Solved> {
        let before = self.found.len();
        let (card, mut found) = card::read(source.file, source.text);
        let readable = !any_error(&found);
        self.found.append(&mut found);
        let solved = match card {
            Some(card) if readable => {
                let start = self.found.len();
                // What goes in is weighed for the outer card: any size of a card that states none will do.
                let size = card.makes.is_none().then(|| BatchSize::Makes(Makes::Mass(grams(1000.0))));
                let solved = self.card(&card, &Options { size, ..Options::default() });
                for diagnostic in &mut self.found[start..] {
                    *diagnostic = diagnostic.clone().in_file(&card.file);
                }
                solved
            }
            _ => None,
        };
        let found = &self.found[before..];
        let failed = solved.is_none() || any_error(found);
        // A ring, or a chain without an end, says all of it at once.
        let at_once = [Code::CardCycle, Code::CardDepth];
        if failed && found.iter().any(|d| at_once.contains(&d.code)) {
            return None;
        }
        if failed {
            self.found.push(
                Diagnostic::error(
                    Code::InnerCard,
                    format!("`{}` cannot be made as its own card stands", part.of.value),
                )
                .at(part.of.span, "this formula of the house is needed here")
                .help("mend that card first: what is wrong with it is listed with it"),
            );
            return None;
        }
        solved
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

/// What a name means beside a solved card: one of its stages, a formula of the house, or an ingredient. A
/// formula that is found joins the inner ones of `solved`.
///
/// # Errors
/// Where nothing has this name, or the formula cannot be made.
pub fn find(card: &Card, house: &House, name: &str, solved: &mut Solved) -> Result<FoundPart, Vec<Diagnostic>> {
    let making = vec![Making::named(&card.name.value)];
    let mut cook = Cook { house, making, made: HashMap::new(), found: Vec::new() };
    let spanned = Spanned::new(name.to_owned(), card.name.span);
    let part = Part {
        label: spanned.clone(),
        of: spanned,
        amount: Spanned::new(card::Amount::AsNeeded, card.name.span),
        written: String::new(),
        strained: false,
        holds: None,
    };
    let found = cook.find(card, &part, solved);
    found.ok_or_else(|| {
        // The name was not read from the card: only what was found in other files has a place.
        let placeless = |mut d: Diagnostic| {
            if d.file.is_none() {
                d.labels.clear();
                d.fix = None;
            }
            d
        };
        cook.found.into_iter().map(placeless).collect()
    })
}
