//! The folder of the book: one file of JSON Lines a writer, and the frozen sheets by their content.
//!
//! An event is one line, put there by one write under a lock and flushed to the disk before it is said to be there. A line
//! that is torn or cannot be read is named with its place and passed over, never removed.

#[cfg(feature = "group")]
pub mod lines;

use std::fs::{self, File, OpenOptions};
use std::hash::{BuildHasher, Hasher, RandomState};
use std::io::{self, BufRead as _, BufReader, Read as _, Seek as _, SeekFrom, Write as _};
use std::num::NonZero;
use std::ops::Range;
use std::panic::resume_unwind;
use std::path::{Path, PathBuf};
use std::thread;

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};

use super::event::{Event, RECORDED};

pub use super::FOLDER;

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
        fs::create_dir_all(folder)?;
        // two programs that begin at once are one device
        let lock = OpenOptions::new().write(true).create(true).truncate(false).open(folder.join("writer.lock"))?;
        lock.lock()?;
        let path = folder.join("writer.json");
        let there = fs::read_to_string(&path).ok().and_then(|text| serde_json::from_str::<Self>(&text).ok());
        let writer = match (there, letter) {
            (Some(writer), None) => return Ok(writer),
            (Some(writer), Some(letter)) => Self { letter, ..writer },
            (None, letter) => Self { id: drawn(), letter: letter.unwrap_or('A') },
        };
        whole(&path, &(serde_json::to_string(&writer)? + "\n"))?;
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

    /// Puts an event at the end of the file of this writer.
    ///
    /// # Errors
    /// Where the folder cannot be made, or the file not be opened, locked or written. What was half written is taken out
    /// again.
    pub fn append(&self, house: &Path, event: Event) -> io::Result<Event> {
        self.locked(house, || Ok(event))
    }

    /// The same for a batch that gets its code: it is made under the lock, from the codes that are then there, so that two
    /// programs of one device give no code twice.
    ///
    /// # Errors
    /// As [`append`](Self::append), and where the book cannot be read.
    pub fn append_new(&self, house: &Path, make: impl FnOnce(&[String]) -> Event) -> io::Result<Event> {
        self.locked(house, || Ok(make(&codes(house)?)))
    }

    fn locked(&self, house: &Path, make: impl FnOnce() -> io::Result<Event>) -> io::Result<Event> {
        let folder = house.join(FOLDER);
        fs::create_dir_all(&folder)?;
        let mut file = OpenOptions::new().read(true).append(true).create(true).open(self.file(house))?;
        file.lock()?;
        let written = make().and_then(|event| {
            if put(&mut file, serde_json::to_string(&event)?)? == 0 {
                sync_folder(&folder)?;
            }
            Ok(event)
        });
        file.unlock()?;
        written
    }
}

/// A file that is new is there after a power cut only if its folder was put onto the disk as well. Windows opens no folder, and
/// keeps its own journal of them.
fn sync_folder(folder: &Path) -> io::Result<()> {
    if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
}

/// Puts a line at the end of a locked file and onto the disk, or leaves the file as it was. Gives how long it was before.
fn put(file: &mut File, line: String) -> io::Result<u64> {
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
    written.map(|()| before)
}

/// The codes of all lots that were recorded, whatever else cannot be read.
fn codes(house: &Path) -> io::Result<Vec<String>> {
    /// What of a line says that it is a recording; the rest is passed over.
    #[derive(Deserialize)]
    struct Head {
        what: String,
        lot: String,
    }
    let mut codes = Vec::new();
    for path in paths(house, &mut Vec::new())? {
        each_line(&path, WHOLE, |_, text| {
            let head = serde_json::from_slice::<Head>(text).ok();
            codes.extend(head.filter(|head| head.what == RECORDED).map(|head| head.lot));
        })?;
    }
    Ok(codes)
}

/// The files of the book, those that are none named.
fn paths(house: &Path, unreadable: &mut Vec<Unreadable>) -> io::Result<Vec<PathBuf>> {
    let mut paths: Vec<PathBuf> = match fs::read_dir(house.join(FOLDER)) {
        Ok(entries) => entries.filter_map(|entry| Some(entry.ok()?.path())).collect(),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Vec::new(),
        Err(error) => return Err(error),
    };
    paths.retain(|path| path.extension().is_some_and(|end| end == "jsonl"));
    paths.sort();
    let (files, others) = paths.into_iter().partition(|path| path.is_file());
    let others: Vec<PathBuf> = others;
    unreadable.extend(others.into_iter().map(|file| Unreadable { file, line: 1, why: "it is no file".to_owned() }));
    Ok(files)
}

/// The lines that begin within these bytes of a file and say something, one after the other, with their numbers from 1; and
/// how many lines began there. A book of years is never in memory as a text.
fn each_line(file: &Path, bytes: Range<u64>, mut said: impl FnMut(usize, &[u8])) -> io::Result<usize> {
    let mut file = BufReader::new(File::open(file)?);
    let mut line = Vec::new();
    let mut at = bytes.start;
    if at > 0 {
        // what reaches in from before began there
        file.seek(SeekFrom::Start(at - 1))?;
        at = at - 1 + file.read_until(b'\n', &mut line)? as u64;
    }
    for number in 1.. {
        line.clear();
        let read = if at < bytes.end { file.read_until(b'\n', &mut line)? } else { 0 };
        if read == 0 {
            return Ok(number - 1);
        }
        at += read as u64;
        let text = line.strip_suffix(b"\n").unwrap_or(&line);
        if !text.is_empty() {
            said(number, text);
        }
    }
    Ok(0)
}

const WHOLE: Range<u64> = 0..u64::MAX;

/// A shorter file is not shared out among the cores, bytes (ours).
const SHARED_FROM: u64 = 1 << 20;

/// Every event of the folder of a house, and the lines that are none. No folder is an empty book.
pub fn read(house: &Path) -> io::Result<(Vec<Event>, Vec<Unreadable>)> {
    let (mut events, mut unreadable) = (Vec::new(), Vec::new());
    for file in paths(house, &mut unreadable)? {
        let mut before = 0;
        for share in shares(&file)? {
            let share = share?;
            let wrong = share.wrong.into_iter();
            unreadable.extend(wrong.map(|(line, why)| Unreadable { file: file.clone(), line: before + line, why }));
            events.extend(share.events);
            before += share.lines;
        }
    }
    Ok((events, unreadable))
}

/// What a share of a file says.
struct FileShare {
    events: Vec<Event>,
    wrong: Vec<(usize, String)>,
    lines: usize,
}

impl FileShare {
    fn read(file: &Path, bytes: Range<u64>) -> io::Result<Self> {
        let (mut events, mut wrong) = (Vec::new(), Vec::new());
        let lines = each_line(file, bytes, |line, text| match Event::of_line(text) {
            Ok(event) => events.push(event),
            Err(why) => wrong.push((line, why.to_string())),
        })?;
        Ok(Self { events, wrong, lines })
    }
}

/// A file, read on all cores where it is long.
fn shares(file: &Path) -> io::Result<Vec<io::Result<FileShare>>> {
    let long = fs::metadata(file)?.len();
    let cores = thread::available_parallelism().map_or(1, NonZero::get) as u64;
    if long < SHARED_FROM || cores == 1 {
        return Ok(vec![FileShare::read(file, WHOLE)]);
    }
    let bound = |core: u64| if core == cores { u64::MAX } else { long / cores * core };
    Ok(thread::scope(|scope| {
        let share = |core| scope.spawn(move || FileShare::read(file, bound(core)..bound(core + 1)));
        let running: Vec<_> = (0..cores).map(share).collect();
        running.into_iter().map(|one| one.join().unwrap_or_else(|panicked| resume_unwind(panicked))).collect()
    }))
}

/// Keeps a frozen sheet under its hash; one that is there is left as it is.
pub fn keep_sheet(house: &Path, hash: &str, text: &str) -> io::Result<()> {
    let folder = house.join(FOLDER).join(SHEETS);
    let path = folder.join(format!("{hash}.json"));
    if path.exists() {
        return Ok(());
    }
    fs::create_dir_all(&folder)?;
    whole(&path, text)
}

/// Puts a file there whole or not at all, and onto the disk: an event that names it is written after it.
fn whole(path: &Path, text: &str) -> io::Result<()> {
    let half = path.with_extension(drawn());
    let written = File::create(&half).and_then(|mut file| {
        file.write_all(text.as_bytes())?;
        file.sync_data()
    });
    let written = written.and_then(|()| fs::rename(&half, path));
    if written.is_err() {
        fs::remove_file(&half).ok();
    }
    written
}

/// A frozen sheet by its hash.
pub fn sheet(house: &Path, hash: &str) -> io::Result<String> {
    fs::read_to_string(house.join(FOLDER).join(SHEETS).join(format!("{hash}.json")))
}
