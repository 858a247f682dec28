//! Finding the card and the house that a verb speaks of.

use std::path::Path;
use std::sync::{Arc, OnceLock};

use chrono::NaiveDate;

use crate::aim;
use crate::assessment::by_name;
use crate::card::{self, Card};
use crate::diagnostic::{Code, Diagnostic, Severity, any_error};
use crate::house::{self, House, SourceFile};
use crate::input;
use crate::lots::due::tell_ending;
use crate::lots::recall::tell_pulled;
use crate::lots::record::tell_growth;
use crate::lots::standing::tell_standing;
use crate::report::{Report, View};
use crate::solver::Options;

use super::Reply;
use super::book_file;
pub(crate) use super::clock::today;
use super::locate::{Located, STANDARD_INPUT, home, locate, where_else};

/// A card that was opened, with its house and what was found on the way.
pub(crate) struct Opened {
    /// None where it could not be read.
    pub card: Option<Card>,
    pub house: House,
    pub found: Vec<Diagnostic>,
    /// What is asked beyond the card, as far as it bears on what a card with room chooses.
    pub options: Options,
}

impl Opened {
    /// With what a verb asks beyond the card.
    pub(crate) fn asked(self, options: &Options) -> Self {
        Self { options: options.clone(), ..self }
    }

    /// What a verb answers of the card, where nothing must be mended before.
    pub(crate) fn reply<V: View>(
        mut self,
        json: bool,
        text: impl Fn(&Report<V>) -> String,
        answer: impl FnOnce(&Card, &House, &mut Vec<Diagnostic>) -> Option<V>,
    ) -> Reply {
        if any_error(&self.found)
            && let Some(card) = &self.card
        {
            let others = aim::faults(card, &self.house);
            self.found.extend(others.into_iter().filter(|d| !self.found.contains(d)).collect::<Vec<_>>());
        }
        let card = self.card.as_ref().filter(|_| !any_error(&self.found));
        let card = card.and_then(|card| aim::chosen(card, &self.house, &self.options, &mut self.found));
        let view = card.and_then(|made| answer(&made.card, &made.house, &mut self.found));
        // what has no figures has no sheet to say it on
        if view.is_none()
            && let Some(card) = &self.card
        {
            self.found.extend(by_name::stops(card, &self.house));
        }
        let name = self.card.as_ref().map(|card| card.name.value.as_str());
        Reply::of(&Report::new(view, &self.found, text_of).of_product(name), self.found, json, text)
    }
}

/// The reply of a verb that names no card.
pub(crate) fn reply<V: View>(
    view: Option<V>,
    found: Vec<Diagnostic>,
    json: bool,
    text: impl Fn(&Report<V>) -> String,
) -> Reply {
    Reply::of(&Report::new(view, &found, text_of), found, json, text)
}

/// The house of a folder, with what its book of lots says against the dates of its cards.
pub(crate) fn house(folder: &Path) -> (House, Vec<Diagnostic>) {
    let (mut house, mut found) = house_alone(folder);
    let root = book_file::root(&house, folder);
    if book_file::is_at(&root) {
        let mut of_book = Vec::new();
        let book = book_file::read(&root, &mut of_book);
        tell_growth(&book, &mut house);
        tell_ending(&book, today(), &mut house);
        tell_pulled(&book, &mut house);
        tell_standing(&book, today(), &mut house, |lot| book_file::kept_sheet(&root, lot));
        // what is wrong with single lines the verbs of lots say; a book that cannot be read may hold what counts
        found.extend(of_book.into_iter().filter(|d| d.severity == Severity::Error));
    }
    (house, found)
}

/// The house of a folder without its book. What of its larder is left out is named: what is wrong with it is said to the
/// cards that use it.
pub(super) fn house_alone(folder: &Path) -> (House, Vec<Diagnostic>) {
    let (house, mut found) = House::find(folder);
    let names: Vec<String> = house.larder.left_out().map(|name| format!("`{name}`")).collect();
    if !names.is_empty() {
        let title = format!("left out of the larder, for what is wrong with it: {}", names.join(", "));
        found.push(Diagnostic::warning(Code::LeftOut, title).help("stillroom check says what that is"));
    }
    let files: Vec<&str> = house.files().collect();
    if !files.is_empty() {
        found.push(Diagnostic::note(Code::FilesUsed, format!("read with {}", files.join(" and "))));
    }
    (house, found)
}

/// What standard input is called where findings speak of it.
const ITS_NAME: &str = "standard input";

/// What standard input held, once it is read: findings show lines of it.
static READ: OnceLock<Arc<str>> = OnceLock::new();

/// A text by its file, or from standard input.
pub(crate) fn source(which: &str) -> Result<SourceFile, Box<Diagnostic>> {
    if which != STANDARD_INPUT {
        return house::read(Path::new(which));
    }
    let source = house::read_from(std::io::stdin().lock(), ITS_NAME.into())?;
    let _ = READ.set(Arc::clone(&source.text));
    Ok(source)
}

/// The board of a house, and its menu.
pub(super) const BOARD: &str = "plan.toml";
pub(super) const MENU: &str = "menu.toml";

/// A file of the house beside another, where it has one.
pub(crate) fn beside(path: &Path, name: &str, found: &mut Vec<Diagnostic>) -> Option<SourceFile> {
    let beside = path.with_file_name(name);
    if !beside.exists() {
        return None;
    }
    house::read(&beside).map_err(|unread| found.push(*unread)).ok()
}

/// The house that is meant where no card is named.
pub(crate) fn house_here() -> (House, Vec<Diagnostic>) {
    house(&home())
}

/// Opens a card by its path, or by its product's name in the house of the current folder, with readings of ingredients
/// laid over the larder for this run.
pub(crate) fn card(which: &str, measured: &[String], mut found: Vec<Diagnostic>) -> Opened {
    let located = locate(which);
    let folder = match &located {
        Located::File(path) => path.parent().unwrap_or(Path::new("")).to_owned(),
        Located::Product { folder, .. } => folder.clone(),
        Located::StandardInput | Located::Nowhere => home(),
    };
    let (mut house, of_house) = house(&folder);
    found.extend(of_house);
    let read = match located {
        Located::StandardInput => source(which),
        Located::File(path) => house::read(&path),
        Located::Nowhere => house::read(Path::new(which)),
        Located::Product { file, .. } => {
            found.extend(house.said_of(which).filter(|d| d.code != Code::BundleWins).cloned());
            house::read(Path::new(&*file))
        }
    };
    let source = read.map_err(|unread| {
        found.push(match (&unread.help, where_else(which, &house)) {
            (None, Some(help)) => unread.help(help),
            _ => *unread,
        });
    });
    let card = source.ok().and_then(|source| {
        let source = house.unbundled(source, &mut found);
        let (card, of_card) = card::read_by(source.file, source.text, &house.customs());
        found.extend(of_card);
        // of a card that is named by its product it is said already
        if let Some(card) = &card {
            let of_lots = house.said_of(&card.name.value).filter(|d| d.code == Code::LotPulled && !found.contains(d));
            let of_lots: Vec<Diagnostic> = of_lots.cloned().collect();
            found.extend(of_lots);
        }
        card
    });
    for written in measured {
        match house.larder.measured(written, &"--measured".into()) {
            Ok(ingredient) => house.larder = std::mem::take(&mut house.larder).overlay(vec![ingredient]),
            Err(why) => found.extend(why.into_iter().map(|d| {
                let help = d.help.unwrap_or_else(|| "\"lime juice: acid=58 g/L, ph=2.3\"".to_owned());
                bad_argument("--measured", written, &d.title, &help)
            })),
        }
    }
    Opened { card, house, found, options: Options::default() }
}

pub(crate) fn text_of(file: &str) -> Option<Arc<str>> {
    if file == ITS_NAME
        && let Some(read) = READ.get()
    {
        return Some(Arc::clone(read));
    }
    Some(house::read(Path::new(file)).ok()?.text)
}

pub(crate) fn bad_argument(option: &str, written: &str, why: &str, help: &str) -> Diagnostic {
    Diagnostic::error(Code::BadArgument, format!("{option} \"{written}\": {why}")).help(help.to_owned())
}

/// What an option says, if it is given; what cannot be understood is reported, with what to write: an example, which begins
/// with the option.
pub(crate) fn argument<T, E: Into<String>>(
    written: Option<&str>,
    example: &str,
    read: impl FnOnce(&str) -> Result<T, E>,
    found: &mut Vec<Diagnostic>,
) -> Option<T> {
    let written = written?;
    let option = example.split(' ').next().unwrap_or(example);
    let refused = |why: E| bad_argument(option, written, &why.into(), &format!("write for example {example}"));
    read(written).map_err(|why| found.push(refused(why))).ok()
}

/// The day that an option says, if it is given; what is not a day is reported.
pub(crate) fn day(option: &str, written: Option<&str>, found: &mut Vec<Diagnostic>) -> Option<NaiveDate> {
    let written = written?;
    let day = input::day(written);
    if day.is_none() {
        let meant = input::day_meant(written).map_or_else(|| "2026-11-25".to_owned(), |day| day.to_string());
        let help = format!("write it year first: {option} {meant}");
        found.push(bad_argument(option, written, input::NO_DAY, &help));
    }
    day
}
