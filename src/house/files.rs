//! All reading and writing of files is here, and nothing else knows of any.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::diagnostic::{Code, Diagnostic, Severity};

use super::texts::{HOUSE, House, LARDER, SourceFile, is_card, stem};

/// The largest file that is read, in bytes. A card has a thousand or two; a larder of a thousand ingredients
/// has some hundred thousand.
const MOST_BYTES: u64 = 4 * 1024 * 1024;

impl House {
    /// The house that a card (or a folder) belongs to: the nearest `house.toml` and the nearest
    /// `larder.toml` beside it or in a folder above, and the cards that lie in the same folder.
    pub fn find(start: &Path) -> (Self, Vec<Diagnostic>) {
        let (mut house, mut found) = (Self::default(), Vec::new());
        let folder = folder_of(start);
        let (settings, larder) = (nearest(&folder, HOUSE), nearest(&folder, LARDER));
        let larder = larder.filter(|larder| is_of_house(larder, settings.as_deref(), &folder, &mut found));
        match settings.map(|path| read(&path)) {
            Some(Ok(source)) => house.settle(source, &mut found),
            Some(Err(unread)) => found.push(*unread),
            None => house.say_assumed(&mut found),
        }
        match larder.map(|path| read(&path)) {
            Some(Ok(source)) => house.stock(source, &mut found),
            Some(Err(unread)) => found.push(*unread),
            None => {}
        }
        let mut cards = Vec::new();
        for path in cards_in(&folder) {
            match read(&path) {
                Ok(source) => cards.push(source),
                // Another card of the folder is no reason to stop this one.
                Err(mut diagnostic) => {
                    diagnostic.severity = Severity::Warning;
                    house.say_of(&stem(&path), *diagnostic);
                }
            }
        }
        house.keep(cards);
        (house, found)
    }
}

/// The folder that a card lies in, or the folder itself; with its full path, so that there is an "above".
fn folder_of(start: &Path) -> PathBuf {
    // A bare file name lies in the folder of no name, which is this one.
    let start = if start.as_os_str().is_empty() { Path::new(".") } else { start };
    let full = std::path::absolute(start).unwrap_or_else(|_| start.to_owned());
    if full.is_dir() { full } else { full.parent().map_or(full.clone(), Path::to_owned) }
}

fn nearest(folder: &Path, name: &str) -> Option<PathBuf> {
    folder.ancestors().map(|f| f.join(name)).find(|p| p.symlink_metadata().is_ok())
}

/// Whether a larder may be taken for that of the house. One above the house is not; one above a folder that is no house
/// is, and that is asked about: nobody sees it there, and it changes what a card is made of.
fn is_of_house(larder: &Path, settings: Option<&Path>, folder: &Path, found: &mut Vec<Diagnostic>) -> bool {
    let place = larder.parent().unwrap_or(larder);
    let is_above = |house: &Path| place != house && house.starts_with(place);
    match settings.and_then(Path::parent) {
        Some(house) if is_above(house) => {
            let title = format!("{} lies above this house, and was not used", larder.display());
            let help = format!("if it is meant, copy it beside {HOUSE}");
            found.push(Diagnostic::warning(Code::OutsideHouse, title).help(help));
            false
        }
        None if is_above(folder) => {
            let title = format!("{} was used, from a folder above: is it meant?", larder.display());
            let help = format!("if it is, put a {HOUSE} beside it; if not, one beside this card");
            found.push(Diagnostic::warning(Code::OutsideHouse, title).help(help));
            true
        }
        _ => true,
    }
}

/// Writes a file that is not there yet; its folder is made if needed.
///
/// # Errors
/// Where it is there already, or cannot be written.
pub(crate) fn write_new(path: &Path, text: &str) -> io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    File::create_new(path)?.write_all(text.as_bytes())
}

/// The full path of a file that is there or may come to be there, with no link in it: two names of one file have the
/// same.
pub fn place(path: &Path) -> PathBuf {
    let full = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let in_folder = || Some(full.parent()?.canonicalize().ok()?.join(full.file_name()?));
    full.canonicalize().ok().or_else(in_folder).unwrap_or(full)
}

/// What a file begins with, up to so many bytes; `None` where nothing is there. A link that leads nowhere is something.
pub(crate) fn first_bytes(path: &Path, most: usize) -> Option<io::Result<Vec<u8>>> {
    fs::symlink_metadata(path).ok()?;
    if !fs::metadata(path).is_ok_and(|there| there.is_file()) {
        return Some(Err(io::ErrorKind::InvalidInput.into()));
    }
    let mut first = Vec::new();
    let read = File::open(path).and_then(|file| file.take(most as u64).read_to_end(&mut first));
    Some(read.map(|_| first))
}

/// Writes a file whole or not at all: beside its place first, then into it. What was there until then is replaced.
///
/// # Errors
/// Where it cannot be written; what was there is then there still.
pub fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let place = place(path);
    if fs::metadata(&place).is_ok_and(|there| there.permissions().readonly()) {
        return Err(io::ErrorKind::PermissionDenied.into());
    }
    let (mut file, beside) = part_beside(&place)?;
    let written = file.write_all(bytes).and_then(|()| file.sync_all());
    written.and_then(|()| fs::rename(&beside, &place)).inspect_err(|_| {
        let _ = fs::remove_file(&beside);
    })
}

/// A new file beside a place, for what is to go there.
fn part_beside(place: &Path) -> io::Result<(File, PathBuf)> {
    /// So many that are left behind, or written at the same time, are passed over.
    const MOST_PARTS: usize = 100;
    let mut parts = (0..MOST_PARTS).map(|n| {
        let mut beside = place.to_owned().into_os_string();
        beside.push(format!(".{n}.part"));
        File::create_new(&beside).map(|file| (file, PathBuf::from(beside)))
    });
    let is_taken = |made: &io::Result<_>| {
        made.as_ref().is_err_and(|error: &io::Error| error.kind() == io::ErrorKind::AlreadyExists)
    };
    parts.find(|made| !is_taken(made)).unwrap_or_else(|| Err(io::ErrorKind::AlreadyExists.into()))
}

/// The text of one file, wherever it lies.
///
/// # Errors
/// Where it cannot be read, is too large, or is not text.
pub fn read(path: &Path) -> Result<SourceFile, Box<Diagnostic>> {
    let file = shown(path);
    // Looked at before it is opened: a pipe would wait for ever.
    let there = fs::metadata(path).map_err(|error| unread(&file, &error))?;
    if !there.is_file() {
        return Err(Box::new(cannot_read(
            &file,
            format!("{file} is {}", if there.is_dir() { "a folder" } else { "not a file" }),
        )));
    }
    read_from(File::open(path).map_err(|error| unread(&file, &error))?, file)
}

/// The text that comes from somewhere, under the name by which findings speak of it.
///
/// # Errors
/// Where it cannot be read, is too large, or is not text.
pub(crate) fn read_from(from: impl Read, file: Arc<str>) -> Result<SourceFile, Box<Diagnostic>> {
    let mut bytes = Vec::new();
    from.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|error| unread(&file, &error))?;
    if bytes.len() as u64 > MOST_BYTES {
        let title = format!("{file} is larger than {} MiB", MOST_BYTES >> 20);
        return Err(Box::new(Diagnostic::error(Code::TooLarge, title).in_file(&file)));
    }
    match String::from_utf8(bytes) {
        Ok(text) => Ok(SourceFile { text: text.into(), file }),
        Err(error) => {
            let at = error.utf8_error().valid_up_to();
            let why = format!(
                "{file} is not plain text (byte {at}): a picture or another kind of file? Save a card as plain text, UTF-8"
            );
            Err(Box::new(cannot_read(&file, why)))
        }
    }
}

fn cannot_read(file: &Arc<str>, title: String) -> Diagnostic {
    Diagnostic::error(Code::CannotRead, title).in_file(file)
}

fn unread(file: &Arc<str>, error: &io::Error) -> Box<Diagnostic> {
    let title = match error.kind() {
        io::ErrorKind::NotFound => format!("there is no file `{file}` here"),
        _ => format!("{file} cannot be read: {}", reason(error)),
    };
    Box::new(cannot_read(file, title))
}

/// Why a file could not be read or written, in words for people.
pub(crate) fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such folder".to_owned(),
        io::ErrorKind::PermissionDenied => "this computer does not let you".to_owned(),
        io::ErrorKind::AlreadyExists => "it is there already".to_owned(),
        io::ErrorKind::NotADirectory => "a part of its path is a file, not a folder".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        io::ErrorKind::StorageFull => "the disk is full".to_owned(),
        // what the system says, without its number
        _ => {
            let said = error.to_string();
            said.split(" (os error").next().unwrap_or_default().to_lowercase()
        }
    }
}

/// The files of a folder that are cards by their name, in order; none of them is opened.
pub fn card_paths(folder: &Path) -> Vec<PathBuf> {
    cards_in(&folder_of(folder))
}

fn cards_in(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<_> = entries.filter_map(Result::ok).map(|entry| entry.path()).filter(|p| is_card(p)).collect();
    paths.sort();
    paths
}

/// The path as it is shown: from here where it lies below here.
fn shown(path: &Path) -> Arc<str> {
    let here = std::env::current_dir().ok();
    let below = here.and_then(|here| path.strip_prefix(here).ok());
    below.unwrap_or(path).display().to_string().into()
}
