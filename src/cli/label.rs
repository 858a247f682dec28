//! `label`: the label of a lot, at exact size.

use std::path::{Path, PathBuf};

use crate::assessment::{self, Lot, Which};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::{House, which_store};
use crate::lots::again::{brings_now, judged_again, stated_since};
use crate::lots::code;
use crate::lots::event::{Happened, OnLabel};
use crate::lots::reprint;
use crate::lots::sheet::content_hash;
use crate::lots::untold::in_doubt;
use crate::render;
use crate::render::print::{LabelJob, LabelSize, NotPrinted};
use crate::report::label::LabelView;
use crate::shelf_life::Draws;
use crate::solver::{Options, solve};
use crate::units::NumberRange;
use crate::vocabulary::Word;

use super::Reply;
use super::book::{self, OpenedBook};
use super::open::{self, argument, bad_argument};
use super::output;

/// Print the label of a lot at exact size: name, use by, allergens, lot and its code for a camera.
///
/// Its date is the one that the book has, whatever the card says today. What is stopped, past its date or has none, and what
/// has an open question of what is in it, gets no label. What must stand on it is never shortened: it goes on a second label.
#[derive(clap::Args)]
#[command(after_help = "\
Example: on a roll of 62 x 29 mm; as .png it is the 696 dots that such a printer takes
  stillroom label 261129-A1 -o label.pdf

Example: six on a sheet of 21 that has been begun, the printer being half a millimetre too low
  stillroom label 261129-A1 --size sheet --copies 6 --start 4 --offset \"0 mm, -0.5 mm\" -o labels.pdf

Example: of what is not in the book
  stillroom label formulas/plain-syrup.toml --made 2026-11-25 -o label.pdf")]
pub(crate) struct Args {
    /// The lot's code, or a formula file or product that is not in the book
    what: String,
    /// The file to write: .pdf, .png or .svg; without it the words are shown
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// The paper: roll (62 x 29 mm), large (102 x 152 mm), sheet (21 of 63.5 x 38.1 mm on A4)
    #[arg(long, value_name = "PAPER", default_value = "roll")]
    size: String,
    /// How many; without it as many as the lot has containers
    #[arg(long, value_name = "N")]
    copies: Option<String>,
    /// The place of the first on a sheet, from 1: along the rows
    #[arg(long, value_name = "N", default_value = "1")]
    start: String,
    /// By how much to move everything, right and down
    #[arg(long, value_name = "X, Y", allow_hyphen_values = true)]
    offset: Option<String>,
    /// The day on which it was made, of what is not in the book (today if not given)
    #[arg(long, value_name = "YYYY-MM-DD")]
    made: Option<String>,
    /// The day on which its oldest juice was pressed or its oldest house part made, of what is not in the book
    #[arg(long, value_name = "YYYY-MM-DD")]
    oldest_part: Option<String>,
    /// Every fresh juice was pressed and every house part made on the day it was made, of what is not in the book
    #[arg(long, conflicts_with = "oldest_part")]
    fresh: bool,
    /// Where it is kept, of what is not in the book
    #[arg(long = "in", value_name = "STORE")]
    store: Option<String>,
    /// For programs
    #[arg(long)]
    json: bool,
}

pub(crate) fn run(args: &Args) -> Reply {
    let opened = book::open(Path::new("."));
    let lot = code::tidy(&args.what);
    if opened.book.lot(&lot).is_some() || code::is_one(&lot) {
        return of_lot(args, opened);
    }
    of_card(args)
}

fn of_lot(args: &Args, mut opened: OpenedBook) -> Reply {
    let mut found = std::mem::take(&mut opened.found);
    let view = book::lot_of(&opened.book, &args.what, &mut found).and_then(|lot| {
        for (option, given) in [
            ("--made", args.made.is_some()),
            ("--oldest-part", args.oldest_part.is_some()),
            ("--fresh", args.fresh),
            ("--in", args.store.is_some()),
        ] {
            if given {
                let help = "leave it out; stillroom tell, move or open change what the book says";
                found.push(bad_argument(option, "", "the book says that of a lot", help));
            }
        }
        if let Some(doubt) = in_doubt(&opened.book).get(lot.lot.as_str()) {
            return doubt.no_label(lot).refused(&mut found);
        }
        let sheet = book::kept_sheet(&opened.root, lot);
        let Some((sheet, (solved, judged))) =
            sheet.and_then(|sheet| judged_again(lot, &sheet).map(|again| (sheet, again)))
        else {
            return super::lots::no_sheet(&opened, lot).refused(&mut found);
        };
        let since = stated_since(lot, &sheet, &opened.house);
        let (view, why) = LabelView::of_lot(lot, (&solved, &judged), since.as_ref(), &opened.house, open::today());
        found.extend(why);
        if let (Some(_), Some(_)) = (&view, &since) {
            let open = lot.recorded.allergens_not_stated.join(", ");
            let title =
                format!("not stated when the lot was recorded, and read from larder.toml as it stands today: {open}");
            let help = "if that batch was of another bottle, read its label before you stick this on";
            found.push(Diagnostic::warning(Code::Assumed, title).help(help));
        }
        view.map(|view| known_better(view, &opened.house, &mut found))
    });
    let view = view.filter(|view| printed(args, view, &mut found));
    if let (Some(view), true) = (&view, args.output.is_some()) {
        kept_in_mind(&opened, view, &mut found);
    }
    open::reply(view, found, args.json, render::text::label)
}

/// What its product is now known to bring stands on the label as well, and it is said.
fn known_better(mut view: LabelView, house: &House, found: &mut Vec<Diagnostic>) -> LabelView {
    let all = reprint::allergens(&view.allergens, &brings_now(&view.product, house));
    let new: Vec<&str> = all.iter().filter(|one| !view.allergens.contains(one)).map(String::as_str).collect();
    if !new.is_empty() {
        let title = format!("{} is on the label: its card brings it now, the lot was recorded without", new.join(", "));
        found.push(Diagnostic::warning(Code::Assumed, title));
    }
    view.allergens = all;
    view
}

/// What was printed goes into the book, so that a change after it is seen.
fn kept_in_mind(opened: &OpenedBook, view: &LabelView, found: &mut Vec<Diagnostic>) {
    let Some((lot, writer)) = view.lot.as_ref().zip(book::writer(None, found)) else { return };
    let said = OnLabel {
        day: view.use_by.day,
        days_left_when_thawed: view.use_by.days_left_when_thawed,
        allergens: view.allergens.clone(),
        hash: content_hash(&serde_json::to_string(view).unwrap_or_default()),
    };
    book::append(&writer, &opened.root, book::event(&writer, lot, Happened::Labelled(said)), found);
}

fn of_card(args: &Args) -> Reply {
    let opened = open::card(&args.what, &[], Vec::new());
    opened.reply(args.json, render::text::label, |card, house, found| {
        let made = open::day("--made", args.made.as_deref(), found).unwrap_or_else(open::today);
        let told = open::day("--oldest-part", args.oldest_part.as_deref(), found);
        if made > open::today() {
            let help = "write the day on which it was made";
            found.push(bad_argument("--made", &made.to_string(), "that day has not come yet", help));
        }
        let stores = &house.settings.stores;
        let store =
            args.store.as_ref().map(|wanted| (wanted, stores.iter().find(|s| s.name.eq_ignore_ascii_case(wanted))));
        if let Some((wanted, None)) = store {
            let help = which_store(stores.iter(), wanted);
            found.push(bad_argument("--in", wanted, "the house has no such store", &help));
        }
        let solved = solve(card, house, &Options::default()).told(found)?;
        let which = store.and_then(|(_, store)| store).map_or(Which::Planned, Which::Only);
        let taught = book::taught(&args.what, &solved, house, found);
        let lot = Lot { made, oldest_part: told.or(args.fresh.then_some(made)), ..taught };
        let (judged, of_judgement) = assessment::assess(&solved, house, lot, which, Draws::default());
        found.extend(of_judgement);
        for assumed in &judged.assumed {
            let title = format!("no label: its date hangs on what nobody has said: {assumed}");
            found.push(
                Diagnostic::error(Code::NoLabel, title).help("--fresh where that is so, else --oldest-part 2026-11-24"),
            );
        }
        if any_error(found) {
            return None;
        }
        let (view, why) = LabelView::of_card(&solved, &judged, house, 1);
        found.extend(why);
        let past = view.as_ref().and_then(|view| view.use_by.day).filter(|day| *day < open::today());
        found.extend(past.map(|day| {
            let title = format!("no label: it was to be used by {day}");
            Diagnostic::error(Code::NoLabel, title).help("throw it away, or write the right day: --made")
        }));
        view.filter(|view| past.is_none() && printed(args, view, found))
    })
}

/// Lays it out, and writes it where a file is asked for; whether that could be done.
fn printed(args: &Args, view: &LabelView, found: &mut Vec<Diagnostic>) -> bool {
    let Some(job) = job(args, view, found) else { return false };
    match render::print::label(view, job) {
        Ok(sheet) => {
            found.extend(view.of_any_market().then(|| {
                let title = "no market is named: what the law of any of them wants said is on it";
                let help = "name those of the house in house.toml: market = [\"UK\"]";
                Diagnostic::warning(Code::Assumed, title).help(help)
            }));
            let written = args.output.as_ref().map(|path| output::paper(path, &sheet)).unwrap_or_default();
            let fine = !any_error(&written);
            found.extend(written);
            fine
        }
        Err(why) => {
            found.push(unprinted(&why, "take a larger one: --size large"));
            false
        }
    }
}

/// Why something is not printed, and what to do.
pub(super) fn unprinted(why: &NotPrinted, larger: &str) -> Diagnostic {
    let (title, help) = match why {
        NotPrinted::Letter(letter) => (letter.to_string(), "write it in Latin, Greek or Cyrillic letters"),
        NotPrinted::NoRoom => ("what must stand on it does not fit on this paper".to_owned(), larger),
    };
    Diagnostic::error(Code::CannotWrite, title).help(help.to_owned())
}

fn job(args: &Args, view: &LabelView, found: &mut Vec<Diagnostic>) -> Option<LabelJob> {
    let size = LabelSize::parse(&args.size);
    if size.is_none() {
        let all: Vec<&str> = LabelSize::words().collect();
        let help = format!("write one of: {}", all.join(", "));
        found.push(bad_argument("--size", &args.size, "there is no such paper", &help));
    }
    let offset = argument(args.offset.as_deref(), "--offset \"1 mm, -0.5 mm\"", offset, found);
    let size = size?;
    let places = size.on_a_page();
    // as a picture one is enough: the printer is told how many
    let is_document = args.output.as_ref().is_some_and(|path| output::ends_in(path, "pdf"));
    let containers = view.containers.to_string();
    let wanted = args.copies.as_deref().unwrap_or(if is_document { &containers } else { "1" });
    let copies = argument(Some(wanted), "--copies 6", |n| COPIES.read(n), found);
    let place = |written: &str| match places {
        1 if written.trim() != "1" => Err("only a sheet can be begun elsewhere than at 1".to_owned()),
        places => NumberRange::whole(1.0, places as f64, "places of a sheet").read(written),
    };
    let start = argument(Some(&args.start), "--size sheet --start 4", place, found);
    let job = |copies, start| LabelJob { size, copies, start, offset: offset.unwrap_or_default() };
    (!any_error(found)).then(|| Some(job(copies? as usize, start? as usize - 1)))?
}

/// More at once is a slip of the finger (ours).
const COPIES: NumberRange = NumberRange::whole(1.0, 1000.0, "labels");
/// Further off no printer is, mm: what is moved further leaves the paper (ours).
const MOST_OFF_MM: f64 = 5.0;

/// `1 mm, -0.5 mm`
fn offset(written: &str) -> Result<[f64; 2], String> {
    let both = written.split_once(',').ok_or("two lengths with a comma between were expected: right, down")?;
    let read = |written: &str| {
        let number = written.trim().trim_end_matches("mm").trim();
        let mm: f64 = number.parse().map_err(|_| format!("`{}` is no length in mm", written.trim()))?;
        match mm.abs() <= MOST_OFF_MM {
            true => Ok(mm),
            false => Err(format!("no more than {MOST_OFF_MM} mm either way")),
        }
    };
    Ok([read(both.0)?, read(both.1)?])
}
