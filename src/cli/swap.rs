//! `swap`: the same sweetness, sourness and strength from another ingredient.

use crate::aim;
use crate::assessment;
use crate::drinks;
use crate::render;
use crate::report::glass_swap::GlassSwapView;
use crate::report::swap::SwapView;
use crate::solver::swap::swap;

use super::Reply;
use super::open;

/// Put one sugar, syrup, spirit, juice or acid in place of another: the same sugar, acid and alcohol in the same
/// volume.
///
/// In a drink it is poured alike, and in the jigger steps that bring the glass nearest to what it was.
/// FILE is a formula file, or the name of a product of the house in this folder. The new part may be an
/// ingredient or a formula of the house. What cannot be kept (flavour, colour, allergens) is said.
#[derive(clap::Args)]
#[command(after_help = "\
Example: honey in place of sugar
  stillroom swap formulas/lime-cordial.toml --old \"white sugar\" --new honey

Example: a weaker rum, in the stage where it is used
  stillroom swap formulas/lime-and-clove-liqueur.toml --old \"overproof white rum\" --new \"white rum 40 %\"

Example: another liqueur in a drink
  stillroom swap formulas/clove-daiquiri.toml --old \"Lime and clove liqueur\" --new \"Lime and clove liqueur, light\"")]
pub(crate) struct Args {
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

pub(crate) fn run(args: &Args) -> Reply {
    let opened = open::card(&args.file, &[], Vec::new());
    if opened.card.as_ref().is_some_and(|card| card.is_drink()) {
        return opened.reply(args.json, render::text::glass_swap, |card, house, found| {
            let house = &aim::with_product(args.new.trim(), house, found)?;
            let swap = drinks::swap_in_glass(card, house, args.old.trim(), args.new.trim(), found)?;
            found.extend(swap.judged.findings(&swap.new));
            Some(GlassSwapView::new(&swap))
        });
    }
    opened.reply(args.json, render::text::swap, |card, house, found| {
        let house = &aim::with_product(args.new.trim(), house, found)?;
        let (swapped, of_swap) = swap(card, house, args.old.trim(), args.new.trim());
        found.extend(of_swap);
        let swapped = swapped?;
        let judged = assessment::swapped::compare(&swapped.before, &swapped.after, house);
        found.extend(judged.findings(&swapped.new));
        Some(SwapView::new(&swapped, &judged, house))
    })
}
