//! `plan`: from pars to a prep list and an order list.

use std::path::{Path, PathBuf};

use crate::house;
use crate::lots::LotState;
use crate::render::{self, csv};
use crate::report::plan::PlanView;
use crate::report::plan_question::PlanQuestion;

use super::Reply;
use super::book_file;
use super::open::{self, BOARD, MENU};
use super::output::{self, Output, What};

/// Plan the days ahead: what to start, make, use first and throw away, day by day, and what to order for it.
///
/// plan.toml lies beside the formulas: pars, use, what is on hand with its dates, closed days, packs and lead times.
/// Nothing is planned to be made after it is needed, or to expire before it is used; what cannot be met is said, with
/// the first day on which it can be. What menu.toml beside it says is sold takes its syrups, juices and bottles; where the board
/// has a `use` of its own for a product, that counts. Without a board what the menu takes in 7 days is planned.
#[derive(clap::Args)]
#[command(after_help = "\
Example: the week on the board
  stillroom plan formulas

Example: from another day, with what was counted this morning, for the spreadsheet
  stillroom plan formulas --from 2026-12-07 --on-hand counted.csv --csv-prep prep.csv --csv-order order.csv

plan.toml reads like this:
  [plan]
  from   = 2026-11-30
  days   = 7
  closed = [\"Mon\"]

  [product.\"Lime cordial\"]
  par     = \"2 L\"
  use     = \"6 L a week\"
  on_hand = [{ amount = \"1.2 L\", use_by = 2026-12-03 }]

  [ingredient.\"overproof white rum\"]
  pack = \"700 ml\"
  lead = \"2 days\"")]
pub(crate) struct Args {
    /// The plan, or the folder that it lies in
    #[arg(default_value = ".")]
    board: PathBuf,
    /// The first day, in place of the board's
    #[arg(long, value_name = "YYYY-MM-DD")]
    from: Option<String>,
    /// What is on hand: product,amount,use_by
    #[arg(long, value_name = "FILE.csv")]
    on_hand: Option<PathBuf>,
    /// Count what the book of lots has in date as on hand, where nothing else says what there is; what is bottled of a drink is poured first
    #[arg(long)]
    by_book: bool,
    /// Write the prep list as CSV
    #[arg(long, value_name = "FILE")]
    csv_prep: Option<PathBuf>,
    /// Write the order list as CSV
    #[arg(long, value_name = "FILE")]
    csv_order: Option<PathBuf>,
    /// For programs
    #[arg(long)]
    json: bool,
}

const HELP: &str =
    "a plan lies in plan.toml beside the formulas, or is made of the menu.toml there; stillroom plan --help shows one";

pub(crate) fn run(args: &Args) -> Reply {
    let path = if args.board.is_dir() { args.board.join(BOARD) } else { args.board.clone() };
    let (house, mut found) = open::house(path.parent().unwrap_or(Path::new("")));
    let menu = open::beside(&path, MENU, &mut found);
    // what a menu takes can be planned without a board
    let is_menu_alone = menu.is_some() && args.board.is_dir() && !path.exists();
    let board =
        (!is_menu_alone).then(|| house::read(&path).map_err(|unread| found.push(unread.help(HELP))).ok()).flatten();
    let counted = args.on_hand.as_ref().map(|path| house::read(path).map_err(|unread| found.push(*unread)).ok());
    let from = open::day("--from", args.from.as_deref(), &mut found);
    let counted = counted.flatten();
    let root = book_file::root(&house, path.parent().unwrap_or(Path::new("")));
    // what is wrong with its lines the verbs of lots say
    let book = book_file::is_at(&root).then(|| book_file::read(&root, &mut Vec::new()));
    let sheet = |lot: &LotState| book_file::kept_sheet(&root, lot);
    let question = (board.is_some() || is_menu_alone).then(|| PlanQuestion {
        board: board.as_ref(),
        counted: counted.as_ref(),
        book: book.as_ref(),
        sheet: &sheet,
        by_book: args.by_book,
        menu: menu.as_ref(),
        from,
        today: open::today(),
    });
    let view = question.and_then(|question| PlanView::of_board(question, &house, &mut found));
    if let Some(view) = &view {
        let files = [
            ("--csv-prep", &args.csv_prep, csv::prep_csv(view)),
            ("--csv-order", &args.csv_order, csv::order_csv(view)),
        ];
        let asked = files
            .into_iter()
            .filter_map(|(option, path, text)| Some(Output { option, path: path.as_ref()?, what: What::Table(text) }));
        let menu = menu.as_ref().map(|menu| Path::new(&*menu.file));
        let read: Vec<&Path> = args.on_hand.iter().map(PathBuf::as_path).chain([path.as_path()]).chain(menu).collect();
        found.extend(output::write(asked.collect(), &read));
    }
    open::reply(view, found, args.json, render::text::plan)
}
