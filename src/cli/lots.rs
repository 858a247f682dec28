//! What happens to a lot: tasted, opened, moved, used up, thrown away, told.

use std::path::Path;

use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::which_store;
use crate::input;
use crate::lots::event::{DiscardCause, Happened, PartFrom, Sign, Taste, UseBy};
use crate::lots::files;
use crate::lots::record::{LotChange, date_after, freezes_in};
use crate::lots::{LotBook, LotStanding, LotState, more_than_is_left, no_such_day, told_lot};
use crate::render;
use crate::report::lots::LotView;
use crate::spelling::{fold, nearest};
use crate::vocabulary::Word;

use super::Reply;
use super::book::{OpenedBook, append, event, kept_sheet, lot_of, open, part_from, writer};
use super::open as opening;

/// Something that happened to a lot.
#[derive(clap::Args)]
pub(crate) struct OfLot {
    /// The lot's code, as it stands on the label
    pub lot: String,
    /// For programs
    #[arg(long)]
    pub json: bool,
}

/// Say how a lot tastes: fine, going or off, and what is wrong with it.
///
/// Gas, haze, film, mould or a swollen cap mean that something grew: the lot must go, and later ones of the product are
/// dated below that age.
#[derive(clap::Args)]
#[command(after_help = "\
Example: fine after two weeks
  stillroom taste 261129-A1 fine

Example: thrown away tomorrow at the latest
  stillroom taste 261129-A1 off --signs gas,haze --note \"cap lifted\"")]
pub(crate) struct TasteArgs {
    #[command(flatten)]
    of: OfLot,
    /// fine, going or off
    taste: String,
    /// What is wrong: gas, haze, film, mould, swollen cap, sour, stale, faded, crystals
    #[arg(long, value_name = "SIGNS", value_delimiter = ',')]
    signs: Vec<String>,
    /// In your words
    #[arg(long, value_name = "TEXT")]
    note: Option<String>,
}

/// Open a bottle of a lot: its date is then the shorter one.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom open 261129-A1")]
pub(crate) struct OpenArgs {
    #[command(flatten)]
    of: OfLot,
}

/// Put a lot into another store: also into the freezer, also out of it.
///
/// A move never lengthens a date; of the freezer only whole days are given back.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom move 261129-A1 freezer")]
pub(crate) struct MoveArgs {
    #[command(flatten)]
    of: OfLot,
    /// The store, as house.toml names it
    store: String,
}

/// A lot was finished while it was good.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom use-up 261129-A1")]
pub(crate) struct UseUpArgs {
    #[command(flatten)]
    of: OfLot,
}

/// Throw a lot away, and say why.
///
/// What went wrong with it (gas, haze, film, mould, swollen cap, sour, off, unsafe) goes for all that it went into as well;
/// what is past its date, stale, faded, spilt or not needed does not. Words of your own may follow: \"spilt: the shelf\". A lot
/// that was used up is pulled in the same way: what it went into is there.
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom discard 261129-A1 --why \"past its date\"

Example: the cordial that it went into goes with it
  stillroom discard 261129-A1 --why \"film at the neck\"")]
pub(crate) struct DiscardArgs {
    #[command(flatten)]
    of: OfLot,
    /// Why
    #[arg(long, value_name = "TEXT")]
    why: String,
}

/// Tell where a part of a lot is from, where nobody had said: its lot, its day, or what its maker printed on it.
#[derive(clap::Args)]
#[command(after_help = "\
Example: the limes were pressed the day before
  stillroom tell 261129-A1 \"lime juice=2026-11-28\"")]
pub(crate) struct TellArgs {
    #[command(flatten)]
    of: OfLot,
    /// The part, and where it is from
    #[arg(value_name = "PART=FROM")]
    part: String,
}

pub(crate) fn taste(args: &TasteArgs) -> Reply {
    change(&args.of, |_, _, found| {
        let word = |what: &str, written: &str, all: &str, found: &mut Vec<Diagnostic>| {
            let why = format!("{what} was expected");
            found.push(opening::bad_argument("taste", written, &why, all));
        };
        let taste = Taste::parse(args.taste.trim());
        if taste.is_none() {
            word("how it tastes", &args.taste, "write fine, going or off", found);
        }
        let mut signs = Vec::new();
        for written in args.signs.iter().map(|s| s.trim()).filter(|s| !s.is_empty()) {
            match Sign::parse(written) {
                Some(sign) => signs.push(sign),
                None => {
                    let all: Vec<&str> = Sign::ALL.iter().map(|sign| sign.word()).collect();
                    word("a sign", written, &format!("write one of: {}", all.join(", ")), found);
                }
            }
        }
        // a sign that is not understood may be the one that must not be lost: nothing is written
        let tasted = Happened::Tasted { taste: taste?, signs, note: args.note.clone() };
        Some(tasted).filter(|_| !any_error(found))
    })
}

pub(crate) fn open_lot(args: &OpenArgs) -> Reply {
    change(&args.of, |opened, lot, found| {
        let use_by = dated(opened, lot, &LotChange::Opened(opening::today()), found)?;
        Some(Happened::Opened { use_by })
    })
}

pub(crate) fn move_lot(args: &MoveArgs) -> Reply {
    change(&args.of, |opened, lot, found| {
        let stores = &opened.house.settings.stores;
        let Some(store) = stores.iter().find(|store| fold(&store.name) == fold(&args.store)).cloned() else {
            let help = which_store(stores.iter(), &args.store);
            return opening::bad_argument("move", &args.store, "the house has no such store", &help).refused(found);
        };
        let to = store.name.clone();
        let frozen = kept_sheet(&opened.root, lot).and_then(|sheet| freezes_in(&sheet, lot, &store));
        let use_by = dated(opened, lot, &LotChange::Moved(opening::today(), store), found)?;
        let frozen = frozen?;
        Some(Happened::Moved { to, frozen, use_by })
    })
}

pub(crate) fn use_up(args: &UseUpArgs) -> Reply {
    change(&args.of, |_, lot, found| {
        if let Some(why) = &lot.pulled {
            let title = format!("lot {} is no lot that was finished while good: {why}", lot.lot);
            let help = format!(
                "what is left is thrown away: stillroom discard {} --why \"...\"; what guests had stands in the reason",
                lot.lot
            );
            return Diagnostic::error(Code::BadArgument, title).help(help).refused(found);
        }
        Some(Happened::UsedUp)
    })
}

pub(crate) fn discard(args: &DiscardArgs) -> Reply {
    // the reason of one that is gone already may be told better; what was used up is pulled with what it went into
    change_of(
        &args.of,
        |_| true,
        |_, lot, found| {
            let cause = DiscardCause::read(&args.why);
            let is_gone = lot.standing == LotStanding::UsedUp;
            if is_gone && lot.pulled.is_none() && cause.is_some_and(|cause| !cause.pulls()) {
                let title =
                    format!("lot {} was used up on {}: nothing of it is left to be thrown away", lot.lot, lot.since);
                let help = format!("where it turned out bad, what it went into goes with it for: {}", pulling());
                return Diagnostic::error(Code::BadArgument, title).help(help).refused(found);
            }
            if cause.is_none() {
                let title = format!("`{}` does not say whether what lot {} went into goes with it", args.why, lot.lot);
                let again =
                    format!("stillroom discard {} --why \"{}\"", lot.lot, DiscardCause::words(false).join("\" or \""));
                if lot.standing == LotStanding::Discarded {
                    return Diagnostic::error(Code::NotStated, title).help(again).refused(found);
                }
                let help = format!(
                    "until it is said, it does{}; it does for {}; it does not for: {again}",
                    if is_gone { "" } else { " where the lot was before its date" },
                    pulling()
                );
                found.push(Diagnostic::warning(Code::NotStated, title).help(help));
            }
            Some(Happened::Discarded { why: args.why.clone(), cause })
        },
    )
}

/// The words that pull a lot.
fn pulling() -> String {
    DiscardCause::words(true).join(", ")
}

/// The part of a lot that a name means.
fn meant_part<'l>(lot: &'l LotState, written: &str) -> Option<&'l str> {
    nearest(written.trim(), lot.recorded.parts.iter().map(|used| used.of.as_str()))
}

pub(crate) fn tell(args: &TellArgs) -> Reply {
    change(&args.of, |opened, lot, found| {
        let Some((part, from)) = args.part.split_once('=') else {
            let part = meant_part(lot, &args.part).unwrap_or("lime juice");
            let help = format!("write it as: stillroom tell {} \"{part}={}\"", lot.lot, lot.recorded.made);
            let why = "a part, `=` and where it is from were expected";
            return opening::bad_argument("tell", &args.part, why, &help).refused(found);
        };
        let Some(used) = lot.recorded.parts.iter().find(|used| fold(&used.of) == fold(part)) else {
            let all: Vec<&str> = lot.recorded.parts.iter().map(|used| used.of.as_str()).collect();
            let help = match meant_part(lot, part) {
                Some(part) => format!("did you mean: stillroom tell {} \"{part}={}\"", lot.lot, from.trim()),
                None => format!("its parts are: {}", all.join(", ")),
            };
            let why = "nothing of that name went into it";
            return opening::bad_argument("tell", part.trim(), why, &help).refused(found);
        };
        let from = part_from(from, &opened.book)
            .map_err(|why| {
                let help = match input::day_meant(from) {
                    Some(day) => format!("stillroom tell {} \"{}={day}\"", lot.lot, used.of),
                    None => "stillroom due shows the lots that are there".to_owned(),
                };
                found.push(opening::bad_argument("tell", from, &why, &help));
            })
            .ok()?;
        if matches!(&from, PartFrom::Day(day) if *day > lot.recorded.made) {
            let why = format!("it cannot be younger than the lot, which was made on {}", lot.recorded.made);
            let help = "write the day on which it was made";
            return opening::bad_argument("tell", &args.part, &why, help).refused(found);
        }
        let sheet = kept_sheet(&opened.root, lot);
        found.extend(told_lot(lot, (used, &from), sheet.as_ref(), (&opened.book, &opened.house)));
        if any_error(found) {
            return None;
        }
        if used.from != from {
            found.extend(more_than_is_left(&used.of, used.mass_g, &from, &opened.book));
            found.extend(no_such_day(used.product(), &used.of, &from, &opened.book));
        }
        let use_by = dated(opened, lot, &LotChange::Told(used.of.clone(), from.clone()), found)?;
        Some(Happened::Told { part: used.of.clone(), from, use_by })
    })
}

/// Without the sheet that was kept with a lot nothing is said of it that the book does not say.
pub(crate) fn no_sheet(opened: &OpenedBook, lot: &LotState) -> Diagnostic {
    let title = format!("the sheet of lot {} cannot be read: no date can be given", lot.lot);
    let folder = opened.root.join(files::FOLDER).join("sheets");
    Diagnostic::error(Code::CannotRead, title)
        .help(format!("it lies in {}: sync that folder as well", folder.display()))
}

/// The date of a lot after a change; where its kept sheet is gone there is none, and it is said.
fn dated(opened: &OpenedBook, lot: &LotState, change: &LotChange, found: &mut Vec<Diagnostic>) -> Option<UseBy> {
    let use_by = kept_sheet(&opened.root, lot).and_then(|sheet| date_after(lot, &sheet, &opened.book, change));
    if use_by.is_none() {
        found.push(no_sheet(opened, lot));
    }
    use_by
}

/// Opens the book, asks what happened to a lot that is there, writes it down, and shows the lot.
fn change(
    of: &OfLot,
    happened: impl FnOnce(&OpenedBook, &LotState, &mut Vec<Diagnostic>) -> Option<Happened>,
) -> Reply {
    change_of(of, |lot| lot.standing == LotStanding::InUse, happened)
}

/// The same of a lot to which that may still happen.
fn change_of(
    of: &OfLot,
    may: impl FnOnce(&LotState) -> bool,
    happened: impl FnOnce(&OpenedBook, &LotState, &mut Vec<Diagnostic>) -> Option<Happened>,
) -> Reply {
    let mut opened = open(Path::new("."));
    let mut found = std::mem::take(&mut opened.found);
    let view = changed(&opened, of, may, happened, &mut found);
    opening::reply(view, found, of.json, render::text::lot)
}

fn changed(
    opened: &OpenedBook,
    of: &OfLot,
    may: impl FnOnce(&LotState) -> bool,
    happened: impl FnOnce(&OpenedBook, &LotState, &mut Vec<Diagnostic>) -> Option<Happened>,
    found: &mut Vec<Diagnostic>,
) -> Option<LotView> {
    let lot = lot_of(&opened.book, &of.lot, found)?;
    if !may(lot) {
        let is_used_up = lot.standing == LotStanding::UsedUp;
        let gone = if is_used_up { "was used up" } else { "was thrown away" };
        let title = format!("lot {} {gone} on {}", lot.lot, lot.since);
        let pull =
            format!("where it turned out bad: stillroom discard {} --why \"off\" pulls what it went into", lot.lot);
        let help = if is_used_up { pull } else { "nothing more can happen to it".to_owned() };
        return Diagnostic::error(Code::BadArgument, title).help(help).refused(found);
    }
    let happened = happened(opened, lot, found)?;
    let writer = writer(None, found)?;
    let event = append(&writer, &opened.root, event(&writer, &lot.lot, happened), found)?;
    let mut events = opened.book.events.clone();
    events.push(event);
    let book = LotBook::of(events);
    Some(LotView::new(&book, book.lot(&lot.lot)?, opening::today()).for_a_guest(&opened.house))
}
