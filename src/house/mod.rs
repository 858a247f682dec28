//! The folder of a house: its settings, its larder, its formulas by name.

pub mod costs;
mod files;
pub mod instruments;
pub mod settings;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic};
use crate::larder::{Larder, house_file, names};

pub use costs::Costs;
pub use instruments::{Instruments, Jug, Scale};
pub use settings::{DayOne, LocalCode, Settings, Store};

/// The text of a file, with the name under which diagnostics speak of it.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceFile {
    /// The path as it is shown.
    pub file: Arc<str>,
    /// What is in it.
    pub text: Arc<str>,
}

/// A formula of the house that has not been read yet.
#[derive(Clone, Debug, PartialEq)]
pub struct CardFile {
    /// The product's name, or the file's where the card has none.
    pub name: String,
    /// Where it lies.
    pub path: PathBuf,
}

/// A house.
#[derive(Clone, Debug)]
pub struct House {
    /// What `house.toml` says, with defaults for the rest.
    pub settings: Settings,
    /// The embedded larder with the house's own over it.
    pub larder: Larder,
    /// `house.toml` and `larder.toml` as they were read, to show the line that a diagnostic speaks of.
    pub sources: Vec<SourceFile>,
    /// Whether there is no `house.toml`, so that every setting is a default.
    pub is_default: bool,
    /// Formulas by folded name.
    formulas: BTreeMap<String, CardFile>,
    /// What there is to say of single formulas, by folded name: a matter of those who use them.
    said: Vec<(String, Diagnostic)>,
}

impl Default for House {
    fn default() -> Self {
        Self {
            settings: Settings::default(),
            larder: Larder::built_in().clone(),
            sources: Vec::new(),
            is_default: true,
            formulas: BTreeMap::new(),
            said: Vec::new(),
        }
    }
}

impl House {
    /// The house that a formula (or a folder) belongs to: the nearest `house.toml` and the nearest
    /// `larder.toml` beside it or in a folder above, and the formulas that lie in the same folder.
    pub fn find(start: &Path) -> (Self, Vec<Diagnostic>) {
        let mut found = Vec::new();
        let mut house = Self::default();
        let folder = files::folder_of(start);
        match files::nearest(&folder, files::HOUSE, &mut found) {
            files::Nearest::Read(source) => {
                house.settings = settings::read(&source.text, &source.file, &mut found);
                house.is_default = false;
                house.sources.push(source);
            }
            // what could not be read has been said
            files::Nearest::Unreadable => {}
            files::Nearest::None => found.push(
                Diagnostic::note(Code::Assumed, format!("no {} here or in a folder above", files::HOUSE))
                    .help(format!("assumed: {}", house.settings.assumed().join("; "))),
            ),
        }
        if let files::Nearest::Read(source) = files::nearest(&folder, files::LARDER, &mut found) {
            house.larder = house.larder.with_house(house_file::by_entry(&source.text, &source.file, &mut found));
            house.sources.push(source);
        }
        house.formulas = by_name(files::formulas(&folder, &mut house.said), &mut house.said);
        (house, found)
    }

    /// The text of the formula with this name; `None` when the house has none of it.
    pub fn card(&self, name: &str) -> Option<Result<SourceFile, Box<Diagnostic>>> {
        self.formulas.get(&names::fold(name)).map(|formula| files::read(&formula.path))
    }

    /// What there is to say of the formula or the ingredient of this name, beside what its own text says.
    pub fn said_of(&self, name: &str) -> impl Iterator<Item = &Diagnostic> {
        let key = names::fold(name);
        let of_formulas = self.said.iter().filter(move |(of, _)| *of == key).map(|(_, d)| d);
        of_formulas.chain(self.larder.said_of(name))
    }

    /// What there is to say of all of them.
    pub fn said(&self) -> impl Iterator<Item = &Diagnostic> {
        self.said.iter().map(|(_, d)| d).chain(self.larder.said())
    }

    /// The formulas, by name.
    pub fn cards(&self) -> impl Iterator<Item = &CardFile> + Clone {
        self.formulas.values()
    }
}

/// The text of one file, wherever it lies.
///
/// # Errors
/// Where it cannot be read, is too large, or is not text.
pub fn read(path: &Path) -> Result<SourceFile, Box<Diagnostic>> {
    files::read(path)
}

/// Writes a file that is not there yet; its folder is made if needed.
///
/// # Errors
/// Where it is there already, or cannot be written.
pub fn write_new(path: &Path, text: &str) -> std::io::Result<()> {
    files::write_new(path, text)
}

/// Writes a file whole or not at all, in place of what is there.
///
/// # Errors
/// Where it cannot be written; what was there is then there still.
pub fn replace(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    files::replace(path, bytes)
}

/// The full path of a file that is there or may come to be there: two names of one file have the same.
pub fn place(path: &Path) -> PathBuf {
    files::place(path)
}

/// What a file begins with, up to so many bytes; `None` where nothing is there.
pub fn first_bytes(path: &Path, most: usize) -> Option<std::io::Result<Vec<u8>>> {
    files::first_bytes(path, most)
}

/// The files of a folder that are formulas by their name; none of them is opened.
pub fn card_paths(folder: &Path) -> Vec<PathBuf> {
    files::card_paths(&files::folder_of(folder))
}

fn by_name(files: Vec<CardFile>, said: &mut Vec<(String, Diagnostic)>) -> BTreeMap<String, CardFile> {
    let mut formulas: BTreeMap<String, CardFile> = BTreeMap::new();
    for formula in files {
        let key = names::fold(&formula.name);
        match formulas.get(&key) {
            Some(first) => said.push((
                key,
                Diagnostic::warning(Code::SameName, format!("two formulas have the name `{}`", formula.name))
                    .in_file(&files::shown(&formula.path))
                    .help(format!("{} has it too and is the one that is used: rename one", files::shown(&first.path))),
            )),
            None => {
                formulas.insert(key, formula);
            }
        }
    }
    formulas
}
