//! The lines of the book as they stand, to be carried to other sites, and those of other sites put down.
//!
//! What a device pulled stands in files of its own, one for each of their writers, `WRITER.by-DEVICE.jsonl`: no two devices
//! ever write one file, also where a file sync carries the folder. By the name it is known what came from others.

use std::collections::HashSet;
use std::fs::{self, OpenOptions};
use std::io;
use std::path::Path;

use super::{FOLDER, Unreadable, put};
use crate::lots::event::Event;

/// Between the writer of the events and the device that pulled them.
const BY: &str = ".by-";

/// An event with its line.
#[derive(Clone, Debug)]
pub struct BookLine {
    /// Which device wrote it, by the name of its file.
    pub writer: String,
    /// Whether it was pulled from other sites.
    pub pulled: bool,
    /// The line, byte for byte.
    pub text: String,
    /// What it says.
    pub event: Event,
}

/// Whether a text may stand for a writer in the name of a file.
pub fn is_writer(name: &str) -> bool {
    (1..=64).contains(&name.len()) && name.chars().all(of_writer)
}

fn of_writer(c: char) -> bool {
    c.is_ascii_alphanumeric() || c == '-' || c == '_'
}

/// Every event of the folder of a house with its line, each once, and the lines that are none.
///
/// # Errors
/// Where the folder or a file cannot be read.
pub fn read(house: &Path) -> io::Result<(Vec<BookLine>, Vec<Unreadable>)> {
    let entries = match fs::read_dir(house.join(FOLDER)) {
        Ok(entries) => entries.collect::<io::Result<Vec<_>>>()?,
        Err(error) if error.kind() == io::ErrorKind::NotFound => Vec::new(),
        Err(error) => return Err(error),
    };
    let name = |path: &Path| path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let mut files: Vec<_> = entries.into_iter().map(|entry| entry.path()).collect();
    files.retain(|path| path.extension().is_some_and(|end| end == "jsonl") && path.is_file());
    // what is there as an own one as well was not only pulled
    files.sort_by_key(|path| (name(path).contains(BY), path.clone()));
    let (mut lines, mut unreadable) = (Vec::new(), Vec::new());
    let mut seen = HashSet::new();
    for file in files {
        let name = name(&file);
        let writer: String = name.chars().take_while(|c| of_writer(*c)).take(64).collect();
        let writer = if writer.is_empty() { "unnamed".to_owned() } else { writer };
        let bytes = fs::read(&file)?;
        for (number, text) in bytes.split(|byte| *byte == b'\n').enumerate().filter(|(_, text)| !text.is_empty()) {
            match read_line(text) {
                Ok((text, event)) if seen.insert(event.id.clone()) => {
                    let (writer, pulled, text) = (writer.clone(), name.contains(BY), text.to_owned());
                    lines.push(BookLine { writer, pulled, text, event });
                }
                Ok(_) => {}
                Err(why) => unreadable.push(Unreadable { file: file.clone(), line: number + 1, why }),
            }
        }
    }
    Ok((lines, unreadable))
}

fn read_line(bytes: &[u8]) -> Result<(&str, Event), String> {
    let text = std::str::from_utf8(bytes).map_err(|why| why.to_string())?;
    let event = Event::of_line(bytes).map_err(|why| why.to_string())?;
    Ok((text, event))
}

/// Puts lines of one writer that this device pulled into the book, all or none.
///
/// # Errors
/// Where the file cannot be opened, locked or written. What was half written is taken out again.
pub fn put_pulled(house: &Path, device: &str, writer: &str, lines: &[String]) -> io::Result<()> {
    let folder = house.join(FOLDER);
    fs::create_dir_all(&folder)?;
    let path = folder.join(format!("{writer}{BY}{device}.jsonl"));
    let mut file = OpenOptions::new().read(true).append(true).create(true).open(path)?;
    file.lock()?;
    let written = put(&mut file, lines.join("\n"));
    file.unlock()?;
    written?;
    Ok(())
}
