//! `serve`: one guest's glass.

use std::path::{Path, PathBuf};

use crate::card::Card;
use crate::cost::{SellAsked, price};
use crate::diagnostic::{Code, Diagnostic};
use crate::drinks::{self, WaterOfIce};
use crate::house::{self, House};
use crate::menu;
use crate::render;
use crate::report::batch::{AheadAsked, DrinkBatchView};
use crate::report::serve::{ServeReport, ServeView};

use super::Reply;
use super::open::{self, argument};

/// Show one guest's glass: what is poured, its strength, sugar and acid, allergens, cautions, cost and price.
///
/// DRINK is a card with `how`. Water from ice is weighed (`water = "32 g"`), or a range by the balance of heat. With
/// --make it is made ahead: grams for the bottles with the water of the ice in them, what is added for the guest, whether it
/// freezes, its date.
#[derive(clap::Args)]
#[command(after_help = "\
Example: what a guest gets
  stillroom serve formulas/clove-daiquiri.toml

Example: at another price
  stillroom serve formulas/clove-daiquiri.toml --sell-at \"11 GBP\"

Example: forty of them ahead, bottled, in the freezer, as a card of their own
  stillroom serve formulas/honey-old-fashioned.toml --make 40 --store freezer -o batch.toml")]
pub(crate) struct Args {
    /// The drink's file, or its name
    drink: String,
    /// What the guest pays, tax in it ("11 GBP"); by the menu, else by the house's margin if none is given
    #[arg(long, value_name = "MONEY")]
    sell_at: Option<String>,
    /// Make so many glasses ahead
    #[arg(long, value_name = "GLASSES", conflicts_with = "sell_at")]
    make: Option<String>,
    /// Leave the water of the ice out of the bottles: each glass is shaken or stirred on its ice
    #[arg(long, requires = "make")]
    undiluted: bool,
    /// The store that the bottles are kept in; the one that a card is planned for if none is given
    #[arg(long, value_name = "STORE", requires = "make")]
    store: Option<String>,
    /// The day on which the bottles are filled; today if none is given
    #[arg(long, value_name = "YYYY-MM-DD", requires = "make")]
    made: Option<String>,
    /// What a bottle holds ("500 ml"); what the house says, else 700 ml
    #[arg(long, value_name = "VOLUME", requires = "make")]
    bottle: Option<String>,
    /// Write what is bottled as a card
    #[arg(short, long, value_name = "FILE", requires = "make")]
    output: Option<PathBuf>,
    /// Every caution in full, and what was taken for granted of the ice
    #[arg(long)]
    full: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut found = Vec::new();
    if args.make.is_some() {
        let glasses = argument(args.make.as_deref(), "--make 40", |n| AheadAsked::GLASSES.read(n), &mut found);
        return open::card(&args.drink, &[], found)
            .reply(args.json, render::text::batch, |card, house, found| ahead(args, card, house, glasses?, found));
    }
    let at = argument(args.sell_at.as_deref(), "--sell-at \"11 GBP\"", price::amount, &mut found);
    let text = |report: &ServeReport| render::text::serve(report, super::page().with_full(args.full));
    open::card(&args.drink, &[], found).reply(args.json, text, |card, house, found| {
        let sell = match at {
            Some(_) => SellAsked { at, ..SellAsked::default() },
            None => on_menu(card),
        };
        let glass = drinks::glass(card, house, Some(open::today()), sell, found)?;
        Some(ServeView::new(card, &glass, house))
    })
}

/// What the menu beside the card asks for it; what is wrong with that `menu` says.
pub(super) fn on_menu(card: &Card) -> SellAsked {
    let menu = open::beside(Path::new(&*card.file), open::MENU, &mut Vec::new());
    menu.map(|source| menu::read(&source.text, &source.file, &mut Vec::new()).sells_at(&card.name.value))
        .unwrap_or_default()
}

fn ahead(args: &Args, card: &Card, house: &House, glasses: f64, found: &mut Vec<Diagnostic>) -> Option<DrinkBatchView> {
    let bottle = |bottle: &str| AheadAsked::bottle(bottle, &house.customs());
    let bottle_ml = argument(args.bottle.as_deref(), "--bottle \"500 ml\"", bottle, found);
    let made = open::day("--made", args.made.as_deref(), found).unwrap_or_else(open::today);
    let dilution = if args.undiluted { WaterOfIce::OnItsIce } else { WaterOfIce::InTheBottle };
    let asked = AheadAsked { glasses, dilution, store: args.store.as_deref(), bottle_ml, made };
    let mut view = DrinkBatchView::of_drink(card, house, &asked, found)?;
    let path = args.output.as_deref();
    match path.and_then(|path| not_complete(path, &view).or_else(|| too_thick(args, path, &view))) {
        Some(refused) => found.push(refused),
        None => view.written = path.and_then(|path| written(path, &view.card, found)),
    }
    Some(view)
}

/// What the card of a drink still asks would be on no bottle of it, and in no label.
fn not_complete(path: &Path, view: &DrinkBatchView) -> Option<Diagnostic> {
    let open = view.unidentified.first()?;
    let title = format!("{} is not written: the card of the drink is not whole", path.display());
    Some(Diagnostic::error(Code::DrinkRule, title).help(&open.question))
}

/// A bottle that does not pour where it is to stand gets no card.
fn too_thick(args: &Args, path: &Path, view: &DrinkBatchView) -> Option<Diagnostic> {
    if view.slush.pours() {
        return None;
    }
    let title = format!("{} is not written: out of the {} it does not pour", path.display(), view.store.store);
    let help = match view.pours_out_of.first() {
        Some(store) => {
            let (drink, glasses) = (&args.drink, args.make.as_deref().unwrap_or_default());
            let undiluted = if args.undiluted { " --undiluted" } else { "" };
            let file = path.display();
            format!(
                "keep it where it pours: stillroom serve {drink:?} --make {glasses}{undiluted} --store {store:?} -o \"{file}\""
            )
        }
        None => "it pours in no store of the house: make it stronger".to_owned(),
    };
    Some(Diagnostic::error(Code::DrinkRule, title).help(help))
}

/// The name of the file, where the card could be written; nothing is ever written over.
fn written(path: &Path, text: &str, found: &mut Vec<Diagnostic>) -> Option<String> {
    let name = path.display().to_string();
    house::write_new(path, text)
        .map_err(|error| {
            let title = format!("{name} could not be written: {}", house::reason(&error));
            let help = "nothing is ever written over: take another name";
            found.push(Diagnostic::error(Code::CannotWrite, title).help(help));
        })
        .ok()?;
    Some(name)
}
