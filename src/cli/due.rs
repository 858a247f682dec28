//! `due` and `recall`: what goes first, and where a lot went.

use std::path::{Path, PathBuf};

use crate::lots::not_on_book::NotOnBook;
use crate::lots::recall::chain;
use crate::menu;
use crate::render;
use crate::report::Report;
use crate::report::lots::{DueView, RecallView};

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

pub(crate) fn due(args: &DueArgs) -> Reply {
    let opened = book::open(Path::new("."));
    let mut found = opened.found;
    let on = book::on(args.on.as_deref(), &mut found);
    open::reply(Some(DueView::new(&opened.book, &opened.house, on)), found, args.json, render::text::due)
}

pub(crate) fn recall(args: &RecallArgs) -> Reply {
    let opened = book::open(Path::new("."));
    let mut found = opened.found;
    let lot = book::lot_of(&opened.book, &args.of.lot, &mut found);
    let chain = lot.and_then(|lot| chain(&opened.book, &lot.lot));
    // what is wrong with the menu is told by `menu`: a recall goes on with the drinks that it can read
    let mut of_menu = Vec::new();
    let source = open::beside(&opened.root.join(open::MENU), open::MENU, &mut of_menu);
    let menu = source.map(|source| menu::read(&source.text, &source.file, &mut of_menu)).unwrap_or_default();
    let (drinks, _) = menu::listed(&menu, &opened.house, None, &mut of_menu);
    let not_on_book = NotOnBook::of(&opened.house, &opened.book);
    let view =
        chain.map(|chain| RecallView::new(&opened.house, &opened.book, &chain, (&drinks, &not_on_book), open::today()));
    let mut report = Report::new(view, &found, open::text_of);
    if let Some(path) = args.page.as_ref().filter(|_| report.answer().is_some()) {
        let what = What::Page(render::recall_page(&report));
        found.extend(output::write(vec![Output { option: "--page", path, what }], &[]));
        report = report.with_findings(&found, open::text_of);
    }
    Reply::of(&report, found, args.of.json, render::text::recall)
}
