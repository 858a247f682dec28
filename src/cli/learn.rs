//! `learn`: what the lots say of quality and of losses, and what of it the house takes.

use std::path::{Path, PathBuf};

use crate::diagnostic::{Code, Diagnostic};
use crate::lots::event::Happened;
use crate::lots::losses::{held, pressings};
use crate::lots::{LotBook, LotState};
use crate::render;
use crate::report::learn::{LearnView, LessonView};
use crate::spelling::{fold, meant_or, nearest};

use super::Reply;
use super::book::{self, OpenedBook};
use super::open;
use super::output;

/// What the lots say of how long a product stays good, and of what is lost: looks, bottles that were finished in time, and
/// batches that were weighed.
///
/// Quality alone: a date of safety is never lifted by good lots. Only lots of one recipe count. Nothing is taken until it is
/// accepted.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom learn \"Lime cordial\"

Example: the house takes what the lots in the fridge bear as its quality date
  stillroom learn \"Lime cordial\" --in fridge --accept

Example: drawn
  stillroom learn \"Lime cordial\" --chart lots.svg")]
pub(crate) struct Args {
    /// The product; all of the book if none is given
    product: Option<String>,
    /// The store; all if none is given
    #[arg(long = "in", value_name = "STORE")]
    store: Option<String>,
    /// Take the days that the lots bear as the quality date of the recipe; it is written into the book
    #[arg(long, requires = "product")]
    accept: bool,
    /// Draw what the lots say, as SVG or PNG
    #[arg(long, value_name = "FILE")]
    chart: Option<PathBuf>,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let mut opened = book::open(Path::new("."));
    let mut found = std::mem::take(&mut opened.found);
    let mut lessons = lessons(&opened, args, &mut found);
    if args.accept {
        accept(&opened, &mut lessons, &mut found);
    }
    let whole = args.product.is_none() && args.store.is_none();
    let book = &opened.book;
    let losses = if whole { held(book, |lot| book::kept_sheet(&opened.root, lot)) } else { Vec::new() };
    let view = LearnView { lessons, losses, pressed: if whole { pressings(book) } else { Vec::new() } };
    if args.chart.is_some() && view.lessons.is_empty() {
        let title = "no chart: no lot has been tasted or finished on a later day than it was made";
        found.push(Diagnostic::error(Code::BadArgument, title).help("stillroom taste LOT fine"));
    } else {
        found.extend(output::chart(args.chart.as_ref(), || render::chart::what_lots_say(&view.lessons), ""));
    }
    open::reply(Some(view), found, args.json, render::text::learn)
}

/// What the lots say of what was asked for.
fn lessons(opened: &OpenedBook, args: &Args, found: &mut Vec<Diagnostic>) -> Vec<LessonView> {
    let book = &opened.book;
    if let Some(name) = args.product.as_ref().filter(|name| !products(book).any(|of| fold(of) == fold(name))) {
        let help = meant_or(nearest(name, products(book)), "stillroom due shows the lots that are there");
        found.push(open::bad_argument("learn", name, "the book has no lot of it", &help));
    }
    let sheet = |lot: &LotState| book::kept_sheet(&opened.root, lot);
    LessonView::all(book, args.product.as_deref(), args.store.as_deref(), sheet)
}

fn products(book: &LotBook) -> impl Iterator<Item = &str> {
    book.lots().map(|lot| lot.recorded.product.as_str())
}

/// Writes down that the house takes what its lots bear; said of the lot of that recipe and store that was recorded last.
fn accept(opened: &OpenedBook, lessons: &mut [LessonView], found: &mut Vec<Diagnostic>) {
    let Some(writer) = book::writer(None, found) else { return };
    let mut refused =
        |why: String, help: &str| found.push(Diagnostic::error(Code::BadArgument, why).help(help.to_owned()));
    let stores: Vec<&str> = lessons.iter().map(|view| view.lesson.store.as_str()).collect();
    let [view] = lessons else {
        match stores.as_slice() {
            [] => refused("nothing is learned: nothing can be accepted".to_owned(), "stillroom taste LOT fine"),
            stores => refused(
                format!("lots of {} stores or recipes: which is meant?", stores.len()),
                "name the store: --in fridge; an old recipe is left alone once its lots are gone",
            ),
        }
        return;
    };
    let days = view.lesson.offered_days;
    let of_it = |lot: &&LotState| lot.recorded.recipe == view.recipe && lot.recorded.store == view.lesson.store;
    let Some(lot) = opened.book.lots().filter(of_it).last().filter(|_| days > 0) else {
        return refused("the lots bear no day".to_owned(), "look at lots that are older than a day");
    };
    let event = book::event(&writer, &lot.lot, Happened::Accepted { days });
    if book::append(&writer, &opened.root, event, found).is_some() {
        view.lesson.accepted_days = Some(days);
    }
}
