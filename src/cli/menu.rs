//! `menu`: the drinks that are sold, side by side.

use std::path::{Path, PathBuf};

use crate::house;
use crate::menu::OccasionAsked;
use crate::render::{self, csv};
use crate::report::menu::{MenuQuestion, MenuView};
use crate::units::readers;

use super::Reply;
use super::book_file;
use super::open::{self, BOARD, MENU, argument};
use super::output::{self, Output, What};

/// Show the drinks of menu.toml side by side: price, pour cost, what each earns, strength, units, allergens.
///
/// menu.toml lies beside the cards: drinks by the name of their card, prices, what is sold. What is not stated of an allergen is
/// shown as such, never as none. `stillroom plan` takes from it what is made and ordered for a week; with --guests, or [event]
/// in it, the same is said for one event.
#[derive(clap::Args)]
#[command(after_help = "\
Example: the page, and the table for the spreadsheet
  stillroom menu formulas --csv menu.csv

Example: what falls away when a syrup is out
  stillroom menu formulas --without \"Rich muscovado syrup\"

Example: an event, with what to prep and to order for it
  stillroom menu formulas --guests 120 --hours 3 --on 2026-12-12

menu.toml reads like this:
  [drink.\"Clove daiquiri\"]
  price = \"9.50 GBP\"
  sold  = 70                       # a week; by day: { Fri = 20, Sat = 25 }
  share = \"40 %\"                   # of the glasses of an event

  [event]
  guests   = 120
  hours    = 3
  per_hour = 1                     # drinks for each guest
  reserve  = \"10 %\"")]
pub(crate) struct Args {
    /// The menu, or the folder that it lies in
    #[arg(default_value = ".")]
    menu: PathBuf,
    /// Say which drinks cannot be made without this product or ingredient
    #[arg(long, value_name = "NAME")]
    without: Vec<String>,
    /// Guests of an event
    #[arg(long, value_name = "N")]
    guests: Option<String>,
    /// How many hours they drink
    #[arg(long, value_name = "N")]
    hours: Option<String>,
    /// Drinks for each of them in an hour; 1 if none is given
    #[arg(long, value_name = "N")]
    per_hour: Option<String>,
    /// What is made beyond that ("10 %")
    #[arg(long, value_name = "PERCENT")]
    reserve: Option<String>,
    /// The day of the event; two weeks ahead if none is given
    #[arg(long, value_name = "YYYY-MM-DD")]
    on: Option<String>,
    /// Write the menu as CSV
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,
    /// For programs
    #[arg(long)]
    json: bool,
}

const HELP: &str = "a menu lies in menu.toml beside the cards; stillroom menu --help shows one";

pub(crate) fn run(args: &Args) -> Reply {
    let path = if args.menu.is_dir() { args.menu.join(MENU) } else { args.menu.clone() };
    let (house, mut found) = open::house(path.parent().unwrap_or(Path::new("")));
    let source = house::read(&path).map_err(|unread| found.push(unread.help(HELP))).ok();
    let event = OccasionAsked {
        guests: argument(args.guests.as_deref(), "--guests 120", OccasionAsked::guests, &mut found),
        hours: argument(args.hours.as_deref(), "--hours 3", OccasionAsked::hours, &mut found),
        per_hour: argument(args.per_hour.as_deref(), "--per-hour 1.5", OccasionAsked::per_hour, &mut found),
        reserve: argument(args.reserve.as_deref(), "--reserve \"10 %\"", readers::fraction, &mut found),
        on: open::day("--on", args.on.as_deref(), &mut found),
    };
    let board = open::beside(&path, BOARD, &mut found);
    let root = book_file::root(&house, path.parent().unwrap_or(Path::new("")));
    // what is wrong with its lines the verbs of lots say
    let book = book_file::is_at(&root).then(|| book_file::read(&root, &mut Vec::new()));
    let question = source.as_ref().map(|source| MenuQuestion {
        source,
        board: board.as_ref(),
        without: &args.without,
        book: book.as_ref(),
        event,
        today: open::today(),
    });
    let view = question.and_then(|question| MenuView::of(question, &house, &mut found));
    if let (Some(view), Some(to)) = (&view, &args.csv) {
        let asked = Output { option: "--csv", path: to, what: What::Table(csv::menu_csv(view)) };
        found.extend(output::write(vec![asked], &[path.as_path()]));
    }
    open::reply(view, found, args.json, render::text::menu)
}
