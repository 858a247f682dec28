//! `due` and `recall`: what goes first, and where a lot went.

use std::path::{Path, PathBuf};

use crate::lots::LotState;
use crate::lots::learn::lesson;
use crate::lots::recall::chain;
use crate::render;
use crate::report::Report;
use crate::report::lots::{DueView, LearnView, LessonView, RecallView};
use crate::spelling::{fold, meant_or, nearest};

use super::Reply;
use super::book;
use super::lots;
use super::open;
use super::output::{self, Output, What};

/// What goes first: what must go now, what ends today and this week, and what has no date yet.
#[derive(clap::Args)]
#[command(after_help = "\
Example: this house, today
  stillroom due

Example: what will be due on Friday
  stillroom due --on 2026-12-04")]
pub(crate) struct DueArgs {
    /// The day (today if not given)
    #[arg(long, value_name = "YYYY-MM-DD")]
    on: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

/// Everything that went into a lot and everything that it went into, as a notice to print.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom recall 261127-A1

Example: the whole chain as a page for an inspector
  stillroom recall 261127-A1 --page lot.html")]
pub(crate) struct RecallArgs {
    #[command(flatten)]
    of: lots::OfLot,
    /// Write it as a page that reads and prints in any browser
    #[arg(long, value_name = "FILE.html")]
    page: Option<PathBuf>,
}

/// What the lots say of how long a product stays good: looks, and bottles that were finished in time.
///
/// Quality alone: a date of safety is never lifted by good lots. Only lots of one recipe in one store count.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom learn \"Lime cordial\"")]
pub(crate) struct LearnArgs {
    /// The product; all of the book if none is given
    product: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn due(args: &DueArgs) -> Reply {
    let opened = book::open(Path::new("."));
    let mut found = opened.found;
    let on = book::on(args.on.as_deref(), &mut found);
    let report = Report::new(Some(DueView::new(&opened.book, &opened.house, on)), &found, open::text_of);
    Reply::of(&report, found, args.json, render::text::due)
}

pub(crate) fn recall(args: &RecallArgs) -> Reply {
    let opened = book::open(Path::new("."));
    let mut found = opened.found;
    let lot = book::lot_of(&opened.book, &args.of.lot, &mut found);
    let chain = lot.and_then(|lot| chain(&opened.book, &lot.lot));
    let house = opened.house.settings.name.as_deref();
    let view = chain.map(|chain| RecallView::new(house, &opened.book, &chain, open::today()));
    let mut report = Report::new(view, &found, open::text_of);
    if let Some(path) = args.page.as_ref().filter(|_| report.answer().is_some()) {
        let what = What::Page(render::recall_page(&report));
        found.extend(output::write(vec![Output { option: "--page", path, what }], &[]));
        report = report.with_findings(&found, open::text_of);
    }
    Reply::of(&report, found, args.of.json, render::text::recall)
}

pub(crate) fn learn(args: &LearnArgs) -> Reply {
    let opened = book::open(Path::new("."));
    let mut found = opened.found;
    let wanted = |lot: &&LotState| args.product.as_ref().is_none_or(|name| fold(name) == fold(&lot.recorded.product));
    let mut asked: Vec<(&str, &str, &str)> = opened
        .book
        .lots()
        .filter(wanted)
        .map(|lot| (lot.recorded.product.as_str(), lot.recorded.recipe.as_str(), lot.recorded.store.as_str()))
        .collect();
    asked.sort_unstable();
    asked.dedup();
    if let (Some(name), true) = (&args.product, asked.is_empty()) {
        let names = opened.book.lots().map(|lot| lot.recorded.product.as_str());
        let help = meant_or(nearest(name, names), "stillroom due shows the lots that are there");
        found.push(open::bad_argument("learn", name, "the book has no lot of it", &help));
    }
    let lessons = asked.into_iter().filter_map(|(product, recipe, store)| {
        let lot = opened.book.lots().find(|lot| lot.recorded.recipe == recipe && lot.recorded.store == store)?;
        let (expected, days_now) = book::expected(&opened.root, lot)?;
        let lesson = lesson(&opened.book, product, recipe, store, expected)?;
        Some(LessonView { product: product.to_owned(), days_now, lesson })
    });
    let view = LearnView { lessons: lessons.collect() };
    let report = Report::new(Some(view), &found, open::text_of);
    Reply::of(&report, found, args.json, render::text::learn)
}
