//! `swap`: the same sweetness, sourness and strength from another ingredient.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::assessment::{self, Which};
use crate::card::Measured;
use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::house::House;
use crate::render;
use crate::safety::{Caution, Level, names};
use crate::sheet::Properties;
use crate::sheet::properties::Acidity;
use crate::shelf_life::Draws;
use crate::solver::Solved;
use crate::solver::swap::{Swapped, allergens_added, swap};
use crate::units::celsius;

use super::Reply;
use super::open;

/// Put one sugar, syrup, spirit, juice or acid in place of another: the same sugar, acid and alcohol in the same
/// volume.
///
/// FILE is a formula file, or the name of a product of the house in this folder. The new part may be an
/// ingredient or a formula of the house. What cannot be kept (flavour, colour, allergens) is said.
#[derive(clap::Args)]
#[command(after_help = "\
Example: honey in place of sugar
  stillroom swap formulas/lime-cordial.toml --old \"white sugar\" --new honey

Example: a weaker rum, in the stage where it is used
  stillroom swap formulas/lime-and-clove-liqueur.toml --old \"overproof white rum\" --new \"white rum 40 %\"")]
pub struct Args {
    /// The formula file, or the product's name
    file: String,
    /// The part to take out
    #[arg(long, value_name = "PART")]
    old: String,
    /// What goes in for it
    #[arg(long, value_name = "INGREDIENT")]
    new: String,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let opened = open::card(&args.file);
    let mut diagnostics = opened.diagnostics;
    let mut answer = None;
    if let (Some(card), false) = (&opened.card, any_error(&diagnostics)) {
        let (swapped, found) = swap(card, &opened.house, args.old.trim(), args.new.trim());
        diagnostics.extend(found);
        diagnostics.extend(swapped.iter().flat_map(|s| dangers(s, &opened.house)));
        answer = swapped.map(|s| {
            let of = |m| Properties::of(m, celsius(20.0), &opened.house, card.name.span, &Acidity::default()).0;
            let (before, after) = (of(s.before.bottled()), of(s.after.bottled()));
            (s, before, after)
        });
    }
    if args.json {
        let answer = answer.as_ref().map(|(swapped, _, after)| (swapped, after));
        let name = opened.card.as_ref().map(|c| c.name.value.as_str());
        return Reply::whole(render::json::swap(name, answer, &diagnostics), &diagnostics);
    }
    let (notes, findings): (Vec<_>, Vec<_>) = diagnostics.into_iter().partition(|d| d.severity == Severity::Note);
    match &answer {
        Some((swapped, before, after)) => Reply::new(render::text::swapped(swapped, [before, after], &notes), findings),
        None => Reply::new(String::new(), findings),
    }
}

/// What the new part brings that the old one did not: allergens that its name gives away, and what says stop.
fn dangers(swapped: &Swapped, house: &House) -> Vec<Diagnostic> {
    let made = open::today();
    let judge = |solved: &Solved| {
        let mut solved = solved.clone();
        // What was read of the old batch says nothing of the new one.
        Arc::make_mut(&mut solved.card).measured = Measured::default();
        assessment::assess(&solved, house, made, Which::Planned, Draws::default()).0
    };
    let (before, after) = (judge(&swapped.before), judge(&swapped.after));
    let said = swapped.allergens().0;
    let said: BTreeSet<String> = said.iter().flat_map(|stated| names::read_allergen(stated)).collect();
    let came = after.allergens.iter().filter(|a| !before.allergens.contains(a) && !said.contains(*a));
    let came: Vec<String> = came.map(|a| a.replace('_', " ")).collect();
    let mut found: Vec<Diagnostic> = allergens_added(&swapped.new, &came).into_iter().collect();
    let stopped = |c: &&Caution| c.severity == Level::Stop && !before.cautions.iter().any(|old| old.code == c.code);
    found.extend(
        after
            .cautions
            .iter()
            .filter(stopped)
            .map(|c| Diagnostic::warning(Code::StopAdded, format!("with `{}`: STOP  {c}", swapped.new))),
    );
    found
}
