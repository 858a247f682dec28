//! The book of lots on disk: where it lies, and what is wrong with it.

use std::path::{Path, PathBuf};

use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::lots::book::Fault;
use crate::lots::files::{self, Unreadable};
use crate::lots::sheet::FrozenSheet;
use crate::lots::{LotBook, LotState};

/// The folder that the book lies in: that of `house.toml`, else the one that was named.
pub(crate) fn root(house: &House, folder: &Path) -> PathBuf {
    let beside = house.settings_file().and_then(|source| Path::new(&*source.file).parent()).map(Path::to_owned);
    beside.unwrap_or_else(|| folder.to_owned())
}

/// Whether a folder holds a book.
pub(crate) fn is_at(root: &Path) -> bool {
    root.join(files::FOLDER).exists()
}

/// The book, and what is wrong with it.
pub(crate) fn read(root: &Path, found: &mut Vec<Diagnostic>) -> LotBook {
    let (events, unreadable) = files::read(root).unwrap_or_else(|error| {
        let title = format!("the book in {} cannot be read: {error}", root.join(files::FOLDER).display());
        found.push(Diagnostic::error(Code::CannotRead, title));
        Default::default()
    });
    found.extend(unreadable.iter().map(passed_over));
    let book = LotBook::of(events);
    found.extend(book.faults.iter().map(|fault| match fault {
        Fault::SameCode(lot) => Diagnostic::warning(Code::SameName, format!("two batches have the lot code {lot}"))
            .help("two devices have the same letter: give one another (stillroom record --letter B), and label one batch anew"),
        Fault::BelowZero { lot, what } => {
            let title = format!("lot {lot}: an amount in the book is below zero: {}", what.join(", "));
            Diagnostic::warning(Code::OutOfRange, title)
                .help("no record writes that: the line was changed by hand or on its way; it counts as not told")
        }
        Fault::UnknownLot { lot, event } => {
            Diagnostic::warning(Code::UnknownProduct, format!("event {event} is of lot {lot}, which nobody recorded"))
                .help("its device has not been synced yet, or its recording was withdrawn")
        }
    }));
    book
}

/// The sheet that is kept with a lot.
pub(crate) fn kept_sheet(root: &Path, lot: &LotState) -> Option<FrozenSheet> {
    serde_json::from_str(&files::sheet(root, &lot.recorded.sheet).ok()?).ok()
}

/// A line of the book that is no event.
pub(crate) fn passed_over(line: &Unreadable) -> Diagnostic {
    let title = format!("{}, line {}: no event: {}", line.file.display(), line.line, line.why);
    Diagnostic::warning(Code::CannotRead, title).help("it is passed over, and left as it is")
}
