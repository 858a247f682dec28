//! `publish`: the bench page.

use std::fs;
use std::path::{Path, PathBuf};

use crate::card;
use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::house::{self, House};
use crate::publish::card::PageCard;
use crate::publish::pages::{OpenedHouse, PageWith, Pages};
use crate::publish::site::{self, INDEX, PageSolver, SiteFile, SitePlan};
use crate::render;
use crate::report::publish::PublishView;

use super::book::{self, OpenedBook};
use super::open::MENU;
use super::output::{self, Output, What};
use super::{Reply, locate, open};

/// Write cards as a page for the bench: on a phone, with no signal, or on paper.
///
/// OUT is a folder that is empty or holds an earlier page, or with --one-file a file that ends in .html. The page loads
/// nothing from anywhere; prices stay out of it, those of the menu too, and so does the book of lots. CARDS are cards or
/// folders; the house here if none is given.
#[derive(clap::Args)]
#[command(after_help = "\
Example: the whole house, in a folder for any host of static files
  stillroom publish page formulas

Example: two cards in one file, for a memory stick or to be sent
  stillroom publish syrups.html formulas/plain-syrup.toml formulas/honey-syrup.toml --one-file

Example: with the board of what is due, for the house itself
  stillroom publish page formulas --with-lots")]
pub(crate) struct Args {
    /// The folder to write; with --one-file the file
    out: PathBuf,
    /// Card files and folders; the house here if none is given
    cards: Vec<PathBuf>,
    /// All of it in one file
    #[arg(long)]
    one_file: bool,
    /// With prices and what each batch costs
    #[arg(long)]
    with_costs: bool,
    /// With the book of lots as a board: who made what, what was tasted and thrown away
    #[arg(long)]
    with_lots: bool,
    /// Take the solver of the page from this folder, where it was built
    #[arg(long, value_name = "FOLDER", hide = true)]
    solver: Option<PathBuf>,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// The files of the solver, as `cargo run -p xtask -- page` writes them.
const PARTS: [&str; 3] = ["solver.wasm.gz", "page.js", "keeper.js"];

#[cfg(feature = "solver-page")]
fn built_in() -> Option<PageSolver> {
    const SCRIPTS: [&str; 2] = [
        include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/target/page/page.js")),
        include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/target/page/keeper.js")),
    ];
    let packed = include_bytes!(concat!(env!("CARGO_MANIFEST_DIR"), "/target/page/solver.wasm.gz"));
    let [script, keeper] = SCRIPTS.map(str::to_owned);
    Some(PageSolver { packed: packed.to_vec(), script, keeper })
}

#[cfg(not(feature = "solver-page"))]
fn built_in() -> Option<PageSolver> {
    None
}

fn solver_in(folder: &Path, found: &mut Vec<Diagnostic>) -> Option<PageSolver> {
    let mut read = |name: &str| {
        let path = folder.join(name);
        let unread = |error| {
            let title = format!("{} cannot be read: {}", path.display(), house::reason(&error));
            found.push(Diagnostic::error(Code::CannotRead, title).help("build it: cargo run -p xtask -- page"));
        };
        fs::read(&path).map_err(unread).ok()
    };
    let [packed, script, keeper] = PARTS.map(&mut read);
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    Some(PageSolver { packed: packed?, script: text(script?), keeper: text(keeper?) })
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut found = Vec::new();
    let solver = match &args.solver {
        Some(folder) => solver_in(folder, &mut found),
        None => built_in(),
    };
    found.extend(not_ours(args));
    let here = [locate::home()];
    let asked = if args.cards.is_empty() { &here[..] } else { &args.cards };
    let view = if any_error(&found) { None } else { published(args, asked, solver.as_ref(), &mut found) };
    open::reply(view, found, args.json, render::text::publish)
}

/// The houses of the cards that were named; of a folder all of its cards, and its menu.
fn opened(asked: &[PathBuf], found: &mut Vec<Diagnostic>) -> Vec<OpenedHouse> {
    let mut all: Vec<OpenedHouse> = Vec::new();
    for path in asked {
        let paths = if path.is_dir() { house::card_paths(path) } else { vec![path.clone()] };
        if paths.is_empty() {
            let title = format!("there is no card in {}", path.display());
            found.push(Diagnostic::error(Code::CannotRead, title).help("name a card, or a folder with cards"));
        }
        let folder = if path.is_dir() { path } else { path.parent().unwrap_or(Path::new("")) };
        let OpenedBook { house, root, book, found: of_house } = book::open(folder);
        // what is wrong with single lines of a book the verbs of lots say
        let of_house = of_house.into_iter().filter(|d| d.severity == Severity::Error || d.code == Code::LeftOut);
        found.extend(of_house.filter(|d| !found.contains(d)).collect::<Vec<_>>());
        let menu = if path.is_dir() { open::beside(&path.join(MENU), MENU, found) } else { None };
        let cards = paths.iter().map(|path| opened_in(&house, path)).collect();
        // one book, however many of its cards are named
        match all.iter_mut().find(|of| of.root == root) {
            Some(there) => there.add(cards, menu),
            None => all.push(OpenedHouse { house, root, book, menu, cards }),
        }
    }
    all
}

fn opened_in(house: &House, path: &Path) -> (String, PageCard) {
    let (mut house, mut found) = (house.clone(), Vec::new());
    let stem = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let source = house::read(path).map_err(|unread| found.push(*unread)).ok();
    let card = source.and_then(|source| {
        let source = house.unbundled(source, &mut found);
        let (card, of_card) = card::read_by(source.file, source.text, &house.customs());
        found.extend(of_card);
        card
    });
    let name = card.as_ref().map_or(stem, |card| card.name.value.clone());
    (name, PageCard { card, house, found })
}

fn published(
    args: &Args,
    asked: &[PathBuf],
    solver: Option<&PageSolver>,
    found: &mut Vec<Diagnostic>,
) -> Option<PublishView> {
    let today = open::today();
    let houses = opened(asked, found);
    if any_error(found) {
        return None;
    }
    let house = houses.first().and_then(|of| of.house.settings.name.clone());
    let mut pages = Pages::default();
    for of in &houses {
        pages.take(of, PageWith { today, with_costs: args.with_costs, with_lots: args.with_lots }, found);
    }
    let Pages { entries, listed, texts, settings } = pages;
    let plan = SitePlan {
        house: house.as_deref(),
        written: today,
        entries,
        settings,
        texts,
        with_costs: args.with_costs,
        solver,
    };
    let files = site::files(plan, args.one_file);
    let bytes = files.iter().map(|file| file.bytes.len()).sum();
    let names = written(args, files, found)?;
    Some(PublishView {
        written: today,
        files: names,
        bytes,
        pages: listed,
        solver: solver.is_some(),
        with_costs: args.with_costs,
        with_lots: args.with_lots,
    })
}

/// Why nothing may be written there: something lies in the folder, and no page of ours.
fn not_ours(args: &Args) -> Option<Diagnostic> {
    if args.one_file {
        return None;
    }
    let out = args.out.display();
    if args.out.is_file() {
        let title = format!("{out} is a file: no folder can be made of that name");
        return Some(Diagnostic::error(Code::CannotWrite, title).help("name a folder, or write one file: --one-file"));
    }
    let mut there = fs::read_dir(&args.out).ok()?;
    let _something = there.next()?;
    let mark = house::first_bytes(&args.out.join(INDEX), MARK.len());
    let is_ours = mark.is_some_and(|first| first.is_ok_and(|first| first == MARK.as_bytes()));
    (!is_ours).then(|| {
        let title = format!("{out} holds other things: nothing was written");
        Diagnostic::error(Code::CannotWrite, title).help("name an empty folder, or one that holds an earlier page")
    })
}

/// What every page of this program begins with.
const MARK: &str = "<!DOCTYPE html>\n<!-- a page of stillroom -->";

/// Writes them, the page itself last.
fn written(args: &Args, files: Vec<SiteFile>, found: &mut Vec<Diagnostic>) -> Option<Vec<String>> {
    let paths: Vec<PathBuf> = match args.one_file {
        true => vec![args.out.clone()],
        false => files.iter().map(|file| args.out.join(file.name)).collect(),
    };
    if !args.one_file
        && let Err(error) = fs::create_dir_all(&args.out)
    {
        let title = format!("{} could not be made: {}", args.out.display(), house::reason(&error));
        let help = "check its name and that you may write there";
        return Diagnostic::error(Code::CannotWrite, title).help(help).refused(found);
    }
    let what = |file: SiteFile| match args.one_file {
        true => What::Page(String::from_utf8_lossy(&file.bytes).into_owned()),
        false => What::Part(file),
    };
    let outputs = paths.iter().zip(files).map(|(path, file)| Output { option: "publish", path, what: what(file) });
    let refused = output::write(outputs.collect(), &[]);
    let names = paths.iter().map(|path| path.display().to_string()).collect();
    let done = refused.is_empty().then_some(names);
    found.extend(refused);
    done
}
