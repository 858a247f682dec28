//! What the parts of a card are: stages of the same card, cards of the house (each is made once and shared), ingredients.

use std::sync::Arc;

use crate::card::{self, Card, Makes, Part, Stage};
use crate::diagnostic::{Code, Diagnostic, Spanned, any_error};
use crate::house::{House, SourceFile};
use crate::larder::{self, Ingredient};
use crate::spelling::{fold, nearest_name};
use crate::units::grams;
use crate::vocabulary::StatedProcess;

use super::super::balance::{BalanceLine, MassRule};
use super::super::explain::reach::SolveError;
use super::super::resolve::{FoundPart, Material};
use super::super::stage::Shares;
use super::super::{InnerCard, Solved};
use super::cook::{BatchSize, Cook, Options, ReadyStage};

/// Cards in cards are followed so many levels deep (ours: no bar goes beyond a few).
pub(crate) const DEEPEST: usize = 50;
/// In a house of more cards than this a misspelt part is not held against the name of every one of them: with
/// as many slips as cards that would take longer than all the rest.
const MOST_NAMES: usize = 1000;
/// Beyond so many unknown names of a card nothing is suggested any more (ours): who wrote it reads no more of them, and each is held
/// against the whole larder.
const MOST_SUGGESTED: usize = 40;

impl Cook<'_> {
    /// Looks up every part of a stage, so that all unknown names are reported in one run.
    pub(super) fn look_up(&mut self, card: &Card, stage: &Stage, solved: &mut Solved) -> Option<ReadyStage> {
        let lost = Shares {
            evaporated: stage.loss.evaporated.map_or(0.0, |x| x.value),
            left_behind: stage.loss.left_behind.map_or(0.0, |x| x.value),
        };
        let mut ready = ReadyStage { parts: Vec::new(), lines: Vec::new(), lost };
        for part in &stage.parts {
            let found = match self.look_for_part(card, part, solved) {
                Ok(found) => found,
                Err(why) => {
                    why.into_iter().for_each(|why| self.refuse(why));
                    continue;
                }
            };
            let feed = found.feed(part).map_err(|error| self.refuse(error));
            let rule = found.rule(part).map_err(|error| self.refuse(error));
            if let (Ok(feed), Ok(rule)) = (feed, rule) {
                ready.lines.push(feed.line(lost.evaporated, rule));
                ready.parts.push((found, feed));
            }
        }
        shares_of_the_whole(&mut ready.lines);
        (ready.lines.len() == stage.parts.len() && !ready.lines.is_empty()).then_some(ready)
    }

    /// A stage of this card, a card of the house, or an ingredient: in that order. An error of `None` has been
    /// reported where it stands.
    pub(super) fn look_for(
        &mut self,
        card: &Card,
        written: &Spanned<String>,
        solved: &mut Solved,
    ) -> Result<FoundPart, Option<Diagnostic>> {
        let Spanned { value: name, span } = written;
        let key = fold(name);
        let is_it = |n: &str| fold(n) == key;
        let mut made = solved.stages.iter().enumerate();
        if let Some((place, stage)) = made.find(|(_, s)| s.name.as_deref().is_some_and(is_it)) {
            let is_sized = card.stages.get(place).is_some_and(|stage| stage.parts.iter().any(Part::has_size));
            let some = (!stage.parts.is_empty()).then(|| FoundPart {
                all_g: is_sized.then(|| stage.course.out.total_grams()),
                ..FoundPart::liquid(Material::Stage(place), &stage.course.out)
            });
            return some.ok_or(None);
        }
        if card.stages.iter().any(|s| s.name.as_ref().is_some_and(|n| is_it(&n.value))) {
            let title = format!("the stage `{name}` is used before it is made");
            return Err(Some(
                Diagnostic::error(Code::StageOrder, title)
                    .at(*span, "used here")
                    .help("stages are made in the order of the card: move that stage above this one"),
            ));
        }
        let said = self.house.said_of(name).filter(|d| !self.found.contains(d)).cloned().collect::<Vec<_>>();
        let broken = any_error(&said);
        self.found.extend(said);
        let ingredient = self.house.larder.find(name);
        if is_it(&card.name.value) {
            return self.of_own_name(written, ingredient, broken);
        }
        if let Some(inner) = self.inner_card(written, solved) {
            return inner;
        }
        self.found.extend(one_of_several(written, self.house));
        match ingredient {
            Some(ingredient) => Ok(FoundPart::ingredient(ingredient)),
            None if broken => Err(None),
            None => Err(Some(self.unknown(card, written))),
        }
    }

    /// A part that is called as its card is: the ingredient of that name, never the card itself.
    fn of_own_name(
        &mut self,
        Spanned { value: name, span }: &Spanned<String>,
        ingredient: Option<&Ingredient>,
        broken: bool,
    ) -> Result<FoundPart, Option<Diagnostic>> {
        match ingredient {
            Some(ingredient) => {
                let title = format!("`{name}` is taken as what the larder calls so, not as this card");
                self.found.push(
                    Diagnostic::note(Code::Understood, title)
                        .at(*span, "the card has this name too")
                        .help("call one of them otherwise, so that nobody has to ask"),
                );
                Ok(FoundPart::ingredient(ingredient))
            }
            None if broken => Err(None),
            None => Err(Some(
                Diagnostic::error(Code::OwnPart, format!("`{name}` is a part of itself"))
                    .at(*span, "the card has this name")
                    .help("the card cannot hold itself: call one of them otherwise, or name what goes in"),
            )),
        }
    }

    /// A name that nothing has, and a name of the house that is near to it.
    fn unknown(&self, card: &Card, Spanned { value: name, span }: &Spanned<String>) -> Diagnostic {
        // A stage cannot go into itself, and an everyday name that means several things is none of the house.
        let has_it = |stage: &&Stage| stage.parts.iter().any(|part| part.of.span == *span);
        let is_everyday = larder::which_of(name).is_some();
        let title = format!("nothing in the house is called `{name}`");
        let said = Diagnostic::error(Code::UnknownIngredient, title)
            .at(*span, "no ingredient, earlier stage or formula has this name");
        let said_before = self.found.iter().filter(|said| said.code == Code::UnknownIngredient);
        if said_before.count() >= MOST_SUGGESTED {
            return said.help(larder::to_add(name));
        }
        let stages =
            card.stages.iter().filter(|stage| !has_it(stage)).filter_map(|s| s.name.as_ref().map(|n| n.value.as_str()));
        // Of very many cards nobody is asked; and the one that is being read cannot go into itself.
        let cards = self.house.cards().map(|f| f.name.as_str());
        let few = cards.clone().nth(MOST_NAMES).is_none();
        let cards = Some(cards).filter(|_| few).into_iter().flatten().filter(|n| *n != card.name.value);
        let near = nearest_name(name, stages.chain(cards)).map(str::to_owned).filter(|_| !is_everyday);
        let meant = || self.house.larder.meant_by(name).as_ref().clone();
        let larder::Suggestion { near, which } =
            near.map_or_else(meant, |near| larder::Suggestion { near: Some(near), which: Vec::new() });
        match near {
            Some(near) => said.help(format!("did you mean `{near}`?")).fix(*span, format!("{near:?}")),
            None if which.len() > 1 => said.help(format!("which of these is it: `{}`?", which.join("`, `"))),
            None => said.help(larder::to_add(name)),
        }
    }

    /// Another card of the house. `None`: there is none of that name; an error of `None`: there is, it cannot be made,
    /// and that has been said.
    fn inner_card(
        &mut self,
        name: &Spanned<String>,
        solved: &mut Solved,
    ) -> Option<Result<FoundPart, Option<Diagnostic>>> {
        let file = self.house.card(&name.value)?.clone();
        Some(self.made_once(name, file).map(|inner| {
            let known = solved.inner.iter().position(|own| own.card.index == inner.index);
            let place = known.unwrap_or(solved.inner.len());
            let of_its_own = inner.card.process.contains(&StatedProcess::Carbonated);
            let gas = of_its_own || (inner.card.is_drink() && inner.parts().any(|part| part.found.gas));
            let found = FoundPart { gas, ..FoundPart::liquid(Material::Card(place), inner.bottled()) };
            if known.is_none() {
                solved.inner.push(InnerCard { card: inner, grams: 0.0 });
            }
            found
        }))
    }

    fn made_once(&mut self, written: &Spanned<String>, file: SourceFile) -> Result<Arc<Solved>, Option<Diagnostic>> {
        let Spanned { value: name, span } = written;
        let key = fold(name);
        if let Some(start) = self.making.iter().position(|own| fold(own) == key) {
            let title = format!("a ring of formulas: {} -> {name}", self.making[start..].join(" -> "));
            return Err(Some(
                Diagnostic::error(Code::CardCycle, title)
                    .at(*span, "closes the ring")
                    .help("a product cannot be made from itself: take one of these parts out, or buy it in"),
            ));
        }
        if self.making.len() > DEEPEST {
            let title = format!("formulas in formulas, more than {DEEPEST} levels deep");
            return Err(Some(
                Diagnostic::error(Code::CardDepth, title)
                    .at(*span, "not followed further")
                    .help("write the ingredients of one of them on the card that uses it"),
            ));
        }
        if let Some(made) = self.made.get(&key) {
            return made.clone().ok_or(None);
        }
        self.making.push(name.to_owned());
        let inner = self.make_inner(written, file);
        self.making.pop();
        self.made.insert(key, inner.as_ref().ok().cloned());
        inner
    }

    fn make_inner(
        &mut self,
        Spanned { value: name, span }: &Spanned<String>,
        file: SourceFile,
    ) -> Result<Arc<Solved>, Option<Diagnostic>> {
        let of_the_chain = |error: &SolveError| matches!(error.said.code, Code::CardCycle | Code::CardDepth);
        let (found_before, errors_before) = (self.found.len(), self.errors.len());
        let (card, mut found) = match self.house.chosen(name) {
            Some(chosen) => (Some(chosen.clone()), Vec::new()),
            None => card::read_by(file.file, file.text, &self.house.customs()),
        };
        let readable = !any_error(&found);
        self.found.append(&mut found);
        let solved = card.filter(|_| readable).and_then(|card| self.inner_solved(&card));
        match solved.filter(|_| !any_error(&self.found[found_before..])) {
            Some(solved) => Ok(Arc::new(solved)),
            // A cycle, or a chain without an end, says all of it at once.
            None if self.errors[errors_before..].iter().any(|(_, error)| of_the_chain(error)) => Err(None),
            None => Err(Some(
                Diagnostic::error(Code::InnerCard, format!("`{name}` cannot be made as its own card stands"))
                    .at(*span, "this formula of the house is needed here")
                    .help("mend that card first: what is wrong with it is listed with it"),
            )),
        }
    }

    fn inner_solved(&mut self, card: &Card) -> Option<Solved> {
        let start = self.found.len();
        // What goes in is weighed for the outer card: any size of a card that states none will do. What is weighed out on the card is
        // a batch of its own, and its work is for that.
        let is_open = card.makes.is_none() && !card.all_parts().all(|(_, part)| part.has_size());
        let size = is_open.then(|| BatchSize::Makes(Makes::Mass(grams(1000.0))));
        let solved = self.card(card, &Options { size, ..self.of_inner.clone() });
        for diagnostic in &mut self.found[start..] {
            *diagnostic = diagnostic.clone().in_file(&card.file);
        }
        solved
    }
}

/// What to say of a name that may be several bottles of the house: none of them is taken.
fn one_of_several(Spanned { value: name, span }: &Spanned<String>, house: &House) -> Option<Diagnostic> {
    let several: Vec<String> =
        house.larder.several_of_house(name).into_iter().map(|of| format!("{:?}", of.name)).collect();
    let title = format!("`{name}` may be several of the house's own, and is taken as none of them");
    (!several.is_empty()).then(|| {
        Diagnostic::warning(Code::NotStated, title)
            .at(*span, "which one?")
            .help(format!("write the one that goes in: {}", several.join(" or ")))
    })
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
pub(crate) fn find(card: &Card, house: &House, name: &str, solved: &mut Solved) -> Result<FoundPart, Vec<Diagnostic>> {
    let mut cook = Cook::beside(card, house, solved);
    let found = cook.look_for(card, &Spanned::new(name.to_owned(), card.name.span), solved);
    // A card stands behind all those inside it.
    if cook.solved > solved.index + 1 {
        solved.index = cook.solved;
    }
    found.map_err(|error| {
        // The name was not read from the card: only what was found in other files has a place.
        let own = error.map(|said| Diagnostic { labels: Vec::new(), fix: None, ..said });
        cook.found.into_iter().chain(own).collect()
    })
}
