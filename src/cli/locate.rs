//! Where the card is that a verb names: a file, a file without its end, standard input, or a product of the house; here, or in
//! a folder `formulas` beside.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::house::{self, House};
use crate::spelling::{composed, nearest, words};

/// What stands for standard input on a command line.
pub(crate) const STANDARD_INPUT: &str = "-";

/// The folder that is looked into beside this one.
const FORMULAS: &str = "formulas";

pub(crate) enum Located {
    StandardInput,
    File(PathBuf),
    /// A product, of the house of this folder.
    Product {
        folder: PathBuf,
        file: Arc<str>,
    },
    /// Nothing of that name.
    Nowhere,
}

pub(crate) fn locate(which: &str) -> Located {
    if which == STANDARD_INPUT {
        return Located::StandardInput;
    }
    // What is there has the right name, whatever it is.
    if Path::new(which).symlink_metadata().is_ok() {
        return Located::File(which.into());
    }
    let stem = format!("{which}.toml");
    let beside = Path::new(FORMULAS);
    let files = [PathBuf::from(&stem), beside.join(which), beside.join(&stem)];
    if let Some(file) = files.iter().find(|file| file.is_file()) {
        return Located::File(file.clone());
    }
    if let Some(file) = [Path::new(which), &files[0], &files[1], &files[2]].into_iter().find_map(spelt_alike) {
        return Located::File(file);
    }
    let product = folders().find_map(|folder| {
        let file = Arc::clone(&House::find(&folder).0.card(which)?.file);
        Some(Located::Product { folder, file })
    });
    product.unwrap_or(Located::Nowhere)
}

/// The file beside of the same letters, where one of the two names has its accents apart from them, as some keyboards and some
/// file systems write them.
fn spelt_alike(path: &Path) -> Option<PathBuf> {
    let name = path.file_name()?.to_str().filter(|name| !name.is_ascii())?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut there = fs::read_dir(folder).ok()?.filter_map(|entry| Some(entry.ok()?.file_name()));
    let alike = there.find(|other| other.to_str().is_some_and(|other| composed(other) == composed(name)))?;
    Some(path.with_file_name(alike)).filter(|file| file.is_file())
}

/// This folder, and `formulas` in it.
fn folders() -> impl Iterator<Item = PathBuf> {
    let beside = PathBuf::from(FORMULAS);
    [PathBuf::from(".")].into_iter().chain(beside.is_dir().then_some(beside))
}

/// The folder of the house that is meant where no card is named: this one, or `formulas` in it where this one has nothing of
/// a house.
pub(crate) fn home() -> PathBuf {
    let has_files = |folder: &Path| {
        house::OF_HOUSE.iter().any(|name| folder.join(name).is_file()) || !house::card_paths(folder).is_empty()
    };
    folders().find(|folder| has_files(folder)).unwrap_or_else(|| PathBuf::from("."))
}

/// The names of all products here.
pub(crate) fn products() -> Vec<String> {
    House::find(&home()).0.cards().map(|card| card.name.clone()).collect()
}

/// What to do about a card that could not be opened: another name that is like it, or what can be named.
pub(crate) fn where_else(which: &str, house: &House) -> Option<String> {
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
    let holds = |name: &&str| nearest(which, words(name).iter().map(String::as_str)).is_some();
    let by_a_word: Vec<&str> = house.cards().map(|card| card.name.as_str()).filter(holds).take(3).collect();
    Some(match (nearest(which, names), by_a_word.is_empty()) {
        (Some(near), _) => format!("did you mean `{near}`?"),
        (None, false) => format!("did you mean `{}`?", by_a_word.join("` or `")),
        (None, true) => "name a card by its file, or by its product's name in the house of this folder".to_owned(),
    })
}
