//! The book against power, full disks and crowds: every event that was acknowledged is there, no code is given twice, and
//! what could not be written says so. Writers are processes of their own: this test binary, begun again.

use std::collections::HashSet;
use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::mpsc;

use chrono::{TimeDelta, Utc};

use stillroom::lots::event::UseBy;
use stillroom::lots::files::{self, Writer};
use stillroom::lots::{Event, Happened, Recorded, Taste, book::LotBook, code};

use crate::bar::{Bar, said};
use crate::kitchen::DAY;

/// What a writer is told: the folder, its id, its letter, how many events.
const TOLD: &str = "STILLROOM_TEST_WRITER";
/// What it says after each that was acknowledged.
const ACKNOWLEDGED: &str = "acknowledged ";
/// Every so manieth event is a batch, the others looks at it.
const BATCH_EVERY: usize = 5;

fn batch() -> Happened {
    Happened::Recorded(Arc::new(Recorded {
        product: "Syrup".into(),
        sheet: String::new(),
        recipe: String::new(),
        made: DAY,
        weighed: false,
        pressed: Vec::new(),
        mass_g: 1000.0,
        volume_ml: None,
        filled: None,
        kept_back: 0,
        maker: None,
        store: "fridge".into(),
        parts: Vec::new(),
        readings: Vec::new(),
        use_by: UseBy { day: Some(DAY + TimeDelta::days(30)), ..UseBy::default() },
        needs_cold: None,
        allergens: Vec::new(),
        allergens_not_stated: Vec::new(),
        abv_pct: None,
    }))
}

fn event(writer: &Writer, lot: &str, happened: Happened) -> Event {
    let at = Utc::now();
    Event { id: writer.event_id(at), at, zone_min: 0, lot: lot.to_owned(), happened }
}

/// One more event of a writer; `lot` is the last batch.
fn write(writer: &Writer, house: &Path, n: usize, lot: &mut String) -> std::io::Result<Event> {
    if n.is_multiple_of(BATCH_EVERY) {
        let new = |taken: &[String]| {
            let lot = code::next(DAY, writer.letter, taken.iter().map(String::as_str));
            event(writer, &lot, batch())
        };
        let event = writer.append_new(house, new)?;
        lot.clone_from(&event.lot);
        return Ok(event);
    }
    let note = Some(format!("look {n}, by somebody who has much to say of it"));
    writer.append(house, event(writer, lot, Happened::Tasted { taste: Taste::Fine, signs: Vec::new(), note }))
}

/// Not a test of its own: what a writer does that was begun by one of the tests here.
#[test]
fn as_another_process() {
    let Ok(told) = std::env::var(TOLD) else { return };
    let mut told = told.rsplitn(4, '|');
    let mut next = || told.next().unwrap().to_owned();
    let (count, letter, id, folder) = (next(), next(), next(), next());
    let writer = Writer { id, letter: letter.parse().unwrap() };
    let mut lot = String::new();
    for n in 0..count.parse().unwrap() {
        match write(&writer, Path::new(&folder), n, &mut lot) {
            Ok(event) => println!("\n{ACKNOWLEDGED}{} {}", event.id, event.lot),
            Err(error) => return println!("\nrefused: {error}"),
        }
    }
}

/// A folder in memory where there is one: to be put onto a disk four thousand times takes longer than anybody waits, and
/// what is asked here is whether a killed program, not a dead battery, loses anything.
fn folder(name: &str) -> PathBuf {
    let memory = Path::new("/dev/shm");
    let root = if memory.is_dir() { memory.to_owned() } else { std::env::temp_dir() };
    let folder = root.join(format!("stillroom {name} {}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn begun(folder: &Path, id: &str, letter: char, count: usize, shell: Option<&str>) -> Child {
    let this = std::env::current_exe().unwrap();
    let mut command = match shell {
        Some(shell) => {
            let mut command = Command::new("sh");
            command.args(["-c", &format!("{shell}; exec \"$0\" \"$@\"")]).arg(this);
            command
        }
        None => Command::new(this),
    };
    command.args(["--exact", "lots_durability::as_another_process", "--nocapture", "--test-threads", "1"]);
    command.env(TOLD, format!("{}|{id}|{letter}|{count}", folder.display()));
    command.stdout(Stdio::piped()).stderr(Stdio::null()).spawn().unwrap()
}

/// The ids and lots of what a line acknowledges.
fn acknowledged(line: &str) -> Option<(String, String)> {
    let (id, lot) = line.strip_prefix(ACKNOWLEDGED)?.rsplit_once(' ')?;
    Some((id.to_owned(), lot.to_owned()))
}

/// All lines that writers said, one after the other.
fn heard(children: &mut [Child], mut each: impl FnMut(usize, &mut [Child])) -> Vec<String> {
    let (sends, hears) = mpsc::channel();
    for child in children.iter_mut() {
        let (lines, sends) = (BufReader::new(child.stdout.take().unwrap()), sends.clone());
        // a line that a kill cut short is no acknowledgement
        std::thread::spawn(move || lines.lines().map_while(Result::ok).try_for_each(|line| sends.send(line)));
    }
    drop(sends);
    let (mut said, mut count) = (Vec::new(), 0);
    for line in hears {
        count += usize::from(acknowledged(&line).is_some());
        said.push(line);
        each(count, children);
    }
    for child in children {
        child.wait().unwrap();
    }
    said
}

/// Every acknowledged event is in the book, no code is there twice. Gives the book and the lines that are none.
fn all_there(folder: &Path, said: &[String]) -> (LotBook, usize) {
    let (events, unreadable) = files::read(folder).unwrap();
    let there: HashSet<String> = events.iter().map(|event| event.id.clone()).collect();
    assert_eq!(there.len(), events.len(), "no event is written twice");
    let acknowledged: Vec<(String, String)> = said.iter().filter_map(|line| acknowledged(line)).collect();
    for (id, lot) in &acknowledged {
        assert!(there.contains(id), "event {id} of lot {lot} was acknowledged and is lost");
    }
    let book = LotBook::of(events);
    assert!(book.faults.is_empty(), "{:?}", book.faults);
    let mut torn = unreadable.len();
    for line in unreadable {
        // a torn line stands alone: nothing was glued to it
        let text = std::fs::read_to_string(&line.file).unwrap();
        let text = text.lines().nth(line.line - 1).unwrap();
        assert_eq!(text.matches("\"id\"").count().min(1), text.matches("\"id\"").count(), "{text}");
        torn -= usize::from(text.is_empty());
    }
    (book, torn)
}

#[test]
fn four_writers_that_are_killed_lose_nothing_that_was_acknowledged() {
    for of_one_device in [true, false] {
        let folder = folder(if of_one_device { "killed one" } else { "killed four" });
        let letters = ['A', 'B', 'C', 'D'];
        let id = |letter: char| if of_one_device { "device".to_owned() } else { format!("device {letter}") };
        let mut children: Vec<Child> =
            letters.iter().map(|&l| begun(&folder, &id(l), if of_one_device { 'A' } else { l }, 1000, None)).collect();
        // one after the other, each in the middle of its work; the last goes on alone and is killed as well
        let said = heard(&mut children, |count, children| {
            if let Some(child) = (count >= 100).then(|| count / 100 - 1).and_then(|n| children.get_mut(n)) {
                child.kill().unwrap();
            }
        });
        let count = said.iter().filter(|line| acknowledged(line).is_some()).count();
        assert!((400..4000).contains(&count), "they were killed at work: {count}");
        let (before, torn) = all_there(&folder, &said);
        assert!(torn <= 4, "{torn}");
        // and the next one finds everything in order
        let writer = Writer { id: id('A'), letter: 'A' };
        let mut lot = String::new();
        let next = write(&writer, &folder, 0, &mut lot).unwrap();
        assert!(before.lot(&next.lot).is_none(), "{} is given a second time", next.lot);
        all_there(&folder, &[format!("{ACKNOWLEDGED}{} {}", next.id, next.lot)]);
        std::fs::remove_dir_all(folder).unwrap();
    }
}

#[test]
fn eight_writers_of_one_file_and_of_eight_lose_nothing() {
    for files in [1, 8] {
        let folder = folder(&format!("crowd {files}"));
        let letter = |n: u8| char::from(b'A' + n);
        let mut children: Vec<Child> = (0..8_u8)
            .map(|n| if files == 1 { 0 } else { n })
            .map(|n| begun(&folder, &format!("device {n}"), letter(n), 500, None))
            .collect();
        let said = heard(&mut children, |_, _| {});
        let count = said.iter().filter(|line| acknowledged(line).is_some()).count();
        assert_eq!(count, 8 * 500, "{:?}", said.iter().find(|line| line.starts_with("refused")));
        let (book, torn) = all_there(&folder, &said);
        assert_eq!((book.events.len(), book.lots().count(), torn), (8 * 500, 8 * 500 / BATCH_EVERY, 0));
        let there = std::fs::read_dir(folder.join(files::FOLDER)).unwrap().count();
        assert_eq!(there, files);
        std::fs::remove_dir_all(folder).unwrap();
    }
}

/// A file that may grow no further: what was half written is taken out again, and the writer hears why.
#[cfg(unix)]
#[test]
fn a_full_disk_is_said_and_leaves_no_half_line() {
    let folder = folder("full");
    // sixteen kibibytes, in blocks of 512 or 1024 bytes as the shell counts; the signal is set aside, so that the write fails
    let mut child = [begun(&folder, "device", 'A', 1000, Some("trap '' XFSZ; ulimit -f 16"))];
    let said = heard(&mut child, |_, _| {});
    assert!(said.iter().any(|line| line.starts_with("refused: ") && line.contains("arge")), "{said:?}");
    let (book, torn) = all_there(&folder, &said);
    assert!(torn == 0 && (10..1000).contains(&book.events.len()), "{torn} of {}", book.events.len());
    let text = std::fs::read_to_string(folder.join(files::FOLDER).join("device.jsonl")).unwrap();
    assert!(text.ends_with('\n'));
    // the signal kills it in the middle of a line: that line is torn, and the next is not glued to it
    let mut child = [begun(&folder, "device", 'A', 1000, Some("ulimit -f 20"))];
    let more = heard(&mut child, |_, _| {});
    let both: Vec<String> = said.into_iter().chain(more).collect();
    all_there(&folder, &both);
    let mut child = [begun(&folder, "device", 'A', 10, None)];
    let rest = heard(&mut child, |_, _| {});
    let all: Vec<String> = both.into_iter().chain(rest).collect();
    let (book, torn) = all_there(&folder, &all);
    let count = all.iter().filter(|line| acknowledged(line).is_some()).count();
    assert!(torn <= 1 && book.events.len() >= count, "{torn}, {count}");
    std::fs::remove_dir_all(folder).unwrap();
}

/// The writer of a bar's device, after its first batch.
fn writer(bar: &Bar) -> Writer {
    serde_json::from_str(&bar.text("device/stillroom/writer.json")).unwrap()
}

const SYRUP: &str = "name = \"House syrup\"\n[parts]\n\"white sugar\" = \"650 g\"\nwater = \"350 g\"\n";

fn bar() -> (Bar, String) {
    let bar = Bar::new("[stores]\nfridge = \"4 °C\"\n", "");
    bar.kitchen.write("syrup.toml", SYRUP);
    let lot = bar.lot(&["syrup.toml"]);
    (bar, lot)
}

#[cfg(target_os = "linux")]
#[test]
fn a_device_without_room_says_so() {
    let (bar, lot) = bar();
    let writer = writer(&bar);
    let file = writer.file(bar.kitchen.folder());
    let kept = file.with_file_name("kept.jsonl");
    std::fs::rename(&file, &kept).unwrap();
    std::os::unix::fs::symlink("/dev/full", &file).unwrap();
    for arguments in [vec!["use-up", &lot], vec!["record", "syrup.toml"], vec!["taste", &lot, "fine"]] {
        let out = bar.run(&arguments);
        assert_eq!(out.status.code(), Some(1), "{out:?}");
        let words = said(&out);
        assert!(words.contains("the event cannot be written") && words.contains("No space left"), "{words}");
    }
    let due = bar.json(&["due"]);
    assert_eq!(due["lots"].as_array().unwrap().len(), 1, "nothing is said to be there that is not: {due}");
}

#[test]
fn a_folder_that_may_only_be_read_says_so() {
    let (bar, lot) = bar();
    let folder = bar.kitchen.folder().join("lots");
    let file = writer(&bar).file(bar.kitchen.folder());
    let read_only = |path: &Path, only: bool| {
        let mut may = std::fs::metadata(path).unwrap().permissions();
        may.set_readonly(only);
        std::fs::set_permissions(path, may).unwrap();
    };
    for path in [&folder, &file] {
        read_only(path, true);
    }
    // who may do everything is not held by it: then nothing can be shown here
    if std::fs::OpenOptions::new().append(true).open(&file).is_ok() {
        eprintln!("skipped: whoever runs this may write into what is read only");
    } else {
        let out = bar.run(&["use-up", &lot]);
        assert_eq!(out.status.code(), Some(1), "{out:?}");
        assert!(said(&out).contains("the event cannot be written"), "{out:?}");
        assert_eq!(bar.json(&["due"])["lots"].as_array().unwrap().len(), 1);
    }
    for path in [&folder, &file] {
        read_only(path, false);
    }
}

/// A device that was begun by several programs at once has one name.
#[test]
fn programs_that_begin_at_once_are_one_device() {
    let folder = folder("device");
    let ids: HashSet<String> = std::thread::scope(|scope| {
        let begin = || Writer::of_device(&folder, None).unwrap().id;
        let begun: Vec<_> = (0..8).map(|_| scope.spawn(begin)).collect();
        begun.into_iter().map(|thread| thread.join().unwrap()).collect()
    });
    assert_eq!(ids.len(), 1);
    std::fs::remove_dir_all(folder).unwrap();
}
