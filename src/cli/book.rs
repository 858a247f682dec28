//! The book of lots as a verb opens it: who writes into it, and what it teaches of a card.

use std::path::{Path, PathBuf};

use chrono::{Local, NaiveDate};

use crate::assessment::Lot;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::lots::event::{Event, Happened, PartFrom};
use crate::lots::files::Writer;
use crate::lots::record;
use crate::lots::sheet::FrozenSheet;
use crate::lots::standing::tell_standing;
use crate::lots::{LotBook, LotState, code};
use crate::report::lots::struck_words;
use crate::solver::Solved;
use crate::spelling::{fold, meant_or, nearest};

pub(super) use super::book_file::kept_sheet;
use super::book_file::{is_at, read, root};
use super::clock;
use super::open;

/// The book of the house of a folder, as it is.
pub(crate) struct OpenedBook {
    pub house: House,
    pub root: PathBuf,
    pub book: LotBook,
    pub found: Vec<Diagnostic>,
}

pub(crate) fn open(folder: &Path) -> OpenedBook {
    let (mut house, mut found) = open::house_alone(folder);
    let root = root(&house, folder);
    let book = read(&root, &mut found);
    record::tell_growth(&book, &mut house);
    tell_standing(&book, open::today(), &mut house, |lot| kept_sheet(&root, lot));
    OpenedBook { house, root, book, found }
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
    let at = clock::now();
    let zone_min = at.with_timezone(&Local).offset().local_minus_utc() / 60;
    Event { id: writer.event_id(at), at, zone_min, lot: lot.to_owned(), happened }
}

/// Puts an event into the book, or says why it cannot.
pub(crate) fn append(writer: &Writer, root: &Path, event: Event, found: &mut Vec<Diagnostic>) -> Option<Event> {
    written(writer.append(root, event), (writer, root), found)
}

/// What was put into the book, or why it could not be.
pub(crate) fn written(
    event: std::io::Result<Event>,
    (writer, root): (&Writer, &Path),
    found: &mut Vec<Diagnostic>,
) -> Option<Event> {
    let refused = |error| {
        let title = format!("the event cannot be written: {}: {error}", writer.file(root).display());
        found.push(
            Diagnostic::error(Code::CannotWrite, title)
                .help("check the folder and the room on the disk, and do it again"),
        );
    };
    event.map_err(refused).ok()
}

/// A lot that is on the book.
pub(crate) fn lot_of<'a>(book: &'a LotBook, written: &str, found: &mut Vec<Diagnostic>) -> Option<&'a LotState> {
    let code = code::tidy(written);
    let lot = book.lot(&code);
    let is_it = |from: &PartFrom| matches!(from, PartFrom::Batch(batch) if fold(batch) == fold(written));
    let holds = |state: &&LotState| state.recorded.parts.iter().any(|part| is_it(&part.from));
    let of_maker: Vec<&str> = book.lots().filter(holds).map(|state| state.lot.as_str()).collect();
    if lot.is_none() && !of_maker.is_empty() {
        let title = format!("`{written}` is what its maker printed on a part, and no lot of the book");
        let help = format!("it went into {}: ask for each of them", of_maker.join(", "));
        found.push(Diagnostic::error(Code::BadArgument, title).help(help));
    } else if let Some(struck) = book.struck(&code) {
        let title = format!("lot {code} was struck out {}", struck_words(struck));
        found.push(Diagnostic::error(Code::BadArgument, title).help("stillroom due shows the lots that are there"));
    } else if lot.is_none() {
        let near = nearest(&code, book.lots().map(|lot| lot.lot.as_str()));
        found.push(
            Diagnostic::error(Code::BadArgument, format!("the book has no lot `{written}`"))
                .help(meant_or(near, "stillroom due shows the lots that are there")),
        );
    }
    lot
}

/// Where a part is from, as it is written: a lot code of the book, a day, or what its maker printed on it. A code of which
/// the book has no lot is a slip of the pen: taken for a maker's number, a recall would not find what it went into.
pub(crate) fn part_from(written: &str, book: &LotBook) -> Result<PartFrom, String> {
    const OF_A_MAKER: &str = "a maker's own number is written with the maker's name before it";
    let written = written.trim();
    let lot = code::tidy(written);
    if book.lot(&lot).is_some() {
        return Ok(PartFrom::Lot(lot));
    }
    match crate::input::day(written) {
        Some(day) => Ok(PartFrom::Day(day)),
        None if code::is_one(&lot) => Err(format!("the book has no lot of this code; {OF_A_MAKER}")),
        // taken for a maker's number it would leave the part without a day
        None if let Some(day) = crate::input::day_meant(written) => {
            Err(format!("a day is written year first, {day}; {OF_A_MAKER}"))
        }
        None if !written.contains(|c: char| c.is_ascii_digit()) => {
            Err("a lot of the book, a day (2026-11-30) or the number that its maker printed on it was expected"
                .to_owned())
        }
        None => Ok(PartFrom::Batch(written.to_owned())),
    }
}

/// What the lots of the house's book teach of the date of a card that is solved; what is wrong with the book is said.
pub(crate) fn taught(file: &str, solved: &Solved, house: &House, found: &mut Vec<Diagnostic>) -> Lot {
    let folder = Path::new(file).parent().filter(|_| Path::new(file).exists());
    let root = root(house, folder.unwrap_or(Path::new("")));
    if !is_at(&root) {
        return Lot::default();
    }
    let book = read(&root, found);
    record::taught(&book, &solved.name, &FrozenSheet::of(&solved.card, solved, house).recipe(), house)
}

/// The day that is asked about.
pub(crate) fn on(written: Option<&str>, found: &mut Vec<Diagnostic>) -> NaiveDate {
    open::day("--on", written, found).unwrap_or_else(open::today)
}
