//! Finding the card and the house that a verb speaks of.

use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::card::{self, Card};
use crate::diagnostic::{Code, Diagnostic};
use crate::house::{self, House};
use crate::input;
use crate::spelling::nearest;

/// A card that was opened, with its house.
pub(crate) struct Opened {
    /// The card, if it could be read.
    pub card: Option<Card>,
    /// The house that it stands in.
    pub house: House,
    /// What was found on the way.
    pub diagnostics: Vec<Diagnostic>,
}

/// The house of a folder. What of its larder is left out is named: what is wrong with it is said to the cards that use it.
pub(crate) fn house(folder: &Path) -> (House, Vec<Diagnostic>) {
    let (house, mut found) = House::find(folder);
    let names: Vec<String> = house.larder.left_out().map(|name| format!("`{name}`")).collect();
    if !names.is_empty() {
        let title = format!("left out of the larder, for what is wrong with it: {}", names.join(", "));
        found.push(Diagnostic::warning(Code::LeftOut, title).help("stillroom check says what that is"));
    }
    (house, found)
}

/// Opens a card by its path, or by its product's name in the house of the current folder.
pub(crate) fn card(which: &str) -> Opened {
    let path = Path::new(which);
    let folder = if path.exists() { path.parent().unwrap_or(Path::new("")) } else { Path::new(".") };
    let (house, mut diagnostics) = house(folder);
    let named = if path.exists() { None } else { house.card(which).cloned() };
    if named.is_some() {
        diagnostics.extend(house.said_of(which).cloned());
    }
    let card = match named.map_or_else(|| house::read(path), Ok) {
        Ok(source) => {
            let (card, found) = card::read(source.file, source.text);
            diagnostics.extend(found);
            card
        }
        Err(unread) => {
            diagnostics.push(match (&unread.help, where_else(which, &house)) {
                (None, Some(help)) => unread.help(help),
                _ => *unread,
            });
            None
        }
    };
    Opened { card, house, diagnostics }
}

/// What to do about a card that could not be opened: another name that is like it, or what can be named.
fn where_else(which: &str, house: &House) -> Option<String> {
    let path = Path::new(which);
    if path.is_dir() {
        return Some(format!("name one card in it, or look through all of them: stillroom check {}", path.display()));
    }
    // What is there and cannot be read has the right name.
    if !matches!(path.try_exists(), Ok(false)) {
        return None;
    }
    let beside = path.parent().filter(|folder| folder.is_dir());
    let files: Vec<String> = beside.map_or_else(Vec::new, |folder| {
        let cards = house::card_paths(folder);
        cards.iter().filter_map(|card| Some(folder.join(card.file_name()?).display().to_string())).collect()
    });
    let names = house.cards().map(|f| f.name.as_str()).chain(files.iter().map(String::as_str));
    Some(match nearest(which, names) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "name a card by its file, or by its product's name in the house of this folder".to_owned(),
    })
}

/// The text of a file that a finding speaks of.
pub(crate) fn text_of(file: &str) -> Option<Arc<str>> {
    Some(house::read(Path::new(file)).ok()?.text)
}

impl Opened {
    /// Lays readings of ingredients over the larder, for this run.
    pub(crate) fn measured(&mut self, readings: &[String]) {
        for written in readings {
            match self.house.larder.measured(written, &"--measured".into()) {
                Ok(ingredient) => {
                    self.house.larder = std::mem::take(&mut self.house.larder).overlay(vec![ingredient]);
                }
                Err(why) => self.diagnostics.extend(why.into_iter().map(|d| {
                    let help = d.help.unwrap_or_else(|| "\"lime juice: acid=58 g/L, ph=2.3\"".to_owned());
                    bad_argument("--measured", written, &d.title, &help)
                })),
            }
        }
    }
}

/// The diagnostic for an argument that cannot be understood.
pub(crate) fn bad_argument(option: &str, written: &str, why: &str, help: &str) -> Diagnostic {
    Diagnostic::error(Code::BadArgument, format!("{option} \"{written}\": {why}")).help(help.to_owned())
}

/// What an option says, if it is given; what cannot be understood is reported, with what to write.
pub(crate) fn argument<T>(
    option: &str,
    written: Option<&String>,
    read: impl FnOnce(&str) -> Result<T, String>,
    help: &str,
    found: &mut Vec<Diagnostic>,
) -> Option<T> {
    let written = written?;
    read(written).map_err(|why| found.push(bad_argument(option, written, &why, help))).ok()
}

/// The day that an option says, if it is given; what is not a day is reported.
pub(crate) fn day(option: &str, written: Option<&str>, found: &mut Vec<Diagnostic>) -> Option<NaiveDate> {
    let written = written?;
    let day = input::day(written);
    if day.is_none() {
        let help = format!("write it year first: {option} 2026-11-25");
        found.push(bad_argument(option, written, input::day::EXPECTED, &help));
    }
    day
}

/// The day on this machine's clock.
pub(crate) fn today() -> NaiveDate {
    chrono::Local::now().date_naive()
}
