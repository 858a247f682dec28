//! Milk that a drink is cleared with: whether a line says that its curd is strained off.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::card::Stage;
use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::larder::Ingredient;
use crate::mixture::Component;
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
    let is_washed = |stage: &Stage| is_called || stage.washed == Some(Washed::Milk);
    let label = first_milk(solved, is_washed, |part, _| part.feed.holds.is_none())?;
    let title = format!("no line says that the curd of `{}` is strained off", label.value);
    let help = format!(
        "weigh the wet curd and write \"{}\" = {{ amount = …, strained = true, holds = … }}, holds what the curd weighs more than the \
         milk, for each gram of milk (80 g from 200 g: -0.6), and washed = \"milk\"",
        label.value
    );
    let at = "all of it is counted as in the bottle, and as milk that stays in it";
    Some(Diagnostic::warning(Code::NotStated, title).at(label.span, at).help(help).in_file(&card.file))
}

/// Milk that is strained off and of which nobody says that it curdled: until then it counts as milk that stays.
fn strained_off(solved: &Solved) -> Option<Diagnostic> {
    let is_thin = |of: &Ingredient| of.per_gram.grams_of(Component::Fat) < MOSTLY_FAT;
    let is_it = |part: &SolvedPart, of: &Ingredient| part.feed.holds.is_some() && is_thin(of);
    let label = first_milk(solved, |stage| stage.washed.is_none(), is_it)?;
    let title = format!("`{}` is strained off, and counts as milk that stays in it", label.value);
    let help = "where acid or spirit curdles it and the curd is strained off, write washed = \"milk\" on the card";
    let found = Diagnostic::warning(Code::NotStated, title).at(label.span, "does it curdle?").help(help);
    Some(found.in_file(&solved.card.file))
}

/// The name, as it is written, of the first dairy of these stages that is such a part.
fn first_milk(
    solved: &Solved,
    of_stage: impl Fn(&Stage) -> bool,
    is_it: impl Fn(&SolvedPart, &Ingredient) -> bool,
) -> Option<&Spanned<String>> {
    let card = &solved.card;
    let is_milk = |part: &&SolvedPart| {
        let dairy = part.found.what.ingredient().filter(|of| of.kind == Some(Kind::Dairy) && part.mass_g > 0.0);
        dairy.is_some_and(|of| is_it(part, of))
    };
    let mut stages = card.all_stages().zip(&solved.stages).filter(|(stage, _)| of_stage(stage));
    let part = stages.find_map(|(_, made)| made.parts.iter().find(is_milk))?;
    card.all_parts().map(|(_, written)| &written.label).find(|label| label.value == part.label)
}
