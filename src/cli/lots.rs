//! The book of lots: where it lies, who writes, and the verbs of one lot.

use std::path::{Path, PathBuf};

use chrono::{NaiveDate, Utc};

use crate::diagnostic::{Code, Diagnostic};
use crate::house::{House, Store};
use crate::lots::book::Fault;
use crate::lots::event::{Event, Happened, PartFrom, Sign, Taste, UseBy};
use crate::lots::files::{self, Writer};
use crate::lots::record::{FrozenSheet, LotChange, date_after};
use crate::lots::{LotBook, LotStanding, LotState, code};
use crate::render;
use crate::report::Report;
use crate::report::lots::LotView;
use crate::spelling::{fold, meant_or, nearest};
use crate::vocabulary::Word;

use super::Reply;
use super::open;

/// The book of the house of a folder, as it is.
pub(crate) struct OpenedBook {
    pub house: House,
    pub root: PathBuf,
    pub book: LotBook,
    pub found: Vec<Diagnostic>,
}

/// The folder that the book lies in: that of `house.toml`, else the one that was named.
pub(crate) fn root(house: &House, folder: &Path) -> PathBuf {
    let of_house = house.sources.iter().find(|source| source.file.ends_with("house.toml"));
    let beside = of_house.and_then(|source| Path::new(&*source.file).parent()).map(Path::to_owned);
    beside.unwrap_or_else(|| folder.to_owned())
}

pub(crate) fn open(folder: &Path) -> OpenedBook {
    let (house, mut found) = open::house(folder);
    let root = root(&house, folder);
    let book = read(&root, &mut found);
    OpenedBook { house, root, book, found }
}

/// The book, and what is wrong with it.
pub(crate) fn read(root: &Path, found: &mut Vec<Diagnostic>) -> LotBook {
    let (events, unreadable) = files::read(root).unwrap_or_else(|error| {
        let title = format!("the book in {} cannot be read: {error}", root.join(files::FOLDER).display());
        found.push(Diagnostic::error(Code::CannotRead, title));
        Default::default()
    });
    found.extend(unreadable.into_iter().map(|line| {
        let title = format!("{}, line {}: no event: {}", line.file.display(), line.line, line.why);
        Diagnostic::warning(Code::CannotRead, title).help("it is passed over, and left as it is")
    }));
    let book = LotBook::of(events);
    found.extend(book.faults.iter().map(|fault| match fault {
        Fault::SameCode(lot) => Diagnostic::warning(Code::SameName, format!("two batches have the lot code {lot}"))
            .help("two devices have the same letter: give one another (stillroom record --letter B), and label one batch anew"),
        Fault::UnknownLot { lot, event } => {
            Diagnostic::warning(Code::UnknownProduct, format!("event {event} is of lot {lot}, which nobody recorded"))
                .help("its device has not been synced yet, or its recording was withdrawn")
        }
    }));
    book
}

/// Where this device keeps who it is: outside every synced folder of a house.
fn device() -> PathBuf {
    let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    let config = set("XDG_CONFIG_HOME").or_else(|| set("APPDATA")).or_else(|| Some(set("HOME")?.join(".config")));
    config.unwrap_or_else(|| PathBuf::from(".")).join("stillroom")
}

pub(crate) fn writer(letter: Option<char>, found: &mut Vec<Diagnostic>) -> Option<Writer> {
    Writer::of_device(&device(), letter)
        .map_err(|error| {
            let title = format!("this device's name cannot be kept in {}: {error}", device().display());
            found.push(Diagnostic::error(Code::CannotWrite, title));
        })
        .ok()
}

/// An event that is written now.
pub(crate) fn event(writer: &Writer, lot: &str, happened: Happened) -> Event {
    let at = Utc::now();
    let zone_min = chrono::Local::now().offset().local_minus_utc() / 60;
    Event { id: writer.event_id(at), at, zone_min, lot: lot.to_owned(), happened }
}

/// Puts an event into the book, or says why it cannot; it is made from the lot codes that are there.
pub(crate) fn append(
    writer: &Writer,
    root: &Path,
    make: impl FnOnce(&[String]) -> Event,
    found: &mut Vec<Diagnostic>,
) -> Option<Event> {
    let refused = |error| {
        let title = format!("the event cannot be written: {}: {error}", writer.file(root).display());
        found.push(
            Diagnostic::error(Code::CannotWrite, title)
                .help("check the folder and the room on the disk, and do it again"),
        );
    };
    writer.append(root, make).map_err(refused).ok()
}

/// A lot that is on the book.
pub(crate) fn lot_of<'a>(book: &'a LotBook, written: &str, found: &mut Vec<Diagnostic>) -> Option<&'a LotState> {
    let code = code::tidy(written);
    let lot = book.lot(&code);
    if lot.is_none() {
        let near = nearest(&code, book.lots().map(|lot| lot.lot.as_str()));
        found.push(
            Diagnostic::error(Code::BadArgument, format!("the book has no lot `{written}`"))
                .help(meant_or(near, "stillroom due shows the lots that are there")),
        );
    }
    lot
}

/// Where a part is from, as it is written: a lot code of the book, a day, or what its maker printed on it.
pub(crate) fn part_from(written: &str, book: &LotBook) -> PartFrom {
    let written = written.trim();
    let lot = code::tidy(written);
    if book.lot(&lot).is_some() {
        return PartFrom::Lot(lot);
    }
    match crate::input::day(written) {
        Some(day) => PartFrom::Day(day),
        None => PartFrom::Batch(written.to_owned()),
    }
}

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
#[derive(clap::Args)]
#[command(after_help = "\
Example:
  stillroom discard 261129-A1 --why \"past its date\"")]
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
            found.push(open::bad_argument("taste", written, &why, all));
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
        Some(Happened::Tasted { taste: taste?, signs, note: args.note.clone() })
    })
}

pub(crate) fn open_lot(args: &OpenArgs) -> Reply {
    change(&args.of, |opened, lot, found| {
        let use_by = dated(opened, lot, &LotChange::Opened(open::today()), found)?;
        Some(Happened::Opened { use_by })
    })
}

pub(crate) fn move_lot(args: &MoveArgs) -> Reply {
    change(&args.of, |opened, lot, found| {
        let stores = &opened.house.settings.stores;
        let Some(store) = stores.iter().find(|store| fold(&store.name) == fold(&args.store)).cloned() else {
            let names: Vec<&str> = stores.iter().map(|store: &Store| store.name.as_str()).collect();
            let near = nearest(&args.store, names.iter().copied());
            let help = meant_or(near, format!("its stores are: {}", names.join(", ")));
            found.push(open::bad_argument("move", &args.store, "the house has no such store", &help));
            return None;
        };
        let frozen = crate::assessment::storage(&store) == crate::safety::Storage::Frozen;
        let to = store.name.clone();
        let use_by = dated(opened, lot, &LotChange::Moved(open::today(), store), found)?;
        Some(Happened::Moved { to, frozen, use_by })
    })
}

pub(crate) fn use_up(args: &UseUpArgs) -> Reply {
    change(&args.of, |_, _, _| Some(Happened::UsedUp))
}

pub(crate) fn discard(args: &DiscardArgs) -> Reply {
    change(&args.of, |_, _, _| Some(Happened::Discarded { why: args.why.clone() }))
}

pub(crate) fn tell(args: &TellArgs) -> Reply {
    change(&args.of, |opened, lot, found| {
        let Some((part, from)) = args.part.split_once('=') else {
            let help = "write it as \"lime juice=2026-11-28\"";
            found.push(open::bad_argument("tell", &args.part, "a part, `=` and where it is from were expected", help));
            return None;
        };
        let Some(used) = lot.recorded.parts.iter().find(|used| fold(&used.of) == fold(part)) else {
            let all: Vec<&str> = lot.recorded.parts.iter().map(|used| used.of.as_str()).collect();
            let help =
                meant_or(nearest(part.trim(), all.iter().copied()), format!("its parts are: {}", all.join(", ")));
            found.push(open::bad_argument("tell", part.trim(), "nothing of that name went into it", &help));
            return None;
        };
        let from = part_from(from, &opened.book);
        if matches!(&from, PartFrom::Day(day) if *day > lot.recorded.made) {
            let why = format!("it cannot be younger than the lot, which was made on {}", lot.recorded.made);
            found.push(open::bad_argument("tell", &args.part, &why, "write the day on which it was made"));
            return None;
        }
        let use_by = dated(opened, lot, &LotChange::Told(used.of.clone(), from.clone()), found)?;
        Some(Happened::Told { part: used.of.clone(), from, use_by })
    })
}

/// The date of a lot after a change; where its kept sheet is gone there is none, and it is said.
fn dated(opened: &OpenedBook, lot: &LotState, change: &LotChange, found: &mut Vec<Diagnostic>) -> Option<UseBy> {
    let kept = files::sheet(&opened.root, &lot.recorded.sheet).ok();
    let sheet = kept.and_then(|text| serde_json::from_str::<FrozenSheet>(&text).ok());
    let use_by = sheet.and_then(|sheet| date_after(lot, &sheet, &opened.book, change));
    if use_by.is_none() {
        found.push(
            Diagnostic::error(
                Code::CannotRead,
                format!("the sheet of lot {} cannot be read: no date can be given", lot.lot),
            )
            .help(format!(
                "it lies in {}: sync that folder as well",
                opened.root.join(files::FOLDER).join("sheets").display()
            )),
        );
    }
    use_by
}

/// Opens the book, asks what happened to a lot that is there, writes it down, and shows the lot.
fn change(
    of: &OfLot,
    happened: impl FnOnce(&OpenedBook, &LotState, &mut Vec<Diagnostic>) -> Option<Happened>,
) -> Reply {
    let mut opened = open(Path::new("."));
    let mut found = std::mem::take(&mut opened.found);
    let view = changed(&opened, of, happened, &mut found);
    let report = Report::new(view, &found, open::text_of);
    Reply::of(&report, found, of.json, render::text::lot)
}

fn changed(
    opened: &OpenedBook,
    of: &OfLot,
    happened: impl FnOnce(&OpenedBook, &LotState, &mut Vec<Diagnostic>) -> Option<Happened>,
    found: &mut Vec<Diagnostic>,
) -> Option<LotView> {
    let lot = lot_of(&opened.book, &of.lot, found)?;
    if lot.standing != LotStanding::InUse {
        let gone = if lot.standing == LotStanding::UsedUp { "was used up" } else { "was thrown away" };
        let title = format!("lot {} {gone} on {}", lot.lot, lot.since);
        found.push(Diagnostic::error(Code::BadArgument, title).help("nothing more can happen to it"));
        return None;
    }
    let happened = happened(opened, lot, found)?;
    let writer = writer(None, found)?;
    let event = append(&writer, &opened.root, |_| event(&writer, &lot.lot, happened), found)?;
    let mut events = opened.book.events.clone();
    events.push(event);
    let book = LotBook::of(events);
    Some(LotView::new(&book, book.lot(&lot.lot)?, open::today()))
}

/// The day that is asked about.
pub(crate) fn on(written: Option<&str>, found: &mut Vec<Diagnostic>) -> NaiveDate {
    open::day("--on", written, found).unwrap_or_else(open::today)
}
