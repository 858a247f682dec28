//! `plan`: from pars to a prep list and an order list.

use std::path::{Path, PathBuf};

use crate::cost::{self, Bill};
use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::house::{self, House};
use crate::plan::orders::{Order, orders};
use crate::plan::{Board, Kitchen, Plan, board, csv, findings, on_hand, schedule};
use crate::render;
use crate::shelf_life::Draws;

use super::Reply;
use super::open;
use super::output::{self, Output, What};

/// Plan the days ahead: what to start, make, use first and throw away, day by day, and what to order for it.
///
/// plan.toml lies beside the formulas: pars, use, what is on hand with its dates, closed days, packs and lead times.
/// Nothing is planned to be made after it is needed, or to expire before it is used; what cannot be met is said, with
/// the first day on which it can be.
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
pub struct Args {
    /// The plan, or the folder that it lies in
    #[arg(default_value = ".")]
    board: PathBuf,
    /// The first day, in place of the board's
    #[arg(long, value_name = "YYYY-MM-DD")]
    from: Option<String>,
    /// What is on hand: product,amount,use_by
    #[arg(long, value_name = "FILE.csv")]
    on_hand: Option<PathBuf>,
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

const HELP: &str = "a plan lies in plan.toml beside the formulas; stillroom plan --help shows one";
/// The name of the board in a house's folder.
const BOARD: &str = "plan.toml";

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let path = if args.board.is_dir() { args.board.join(BOARD) } else { args.board.clone() };
    let (house, mut found) = open::house(path.parent().unwrap_or(Path::new("")));
    let made = read(args, &path, &house, &mut found).and_then(|kitchen| made(kitchen, &house, &mut found));
    if let Some(Made { plan, orders, bill }) = &made {
        found.extend(findings::of(plan, orders));
        let files = [
            ("--csv-prep", &args.csv_prep, csv::prep_csv(plan, orders)),
            ("--csv-order", &args.csv_order, csv::order_csv(plan, orders, bill.as_ref())),
        ];
        let asked = files
            .into_iter()
            .filter_map(|(option, path, text)| Some(Output { option, path: path.as_ref()?, what: What::Table(text) }));
        let read: Vec<&Path> = args.on_hand.iter().map(PathBuf::as_path).chain([path.as_path()]).collect();
        found.extend(output::write(asked.collect(), &read));
    }
    if args.json {
        let shown = made.as_ref().map(|m| (&m.plan, m.orders.as_slice(), m.bill.as_ref()));
        return Reply::whole(render::json::plan::plan(shown, &found), &found);
    }
    let name = house.settings.name.as_deref();
    let text = |made: &Made| render::text::plan(name, &made.plan, &made.orders, made.bill.as_ref());
    let out = made.as_ref().map_or_else(String::new, text);
    Reply::new(out, found.into_iter().filter(|d| d.severity > Severity::Note).collect())
}

/// The board and its cards; none where something must be mended first.
fn read(args: &Args, path: &Path, house: &House, found: &mut Vec<Diagnostic>) -> Option<Kitchen> {
    let source = house::read(path).map_err(|unread| found.push(unread.help(HELP))).ok()?;
    let mut board: Board = board::read(&source.text, &source.file, found);
    if let Some(path) = &args.on_hand {
        match house::read(path) {
            Ok(counted) => {
                let rows = on_hand::read(&counted.text, &counted.file, found);
                on_hand::put_on(&mut board, rows, &counted.file, house, found);
            }
            Err(unread) => found.push(*unread),
        }
    }
    let from = open::day("--from", args.from.as_deref(), found).or(board.from).unwrap_or_else(open::today);
    let (kitchen, more) = Kitchen::of(&board, &source.file, house, from, Draws::default());
    found.extend(more);
    (!any_error(found)).then_some(kitchen)
}

/// A plan with its order list and what that costs.
struct Made {
    plan: Plan,
    orders: Vec<Order>,
    bill: Option<Bill>,
}

fn made(kitchen: Kitchen, house: &House, found: &mut Vec<Diagnostic>) -> Option<Made> {
    match schedule(&kitchen.calendar, kitchen.products) {
        Ok(plan) => {
            let orders = orders(&plan, &kitchen.stocked);
            let bought = |order: &Order| Some((kitchen.ingredients.get(&order.of.name)?, order.usable_grams()));
            let list: Vec<_> = orders.iter().filter_map(bought).collect();
            let (bill, of_prices) = cost::bill(&list, house, Some(kitchen.calendar.from));
            found.extend(of_prices);
            Some(Made { plan, orders, bill })
        }
        Err(ring) => {
            found.push(
                Diagnostic::error(
                    Code::PlanCycle,
                    format!("these go into each other in a ring: {}", ring.join(" -> ")),
                )
                .help("take one of them out of the other's card"),
            );
            None
        }
    }
}
