//! The folder of the book: one file of JSON Lines a writer, and the frozen sheets by their content.
//!
//! An event is one line, put there by one write under a lock and flushed to the disk before it is said to be there. A line
//! that is torn or cannot be read is named with its place and passed over, never removed.

#[cfg(feature = "group")]
pub mod lines;

use std::fs::{self, File, OpenOptions};
use std::hash::{BuildHasher, Hasher, RandomState};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use super::event::{Event, Happened};

/// The folder beside the cards.
pub const FOLDER: &str = "lots";
const SHEETS: &str = "sheets";

/// Who writes: kept outside the book, so that a copied folder makes no two writers of one file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Writer {
    /// Drawn once.
    pub id: String,
    /// The letter that the house gave the device; it stands in every lot code.
    pub letter: char,
}

/// A line that is no event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// The file.
    pub file: PathBuf,
    /// The line, from 1.
    pub line: usize,
    /// Why.
    pub why: String,
}

/// Sixteen letters that nobody else draws.
fn drawn() -> String {
    format!("{:016x}", RandomState::new().build_hasher().finish())
}

impl Writer {
    /// The writer of this device; made, with this letter, where there is none. `letter` changes that of one that is there.
    pub fn of_device(folder: &Path, letter: Option<char>) -> io::Result<Self> {
        let path = folder.join("writer.json");
        let there = fs::read_to_string(&path).ok().and_then(|text| serde_json::from_str::<Self>(&text).ok());
        let writer = match (there, letter) {
            (Some(writer), None) => return Ok(writer),
            (Some(writer), Some(letter)) => Self { letter, ..writer },
            (None, letter) => Self { id: drawn(), letter: letter.unwrap_or('A') },
        };
        fs::create_dir_all(folder)?;
        fs::write(&path, serde_json::to_string(&writer)? + "\n")?;
        Ok(writer)
    }

    /// An id for an event that is written now.
    pub fn event_id(&self, at: DateTime<Utc>) -> String {
        format!("{}-{:x}-{}", self.id, at.timestamp_micros(), &drawn()[..8])
    }

    /// The file of this writer.
    pub fn file(&self, house: &Path) -> PathBuf {
        house.join(FOLDER).join(format!("{}.jsonl", self.id))
    }

    /// Puts an event at the end of the file of this writer. It is made under the lock, from the codes of the lots that are
    /// then there: two programs of one device give no code twice.
    ///
    /// # Errors
    /// Where the folder cannot be made, or the file not be opened, locked or written. What was half written is taken out
    /// again.
    pub fn append(&self, house: &Path, make: impl FnOnce(&[String]) -> Event) -> io::Result<Event> {
        fs::create_dir_all(house.join(FOLDER))?;
        let mut file = OpenOptions::new().read(true).append(true).create(true).open(self.file(house))?;
        file.lock()?;
        let written = read(house).and_then(|(events, _)| {
            let recorded = |event: Event| matches!(event.happened, Happened::Recorded(_)).then_some(event.lot);
            let codes: Vec<String> = events.into_iter().filter_map(recorded).collect();
            let event = make(&codes);
            put(&mut file, serde_json::to_string(&event)?)?;
            Ok(event)
        });
        file.unlock()?;
        written
    }
}

/// Puts a line at the end of a locked file and onto the disk, or leaves the file as it was.
fn put(file: &mut File, line: String) -> io::Result<()> {
    let before = file.seek(SeekFrom::End(0))?;
    let mut line = line + "\n";
    // A line that was torn by a dead battery is closed, so that this one is whole.
    if before > 0 {
        let mut last = [0];
        file.seek(SeekFrom::Start(before - 1))?;
        file.read_exact(&mut last)?;
        if last != *b"\n" {
            line.insert(0, '\n');
        }
    }
    let written = file.write_all(line.as_bytes()).and_then(|()| file.sync_data());
    if written.is_err() {
        // what is half there would be read as torn: set it back while nobody else may write
        file.set_len(before).ok();
    }
    written
}

/// Every event of the folder of a house, and the lines that are none. No folder is an empty book.
pub fn read(house: &Path) -> io::Result<(Vec<Event>, Vec<Unreadable>)> {
    let folder = house.join(FOLDER);
    let mut files: Vec<PathBuf> = match fs::read_dir(&folder) {
        Ok(entries) => entries.filter_map(|entry| Some(entry.ok()?.path())).collect(),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Vec::new(),
        Err(error) => return Err(error),
    };
    files.retain(|path| path.extension().is_some_and(|end| end == "jsonl"));
    files.sort();
    let (mut events, mut unreadable) = (Vec::new(), Vec::new());
    for path in files {
        let mut bytes = Vec::new();
        File::open(&path)?.read_to_end(&mut bytes)?;
        for (line, text) in bytes.split(|byte| *byte == b'\n').enumerate().filter(|(_, text)| !text.is_empty()) {
            match serde_json::from_slice(text) {
                Ok(event) => events.push(event),
                Err(why) => {
                    unreadable.push(Unreadable { file: path.clone(), line: line + 1, why: why.to_string() });
                }
            }
        }
    }
    Ok((events, unreadable))
}

/// Keeps a frozen sheet under its hash; one that is there is left as it is.
pub fn keep_sheet(house: &Path, hash: &str, text: &str) -> io::Result<()> {
    let folder = house.join(FOLDER).join(SHEETS);
    let path = folder.join(format!("{hash}.json"));
    if path.exists() {
        return Ok(());
    }
    fs::create_dir_all(&folder)?;
    let half = folder.join(format!(".{hash}-{}", drawn()));
    fs::write(&half, text)?;
    fs::rename(&half, &path)
}

/// A frozen sheet by its hash.
pub fn sheet(house: &Path, hash: &str) -> io::Result<String> {
    fs::read_to_string(house.join(FOLDER).join(SHEETS).join(format!("{hash}.json")))
}
