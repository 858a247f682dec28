//! `strike`: a wrong line of the book of lots is taken back.

use std::path::Path;

use crate::diagnostic::{Code, Diagnostic};
use crate::lots::event::Happened;
use crate::lots::strike::{NotStruck, to_strike};
use crate::lots::{LotBook, LotState};
use crate::render;
use crate::report::lots::LotView;

use super::Reply;
use super::book::{OpenedBook, append, event, lot_of, open, writer};
use super::lots::OfLot;
use super::open as opening;

/// Strike a wrong line out of the book of a lot: a mistyped lot, a taste or a discard of the wrong bottle.
///
/// Nothing is erased. The line stays in the history, marked, with who struck it and why; due, learn and recall go by the
/// rest. Without --line it is the last one. Line 1 says that the lot was made: struck, there is no such lot.
#[derive(clap::Args)]
#[command(after_help = "\
Example: the wrong bottle was tasted
  stillroom strike 261129-A1 --by Ana --why \"that was A2\"

Example: the second line, as recall numbers them
  stillroom strike 261129-A1 --line 2 --by Ana --why \"never thrown away\"")]
pub(crate) struct StrikeArgs {
    #[command(flatten)]
    of: OfLot,
    /// The line, as `recall` numbers the history of the lot
    #[arg(long, value_name = "N")]
    line: Option<usize>,
    /// Who says so
    #[arg(long, value_name = "NAME")]
    by: String,
    /// Why
    #[arg(long, value_name = "TEXT")]
    why: String,
}

pub(crate) fn run(args: &StrikeArgs) -> Reply {
    let mut opened = open(Path::new("."));
    let mut found = std::mem::take(&mut opened.found);
    let view = struck(&opened, args, &mut found);
    opening::reply(view, found, args.of.json, render::text::lot)
}

fn struck(opened: &OpenedBook, args: &StrikeArgs, found: &mut Vec<Diagnostic>) -> Option<LotView> {
    for (option, said) in [("--by", &args.by), ("--why", &args.why)] {
        if said.trim().is_empty() {
            let help = "write who strikes it out, and why";
            return opening::bad_argument(option, said, "nothing is said", help).refused(found);
        }
    }
    let lot = lot_of(&opened.book, &args.of.lot, found)?;
    let wrong = to_strike(&opened.book, lot, args.line).map_err(|why| found.push(refusal(lot, &why))).ok()?;
    let (by, why) = (Some(args.by.trim().to_owned()), args.why.trim().to_owned());
    let withdrawn = Happened::Withdrawn { event: wrong.id.clone(), why, by };
    let writer = writer(None, found)?;
    let added = append(&writer, &opened.root, event(&writer, &lot.lot, withdrawn), found)?;
    let mut events = opened.book.events.clone();
    events.push(added.clone());
    let book = LotBook::of(events);
    let today = opening::today();
    Some(match book.lot(&lot.lot) {
        Some(state) => LotView::new(&book, state, today),
        None => LotView::new(&opened.book, lot, today).struck_by(&added),
    })
}

fn refusal(lot: &LotState, why: &NotStruck) -> Diagnostic {
    let code = &lot.lot;
    let (title, help) = match why {
        NotStruck::NoSuchLine(0 | 1) => {
            (format!("nothing of lot {code} can be struck"), "its history stands in: stillroom recall LOT".to_owned())
        }
        NotStruck::NoSuchLine(many) => (
            format!("the history of lot {code} has {many} lines"),
            format!("stillroom recall {code} numbers them: --line 1 to --line {many}"),
        ),
        NotStruck::Already => (
            format!("that line of lot {code} is struck already"),
            "what was right after all is written anew: stillroom taste, discard, move ...".to_owned(),
        ),
        NotStruck::Stays => (
            format!("that line of lot {code} stays: it strikes another, or tells of a label that was printed"),
            "what was right after all is written anew; a label is printed anew: stillroom label LOT".to_owned(),
        ),
        NotStruck::WentInto(lots) => (
            format!("lot {code} went into {}: a recall needs it", lots.join(", ")),
            format!(
                "say first what went into each of them in its place: stillroom tell {} \"PART=LOT\"",
                lots.join(" / ")
            ),
        ),
    };
    Diagnostic::error(Code::BadArgument, title).help(help)
}
