//! Finding the card and the house that a verb speaks of.

use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;

use crate::card::{self, Card};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::{self, House};
use crate::input;
use crate::report::{Report, View};
use crate::solver::faults;
use crate::spelling::nearest;
use crate::units::LiteralError;

use super::Reply;

/// A card that was opened, with its house and what was found on the way.
pub(crate) struct Opened {
    /// None where it could not be read.
    pub card: Option<Card>,
    pub house: House,
    pub found: Vec<Diagnostic>,
}

impl Opened {
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
            let others = faults(card, &self.house);
            self.found.extend(others.into_iter().filter(|d| !self.found.contains(d)).collect::<Vec<_>>());
        }
        let card = self.card.as_ref().filter(|_| !any_error(&self.found));
        let view = card.and_then(|card| answer(card, &self.house, &mut self.found));
        let name = self.card.as_ref().map(|card| card.name.value.as_str());
        Reply::of(&Report::new(view, &self.found, text_of).of_product(name), self.found, json, text)
    }
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

/// Opens a card by its path, or by its product's name in the house of the current folder, with readings of ingredients
/// laid over the larder for this run.
pub(crate) fn card(which: &str, measured: &[String], mut found: Vec<Diagnostic>) -> Opened {
    let path = Path::new(which);
    let folder = if path.exists() { path.parent().unwrap_or(Path::new("")) } else { Path::new(".") };
    let (mut house, of_house) = house(folder);
    found.extend(of_house);
    let named = if path.exists() { None } else { house.card(which).cloned() };
    if named.is_some() {
        found.extend(house.said_of(which).cloned());
    }
    let source = named.map_or_else(|| house::read(path), Ok).map_err(|unread| {
        found.push(match (&unread.help, where_else(which, &house)) {
            (None, Some(help)) => unread.help(help),
            _ => *unread,
        });
    });
    let card = source.ok().and_then(|source| {
        let (card, of_card) = card::read_by(source.file, source.text, &house.customs());
        found.extend(of_card);
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
    Opened { card, house, found }
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

pub(crate) fn text_of(file: &str) -> Option<Arc<str>> {
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

impl From<LiteralError> for String {
    fn from(why: LiteralError) -> Self {
        why.title
    }
}

/// The day that an option says, if it is given; what is not a day is reported.
pub(crate) fn day(option: &str, written: Option<&str>, found: &mut Vec<Diagnostic>) -> Option<NaiveDate> {
    let written = written?;
    let day = input::day(written);
    if day.is_none() {
        let help = format!("write it year first: {option} 2026-11-25");
        found.push(bad_argument(option, written, input::NO_DAY, &help));
    }
    day
}

pub(crate) fn today() -> NaiveDate {
    chrono::Local::now().date_naive()
}
