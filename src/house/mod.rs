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
pub struct FormulaFile {
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
    formulas: BTreeMap<String, FormulaFile>,
}

impl Default for House {
    fn default() -> Self {
        Self {
            settings: Settings::default(),
            larder: Larder::built_in().clone(),
            sources: Vec::new(),
            is_default: true,
            formulas: BTreeMap::new(),
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
            house.larder = house.larder.overlay(house_file::read(&source.text, &source.file, &mut found));
            house.sources.push(source);
        }
        house.formulas = by_name(files::formulas(&folder, &mut found), &mut found);
        (house, found)
    }

    /// The text of the formula with this name; `None` when the house has none of it.
    pub fn formula(&self, name: &str) -> Option<Result<SourceFile, Box<Diagnostic>>> {
        self.formulas.get(&names::fold(name)).map(|formula| files::read(&formula.path))
    }

    /// The formulas, by name.
    pub fn formulas(&self) -> impl Iterator<Item = &FormulaFile> + Clone {
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

/// The files of a folder that are formulas by their name; none of them is opened.
pub fn formula_paths(folder: &Path) -> Vec<PathBuf> {
    files::formula_paths(&files::folder_of(folder))
}

fn by_name(files: Vec<FormulaFile>, found: &mut Vec<Diagnostic>) -> BTreeMap<String, FormulaFile> {
    let mut formulas: BTreeMap<String, FormulaFile> = BTreeMap::new();
    for formula in files {
        match formulas.get(&names::fold(&formula.name)) {
            Some(first) => found.push(
                Diagnostic::warning(Code::SameName, format!("two formulas have the name `{}`", formula.name))
                    .in_file(&files::shown(&formula.path))
                    .help(format!("{} has it too and is the one that is used: rename one", files::shown(&first.path))),
            ),
            None => {
                formulas.insert(names::fold(&formula.name), formula);
            }
        }
    }
    formulas
}
