//! `check`: every finding for formulas, one's own or one that somebody sent.

use std::collections::HashMap;
use std::num::NonZero;
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::thread;

use crate::diagnostic::{Diagnostic, Severity};
use crate::house::{self, House};
use crate::render;
use crate::report::check::{CheckView, check_card, check_house, each_once};

use super::open::{BOARD, MENU};
use super::{Reply, locate, open};

/// Find what is wrong in formulas: one's own, or one that somebody sent.
///
/// Reads and solves every card and reports all that is found: a ratio without a basis, a yield that
/// its parts cannot make, a "liqueur" that computes to 11 %.
#[derive(clap::Args)]
#[command(after_help = "\
Example: the whole house
  stillroom check formulas

Example: a card from a colleague
  stillroom check their-dram.toml")]
pub(crate) struct Args {
    /// Card files and folders; the house here if none is given
    paths: Vec<PathBuf>,
    /// Report notes as well as warnings and errors
    #[arg(long)]
    notes: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let here = [locate::home()];
    let paths = if args.paths.is_empty() { &here[..] } else { &args.paths };
    let mut found = Vec::new();
    let mut houses: HashMap<PathBuf, House> = HashMap::new();
    let mut files = 0;
    for path in paths {
        let cards = if path.is_dir() { house::card_paths(path) } else { vec![path.clone()] };
        files += cards.len();
        let folder = if path.is_dir() { path.clone() } else { path.parent().unwrap_or(Path::new("")).to_owned() };
        let house = houses.entry(folder.clone()).or_insert_with(|| {
            let (house, of_house) = House::find(&folder);
            found.extend(of_house);
            found.extend(house.said().cloned());
            house
        });
        if path.is_dir() {
            let board = open::beside(&path.join(BOARD), BOARD, &mut found);
            let menu = open::beside(&path.join(MENU), MENU, &mut found);
            found.extend(check_house(house, board.as_ref(), menu.as_ref()));
        }
        found.extend(of_cards(&cards, house));
    }
    let once = each_once(found.into_iter().filter(|d| args.notes || d.severity > Severity::Note));
    open::reply(Some(CheckView { files }), once, args.json, render::text::check)
}

/// What is found in these cards, in their order; shared out among the cores, for a house may have thousands.
fn of_cards(cards: &[PathBuf], house: &House) -> Vec<Diagnostic> {
    let of = |card: &PathBuf| match house::read(card) {
        Ok(source) => check_card(source, house),
        Err(unread) => vec![*unread],
    };
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let share = cards.len().div_ceil(cores).max(1);
    thread::scope(|scope| {
        let each = |share| scope.spawn(move || <[PathBuf]>::iter(share).flat_map(of).collect::<Vec<_>>());
        let running: Vec<_> = cards.chunks(share).map(each).collect();
        running.into_iter().flat_map(|one| one.join().unwrap_or_else(|panicked| resume_unwind(panicked))).collect()
    })
}
