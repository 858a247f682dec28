//! Finding the card and the house that a verb speaks of.

use std::path::Path;

use chrono::{Datelike, NaiveDate};

use crate::diagnostic::{Code, Diagnostic};
use crate::formula::{self, Formula};
use crate::house::{self, House};
use crate::render;

/// A card that was opened, with its house.
pub struct Opened {
    /// The card, if it could be read.
    pub card: Option<Formula>,
    /// The house that it stands in.
    pub house: House,
    /// What was found on the way.
    pub diagnostics: Vec<Diagnostic>,
}

/// Opens a card by its path, or by its product's name in the house of the current folder.
pub fn card(which: &str) -> Opened {
    let path = Path::new(which);
    let folder = if path.exists() { path.parent().unwrap_or(Path::new("")) } else { Path::new(".") };
    let (house, mut diagnostics) = House::find(folder);
    let named = if path.exists() { None } else { house.formula(which) };
    let card = match named.unwrap_or_else(|| house::read(path)) {
        Ok(source) => {
            let (card, found) = formula::read(source.file, source.text);
            diagnostics.retain(|d| d.code != Code::SameName || card.as_ref().is_some_and(|c| speaks_of(d, c)));
            diagnostics.extend(found);
            card
        }
        Err(unread) => {
            diagnostics.push(match unread.help {
                Some(_) => *unread,
                None => {
                    let help = where_else(which, &house);
                    unread.help(help)
                }
            });
            None
        }
    };
    Opened { card, house, diagnostics }
}

/// Whether two formulas of the same name matter to a card: of the others `check` speaks.
fn speaks_of(same_name: &Diagnostic, card: &Formula) -> bool {
    let title = same_name.title.to_lowercase();
    card.references().any(|part| title.contains(&format!("`{}`", part.of.value.to_lowercase())))
}

/// What to do about a card that could not be opened: another name that is like it, or what can be named.
fn where_else(which: &str, house: &House) -> String {
    let path = Path::new(which);
    if path.is_dir() {
        return format!("name one card in it, or look through all of them: stillroom check {}", path.display());
    }
    let beside = path.parent().filter(|folder| folder.is_dir());
    let files: Vec<String> = beside.map_or_else(Vec::new, |folder| {
        let cards = house::formula_paths(folder);
        cards.iter().filter_map(|card| Some(folder.join(card.file_name()?).display().to_string())).collect()
    });
    let names = house.formulas().map(|f| f.name.as_str()).chain(files.iter().map(String::as_str));
    match crate::text::nearest(which, names) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "name a card by its file, or by its product's name in the house of this folder".to_owned(),
    }
}

impl Opened {
    /// Lays readings of ingredients over the larder, for this run.
    pub fn measured(&mut self, readings: &[String]) {
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
pub fn bad_argument(option: &str, written: &str, why: &str, help: &str) -> Diagnostic {
    Diagnostic::error(Code::BadArgument, format!("{option} \"{written}\": {why}")).help(help.to_owned())
}

/// Writes a drawing: SVG, or PNG where the file's name ends so.
pub fn write_chart(path: &Path, svg: &str) -> Result<(), Diagnostic> {
    let cannot = |why: String| {
        Diagnostic::error(Code::CannotWrite, format!("{} could not be written: {why}", path.display()))
            .help("check the folder's name and that you may write there")
    };
    let png = path.extension().is_some_and(|e| e.eq_ignore_ascii_case("png"));
    let bytes = if png {
        render::chart::png(svg).ok_or_else(|| cannot("the drawing could not be turned into a picture".to_owned()))?
    } else {
        svg.as_bytes().to_vec()
    };
    std::fs::write(path, bytes).map_err(|e| cannot(e.to_string()))
}

/// The day that is written, or today; what is not a day is reported.
pub fn day_made(written: Option<&str>, found: &mut Vec<Diagnostic>) -> NaiveDate {
    let today = || chrono::Local::now().date_naive();
    written.and_then(|written| day("--made", written, found)).unwrap_or_else(today)
}

/// A day as it was given to this flag; what is not a day is reported.
pub fn day(flag: &str, written: &str, found: &mut Vec<Diagnostic>) -> Option<NaiveDate> {
    let day = NaiveDate::parse_from_str(written.trim(), "%Y-%m-%d").ok().filter(|day| YEARS.contains(&day.year()));
    if day.is_none() {
        found.push(bad_argument(flag, written, "not a day", &format!("write it year first: {flag} 2026-11-25")));
    }
    day
}

/// Years of which a kitchen may speak: a day outside is a slip of the finger.
const YEARS: std::ops::Range<i32> = 1900..2200;
