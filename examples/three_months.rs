//! Writes the lot book of the demo house, `formulas/lots/demo.jsonl`: three months of an invented bar, so that `due`,
//! `recall` and `learn` have something to show. All of it is invented; the same seed gives the same book.
//!
//! `cargo run --release --example three_months`, or with a folder of your own at the end.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

use chrono::{Days, NaiveDate, NaiveTime};
use stillroom::card::{self, Card};
use stillroom::house::{self, House};
use stillroom::lots::cause::{DiscardCause, Reason, Sign};
use stillroom::lots::due::{Soon, due};
use stillroom::lots::event::{OnLabel, Pressed};
use stillroom::lots::record::{LotChange, RecordRequest, date_after, record};
use stillroom::lots::sheet::FrozenSheet;
use stillroom::lots::{Event, Happened, LotBook, LotState, PartFrom, Taste, code, files};

/// What is made: the card, how many days lie between two batches, and after how many a batch is usually finished.
const MADE: [(&str, u64, u64); 5] = [
    ("rich-muscovado-syrup", 7, 6),
    ("lime-cordial", 5, 6),
    ("fresh-lime-juice", 2, 2),
    ("aromatic-bitters", 30, 40),
    ("coffee-liqueur", 21, 24),
];
const FIRST: NaiveDate = NaiveDate::from_ymd_opt(2026, 8, 31).unwrap();
const LAST: NaiveDate = NaiveDate::from_ymd_opt(2026, 11, 28).unwrap();
const SEED: u64 = 20_260_831;

/// Numbers of a linear congruence (Knuth, MMIX; from memory): enough for a demo, and the same on every machine.
struct Draw(u64);

impl Draw {
    fn below(&mut self, n: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }
}

struct Writing {
    house: House,
    book: LotBook,
    events: Vec<Event>,
    sheets: BTreeMap<String, FrozenSheet>,
    /// What will happen to a lot, and on which day; `None`: it is opened.
    later: Vec<(NaiveDate, String, Option<Happened>)>,
    draw: Draw,
}

impl Writing {
    fn put(&mut self, day: NaiveDate, lot: &str, happened: Happened) {
        // the hours of a bar: what is made early, what is looked at late
        let minute = 9 * 60 + u32::try_from(self.events.len() % 480).unwrap_or(0);
        let at =
            day.and_time(NaiveTime::from_num_seconds_from_midnight_opt(minute * 60, 0).unwrap_or_default()).and_utc();
        let id = format!("demo-{:05}", self.events.len() + 1);
        self.events.push(Event { id, at, zone_min: 0, lot: lot.to_owned(), happened });
        self.book = LotBook::of(self.events.clone());
    }

    /// What was to happen up to a day happens.
    fn until(&mut self, day: NaiveDate) -> Option<()> {
        let (now, later) = std::mem::take(&mut self.later).into_iter().partition(|(on, ..)| *on <= day);
        self.later = later;
        let mut now: Vec<(NaiveDate, String, Option<Happened>)> = now;
        now.sort_by(|a, b| (a.0, &a.1).cmp(&(b.0, &b.1)));
        for (on, lot, happened) in now {
            let happened = match happened {
                Some(happened) => happened,
                None => {
                    let state = self.book.lot(&lot)?;
                    let sheet = self.sheets.get(&state.recorded.sheet)?;
                    Happened::Opened { use_by: date_after(state, sheet, &self.book, &LotChange::Opened(on))? }
                }
            };
            self.put(on, &lot, happened);
        }
        Some(())
    }

    /// Of what is made in the house that lot goes in which ends first.
    fn told(&self, card: &Card, day: NaiveDate) -> Vec<(String, PartFrom)> {
        let good = |lot: &LotState| lot.left_g().is_none_or(|left| left.round() > 0.0);
        let there: Vec<&LotState> = due(&self.book, day)
            .into_iter()
            .filter(|(soon, lot)| *soon > Soon::NoDate && *soon != Soon::Frozen && good(lot))
            .map(|(_, lot)| lot)
            .collect();
        let of = |name: &String| {
            let lot = there.iter().find(|lot| lot.recorded.product.eq_ignore_ascii_case(name))?;
            Some((name.clone(), PartFrom::Lot(lot.lot.clone())))
        };
        card.stages
            .iter()
            .chain([&card.last])
            .flat_map(|stage| &stage.parts)
            .filter_map(|part| of(&part.label.value))
            .collect()
    }

    fn batch(&mut self, folder: &Path, name: &str, day: NaiveDate, finished_after: u64) -> Option<()> {
        let source = house::read(&folder.join(format!("{name}.toml"))).ok()?;
        let card = card::read_by(source.file, source.text, &self.house.customs()).0?;
        let maker = ["Ana", "Bo", "Cleo"][self.draw.below(3) as usize];
        let parts = self.told(&card, day);
        let request =
            RecordRequest { made: day, maker: Some(maker.to_owned()), parts, fresh: true, ..RecordRequest::default() };
        let (recorded, _) = record(&card, &self.house, &self.book, &request);
        let (mut recorded, sheet) = recorded?;
        // a cordial is weighed when it is done: its zest held a little more than the sheet thinks; limes are counted
        if name == "lime-cordial" {
            recorded.mass_g -= 8.0 + self.draw.below(5) as f64;
            recorded.weighed = true;
        }
        if name == "fresh-lime-juice" {
            let pieces = (recorded.mass_g / (26.0 + self.draw.below(5) as f64)).round();
            recorded.pressed = vec![Pressed { of: "lime juice".to_owned(), pieces }];
        }
        let (use_by, allergens) = (recorded.use_by.clone(), recorded.allergens.clone());
        let taken: Vec<String> = self.book.lots().map(|lot| lot.lot.clone()).collect();
        let lot = code::next(day, 'D', taken.iter().map(String::as_str));
        self.sheets.insert(recorded.sheet.clone(), sheet.clone());
        self.put(day, &lot, Happened::Recorded(Arc::new(recorded)));
        let left = use_by.days_left_when_thawed;
        let said = OnLabel { day: use_by.day, days_left_when_thawed: left, allergens, hash: String::new() };
        self.put(day, &lot, Happened::Labelled(said));

        let after = |days: u64| day.checked_add_days(Days::new(days)).filter(|day| *day <= LAST);
        let mut plan = |on: Option<NaiveDate>, happened: Option<Happened>| {
            self.later.extend(on.map(|on| (on, lot.clone(), happened)));
        };
        plan(after(1), None);
        let life = finished_after + self.draw.below(3);
        // one lot in four is looked at on the way; one in twelve is found going
        if self.draw.below(4) == 0 {
            let fine = Happened::Tasted { taste: Taste::Fine, signs: Vec::new(), note: None };
            plan(after((life / 2).max(1)), Some(fine));
        }
        let end = after(life);
        match self.draw.below(12) {
            0 => {
                let sign = if name == "lime-cordial" { Sign::Gas } else { Sign::Stale };
                let signs = vec![sign];
                plan(end, Some(Happened::Tasted { taste: Taste::Going, signs, note: None }));
                plan(end, Some(discarded("tasted, not good any more", DiscardCause::Sign(sign))));
            }
            1 => plan(end, Some(discarded("past its date", DiscardCause::Reason(Reason::PastItsDate)))),
            _ => plan(end, Some(Happened::UsedUp)),
        }
        Some(())
    }
}

fn discarded(why: &str, cause: DiscardCause) -> Happened {
    Happened::Discarded { why: why.to_owned(), cause: Some(cause) }
}

/// The lines of the book, and the sheets that it stands on by their hashes.
pub fn book(folder: &Path) -> Option<(String, BTreeMap<String, FrozenSheet>)> {
    let (house, _) = House::find(folder);
    let mut writing = Writing {
        house,
        book: LotBook::default(),
        events: Vec::new(),
        sheets: BTreeMap::new(),
        later: Vec::new(),
        draw: Draw(SEED),
    };
    for day in FIRST.iter_days().take_while(|day| *day <= LAST) {
        writing.until(day)?;
        let since = (day - FIRST).num_days().unsigned_abs();
        for (name, _, finished_after) in MADE.iter().filter(|(_, every, _)| since.is_multiple_of(*every)) {
            writing.batch(folder, name, day, *finished_after)?;
        }
    }
    let lines = writing.events.iter().filter_map(|event| serde_json::to_string(event).ok());
    Some((lines.map(|line| line + "\n").collect(), writing.sheets))
}

/// Whether every part that a date hangs on has its day: a demo that asks would show nothing else.
pub fn is_told(book: &LotBook) -> bool {
    book.lots().flat_map(|lot| &lot.recorded.parts).all(|part| !part.dated || part.from != PartFrom::NotTold)
}

fn main() -> ExitCode {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let to = std::env::args_os().nth(1).map_or_else(|| folder.clone(), PathBuf::from);
    let written = book(&folder).and_then(|(lines, sheets)| {
        fs::create_dir_all(to.join(files::FOLDER)).ok()?;
        fs::write(to.join(files::FOLDER).join("demo.jsonl"), lines).ok()?;
        sheets.iter().try_for_each(|(hash, sheet)| files::keep_sheet(&to, hash, &sheet.text()).ok())
    });
    match written {
        Some(()) => ExitCode::SUCCESS,
        None => {
            eprintln!("the book could not be written");
            ExitCode::FAILURE
        }
    }
}
