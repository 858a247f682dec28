//! `check`: every finding for formulas, one's own or one that somebody sent.

use std::collections::HashMap;
use std::collections::hash_map::Entry;
use std::path::{Path, PathBuf};

use crate::assessment;
use crate::card::{self, Card};
use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::house::{self, House};
use crate::render;
use crate::solver::{Options, Solved, solve};

use super::Reply;

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
pub struct Args {
    /// Card files and folders; the current folder if none is given
    paths: Vec<PathBuf>,
    /// Report notes as well as warnings and errors
    #[arg(long)]
    notes: bool,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// Runs the verb.
pub fn run(args: &Args) -> Reply {
    let here = [PathBuf::from(".")];
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
        for card in &cards {
            check_card(card, house, &mut found);
        }
    }
    let once = each_once(found.into_iter().filter(|d| args.notes || d.severity > Severity::Note));
    if args.json {
        return Reply::whole(render::json::check(files, &once), &once);
    }
    let count = |severity| once.iter().filter(|d| d.severity == severity).count();
    let cards = if files == 1 { "card" } else { "cards" };
    let out = match (count(Severity::Error), count(Severity::Warning)) {
        (0, 0) if files == 0 => "no cards here: nothing was checked\n".to_owned(),
        (0, 0) => format!("{files} {cards} checked: nothing found\n"),
        (errors, warnings) => {
            let some = |n, word| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
            format!("{files} {cards} checked: {}, {}\n", some(errors, "error"), some(warnings, "warning"))
        }
    };
    Reply::new(out, once)
}

/// A card that another one needs is checked with both, and a card that cannot be read is met twice: each
/// finding is said once, in its graver form.
fn each_once(found: impl Iterator<Item = Diagnostic>) -> Vec<Diagnostic> {
    let mut once: Vec<Diagnostic> = Vec::new();
    let mut places = HashMap::new();
    for d in found {
        let key = (d.code, d.file.clone(), d.labels.first().map(|l| l.span.start), d.title.clone());
        match places.entry(key) {
            Entry::Vacant(free) => {
                free.insert(once.len());
                once.push(d);
            }
            Entry::Occupied(place) => {
                if let Some(first) = once.get_mut(*place.get()) {
                    first.severity = first.severity.max(d.severity);
                }
            }
        }
    }
    once
}

fn check_card(path: &Path, house: &House, found: &mut Vec<Diagnostic>) {
    let source = match house::read(path) {
        Ok(source) => source,
        Err(unread) => return found.push(*unread),
    };
    let (card, read) = card::read(source.file, source.text);
    let readable = !any_error(&read);
    found.extend(read);
    if let (Some(card), true) = (card, readable) {
        let outcome = solve(&card, house, &Options::default());
        found.extend(outcome.diagnostics);
        if let Some(solved) = outcome.solved {
            found.extend(crate::report::solve::law::of_class(&card, &solved));
            found.extend(stops(&card, &solved, house));
        }
    }
}

/// The cautions that say stop, for the store that the card is planned for.
fn stops(card: &Card, solved: &Solved, house: &House) -> Vec<Diagnostic> {
    let (stops, found) = assessment::stops(solved, house);
    let cautions = stops.into_iter().map(|c| {
        Diagnostic::error(Code::Stop, c.to_string())
            .at(card.name.span, "not to be made or served as planned")
            .help(format!("see stillroom date with this card; ask: {}", c.defer_to))
            .in_file(&card.file)
    });
    cautions.chain(found).collect()
}
