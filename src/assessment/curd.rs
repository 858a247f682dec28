//! Milk that a drink is cleared with: whether a line says that its curd is strained off.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::Component;
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::spelling::fold;
use crate::vocabulary::table::rows;
use crate::vocabulary::{Kind, ProductClass, Washed};

use super::dairy::MOSTLY_FAT;

#[derive(Deserialize)]
struct ClearedRow {
    phrase: String,
}

/// What people call a drink that is cleared with milk, folded.
static CLEARED: LazyLock<Vec<String>> = LazyLock::new(|| {
    let all: Vec<ClearedRow> = rows("cleared-words.csv", include_str!("cleared-words.csv"));
    all.iter().map(|row| format!(" {} ", fold(&row.phrase))).collect()
});

/// Milk that is strained off and of which nobody says that it curdled: until then it counts as milk that stays.
fn strained_off(solved: &Solved) -> Option<Diagnostic> {
    let card = &solved.card;
    let is_strained = |part: &&SolvedPart| match &part.found.what {
        Material::Ingredient(of) => {
            let is_thin = of.per_gram.grams_of(Component::Fat) < MOSTLY_FAT;
            of.kind == Some(Kind::Dairy) && is_thin && part.feed.holds.is_some() && part.mass_g > 0.0
        }
        Material::Card(_) | Material::Stage(_) => false,
    };
    let mut stages = card.all_stages().zip(&solved.stages).filter(|(stage, _)| stage.washed.is_none());
    let part = stages.find_map(|(_, made)| made.parts.iter().find(is_strained))?;
    let written = card.all_parts().map(|(_, written)| written).find(|written| written.label.value == part.label)?;
    let title = format!("`{}` is strained off, and counts as milk that stays in it", part.label);
    let help = "where acid or spirit curdles it and the curd is strained off, write washed = \"milk\" on the card";
    Some(
        Diagnostic::warning(Code::NotStated, title)
            .at(written.label.span, "does it curdle?")
            .help(help)
            .in_file(&card.file),
    )
}

/// What a card leaves open of its milk: whose curd nobody strains off, or what that curd was.
pub(crate) fn asked(solved: &Solved) -> Option<Diagnostic> {
    stays_in(solved).or_else(|| strained_off(solved))
}

/// The question of the first milk whose curd nobody strains off, in a drink that is washed with milk or called so. It counts as milk
/// that stays in it; only somebody who strains it has less in the bottle than went in.
fn stays_in(solved: &Solved) -> Option<Diagnostic> {
    let card = &solved.card;
    let name = format!(" {} ", fold(&card.name.value));
    let is_class = card.class.as_ref().is_some_and(|class| class.value == ProductClass::MilkPunch);
    let is_called = is_class || CLEARED.iter().any(|phrase| name.contains(phrase));
    let stays = |part: &&SolvedPart| match &part.found.what {
        Material::Ingredient(of) => of.kind == Some(Kind::Dairy) && part.feed.holds.is_none() && part.mass_g > 0.0,
        Material::Card(_) | Material::Stage(_) => false,
    };
    let mut stages = card.all_stages().zip(&solved.stages);
    let part = stages.find_map(|(stage, made)| {
        let is_washed = is_called || stage.washed == Some(Washed::Milk);
        made.parts.iter().filter(|_| is_washed).find(stays)
    })?;
    let written = card.all_parts().map(|(_, written)| written).find(|written| written.label.value == part.label)?;
    let label = &part.label;
    Some(
        Diagnostic::warning(Code::NotStated, format!("no line says that the curd of `{label}` is strained off"))
            .at(written.label.span, "all of it is counted as in the bottle, and as milk that stays in it")
            .help(format!(
                "weigh the wet curd and write \"{label}\" = {{ amount = …, strained = true, holds = … }}, holds what the curd weighs \
                 more than the milk, for each gram of milk (80 g from 200 g: -0.6), and washed = \"milk\""
            ))
            .in_file(&card.file),
    )
}
