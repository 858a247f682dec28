//! Finding the card and the house that a verb speaks of.

use std::path::Path;

use crate::diagnostic::{Code, Diagnostic};
use crate::formula::{self, Formula};
use crate::house::{self, House};

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
            diagnostics.extend(found);
            card
        }
        Err(unread) => {
            diagnostics.push(*unread);
            None
        }
    };
    Opened { card, house, diagnostics }
}

/// The diagnostic for an argument that cannot be understood.
pub fn bad_argument(option: &str, written: &str, why: &str, help: &str) -> Diagnostic {
    Diagnostic::error(Code::BadArgument, format!("{option} \"{written}\": {why}")).help(help.to_owned())
}
