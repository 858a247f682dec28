//! A card as its steps have it, where its keys say another thing or none: heat above the whole of what only a stage was heated, a
//! wait in the fridge without its `at`, and what goes in behind the straining.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::card::{Card, Part};
use crate::diagnostic::{Code, Diagnostic, listed};
use crate::house::House;
use crate::mixture::Component;
use crate::paste;
use crate::solver::{InnerCard, Solved, SolvedStage};

use super::heated::is_hot_clause;

/// What is dated, and what to say of it.
pub(crate) struct AsTold {
    /// With the keys as the steps have them.
    pub(crate) solved: Solved,
    /// The heat that is of a stage.
    pub(crate) moved: Option<Diagnostic>,
}

/// None where the keys say what the steps do, of the card and of all inside it.
pub(crate) fn as_told(solved: &Solved, house: &House) -> Option<AsTold> {
    let mut told: BTreeMap<usize, Arc<Solved>> = BTreeMap::new();
    for (card, _) in solved.with_inner().into_iter().skip(1).rev() {
        if let Some(of) = as_told_of(card, house, |index| told.get(&index).cloned()) {
            told.insert(card.index, Arc::new(of.solved));
        }
    }
    as_told_of(solved, house, |index| told.get(&index).cloned())
}

/// The same of one card, where it is known of each inside by its index.
pub(super) fn as_told_of(
    solved: &Solved,
    house: &House,
    inside: impl Fn(usize) -> Option<Arc<Solved>>,
) -> Option<AsTold> {
    let told_inside: Vec<Option<Arc<Solved>>> = solved.inner.iter().map(|of| inside(of.card.index)).collect();
    let mut card = Card::clone(&solved.card);
    let moved = heat_of_stage(solved, &mut card, house);
    let places = paste::places_told(&card, house);
    let behind: Vec<Vec<usize>> = solved.stages.iter().zip(paste::late_parts(&card, house)).map(doubted).collect();
    let pressed = paste::pressed(&card, house);
    let is_plain = moved.is_none() && places.iter().all(Option::is_none);
    if is_plain && behind.iter().chain(&pressed).all(Vec::is_empty) && told_inside.iter().all(Option::is_none) {
        return None;
    }
    for (stage, at) in card.stages.iter_mut().chain([&mut card.last]).zip(places) {
        stage.at = stage.at.or(at);
    }
    let mut stages = solved.stages.clone();
    for ((stage, behind), pressed) in stages.iter_mut().zip(behind).zip(pressed) {
        if !stage.in_order {
            stage.behind = behind;
        }
        stage.pressed = pressed;
    }
    // what a card inside is in doubt of is a doubt of what it goes into
    let of_inner = |(of, told): (&InnerCard, Option<Arc<Solved>>)| match told {
        Some(card) => InnerCard { card, grams: of.grams },
        None => of.clone(),
    };
    let inner = solved.inner.iter().zip(told_inside).map(of_inner).collect();
    Some(AsTold { solved: Solved { card: Arc::new(card), stages, inner, ..solved.clone() }, moved })
}

/// What goes in behind a straining and is not counted so.
fn doubted((stage, late): (&SolvedStage, Vec<usize>)) -> Vec<usize> {
    if stage.in_order || stage.course.kept.total_grams() <= 0.0 { Vec::new() } else { late }
}

/// The heat of a card that is one of a stage. Of spirit that stands below the key the key is believed: it warns of flames.
fn heat_of_stage(solved: &Solved, card: &mut Card, house: &House) -> Option<Diagnostic> {
    let heated = card.last.heated?;
    let is_strong = || solved.last().parts.iter().any(|part| part.found.per_gram.grams_of(Component::Ethanol) > 0.0);
    if card.stages.iter().any(|stage| stage.heated.is_some() || stage.not_heated.is_some()) || is_strong() {
        return None;
    }
    let behind = paste::put_in_behind(card, house, is_hot_clause);
    let stages = || card.stages.iter().flat_map(|stage| &stage.name);
    let is_stage = |part: &&Part| stages().any(|name| name.value == part.of.value);
    let behind: Vec<String> =
        behind.iter().filter(|part| !is_stage(part)).map(|part| part.label.value.clone()).collect();
    let told = paste::stage_told(card, house, is_hot_clause).filter(|_| !behind.is_empty())?;
    let stage = told.name.as_ref()?.value.clone();
    card.last.heated = None;
    let of_stage = card.stages.iter_mut().find(|of| of.name.as_ref().is_some_and(|name| name.value == stage))?;
    of_stage.heated = Some(heated);
    let go = if behind.len() == 1 { "goes" } else { "go" };
    let title = format!("by the steps `{stage}` is heated and {} {go} in behind it: dated so", listed(&behind));
    let help = format!(
        "move `heated` from above to below name = \"{stage}\"; or say in a step that all of it is heated again"
    );
    let found = Diagnostic::warning(Code::NotStated, title).at(heated.span, "of the whole card").help(help);
    Some(found.in_file(&card.file))
}
