//! Mutated inputs: whatever is read, nothing panics, hangs or computes with what is no number, and a program is told what a
//! person is told.
//!
//! Seeded, over the inputs that are shipped and those of the tests. `STILLROOM_FUZZ_SECONDS` says how long (2 of each without),
//! `STILLROOM_FUZZ_SEED` where to begin. A case that fails stays in the folder that is named; what was mended is kept in
//! `tests/fuzz/`, as TARGET.NAME, and read first.

mod mutate;
mod process;

use std::collections::BTreeMap;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use crate::kitchen::DAY;
use mutate::{Dice, Pieces};
use stillroom::assessment::{self, Which};
use stillroom::card;
use stillroom::cost::{CostAsked, cost_of};
use stillroom::house::{House, settings};
use stillroom::larder::house_file;
use stillroom::lots::book::LotBook;
use stillroom::lots::event::Event;
use stillroom::menu;
use stillroom::paste::paste;
use stillroom::plan::{board, on_hand};
use stillroom::render::text::{self, Page};
use stillroom::report::Report;
use stillroom::report::date::DateView;
use stillroom::report::solve::SolveView;
use stillroom::shelf_life::Draws;
use stillroom::solver::{Options, solve};
use stillroom::units::{Customs, celsius, literal};
use stillroom::{aim, publish};

const ROOT: &str = env!("CARGO_MANIFEST_DIR");
/// The longest that a case may take on a machine that does much beside it.
const BOUND: Duration = Duration::from_secs(60);

/// What is read, with a function that reads it and all that follows from it.
const TARGETS: [(&str, fn(&Shipped, &str)); 9] = [
    ("amount", |_, text| drop(literal::read(text))),
    ("card", |shipped, text| worked_out(&shipped.house, text, "")),
    ("page", |_, text| {
        let ask = |ask: &str| {
            serde_json::json!({ "ask": ask, "card": text, "today": "2026-11-25", "made": "2026-11-25",
            "with_costs": true, "have": "1 L", "brix": "50" })
        };
        for of in ["sheet", "adjust"] {
            publish::answer(&ask(of).to_string());
        }
    }),
    ("house", |shipped, text| {
        settings::read(text, &"house.toml".into(), &mut Vec::new());
        let (house, _) = House::from_texts([("house.toml", text)]);
        worked_out(&house, &shipped.simple, text);
    }),
    ("larder", |shipped, text| {
        house_file::read(text, &"larder.toml".into(), &mut Vec::new());
        let (house, _) = House::from_texts([("larder.toml", text)]);
        worked_out(&house, &shipped.simple, text);
    }),
    ("board", |_, text| drop(board::read(text, &"plan.toml".into(), &Customs::default(), &mut Vec::new()))),
    ("menu", |_, text| drop(menu::read(text, &"menu.toml".into(), &mut Vec::new()))),
    ("stock", |_, text| drop(on_hand::read(text, &"counted.csv".into(), &Customs::default(), &mut Vec::new()))),
    ("lots", |_, text| {
        let book = LotBook::of(text.lines().filter_map(|line| Event::of_line(line.as_bytes()).ok()).collect());
        assert!(book.lots().count() <= text.lines().count());
    }),
];

/// The inputs by what reads them, and a house in which cards are worked out.
struct Shipped {
    corpus: BTreeMap<&'static str, Vec<String>>,
    pieces: Pieces,
    house: House,
    simple: String,
}

impl Shipped {
    fn new() -> Self {
        let mut corpus: BTreeMap<&'static str, Vec<String>> = BTreeMap::new();
        for folder in [
            "formulas",
            "examples/hotel-bar",
            "tests/recipes",
            "tests/odd",
            "tests/bad/card",
            "tests/bad/menu",
            "formulas/lots",
        ] {
            let mut files: Vec<PathBuf> =
                fs::read_dir(Path::new(ROOT).join(folder)).unwrap().map(|e| e.unwrap().path()).collect();
            files.sort();
            for file in files.iter().filter(|file| file.is_file()) {
                let Ok(text) = fs::read_to_string(file) else { continue };
                let name = file.file_name().unwrap().to_string_lossy();
                let targets: &[&'static str] = match &*name {
                    "house.toml" => &["house"],
                    "larder.toml" => &["larder"],
                    "plan.toml" => &["board"],
                    "menu.toml" => &["menu"],
                    name if folder.ends_with("menu") && name.ends_with(".toml") => &["menu"],
                    name if name.ends_with(".toml") => &["card", "page", "paste"],
                    name if name.ends_with(".jsonl") => &["lots"],
                    name if folder.ends_with("recipes") && name.ends_with(".txt") => &["paste"],
                    _ => continue,
                };
                for target in targets {
                    corpus.entry(target).or_default().push(text.clone());
                }
            }
        }
        let stock = "product,amount,use_by\nLime cordial,1.2 L,2026-12-03\n\"Rich, plain syrup\",800 ml,2026-12-24\n";
        corpus.insert("stock", vec![stock.to_owned()]);
        let mut pieces = Pieces::default();
        corpus.values().flatten().for_each(|text| pieces.learn(text));
        corpus.insert("amount", pieces.quoted().to_vec());
        let simple = fs::read_to_string(Path::new(ROOT).join("formulas/lime-cordial.toml")).unwrap();
        let (house, _) = House::find(&Path::new(ROOT).join("formulas"));
        Self { corpus, pieces, house, simple }
    }

    fn read(&self, target: &str, text: &str) {
        if target == "paste" {
            return worked_out(&self.house, &paste(text, &self.house).card, text);
        }
        let (_, read) =
            TARGETS.iter().find(|(name, _)| *name == target).unwrap_or_else(|| panic!("no target {target}"));
        read(self, text);
    }
}

/// All that a card says, as the verbs do it: the sheet, dates, cost; with what stands in the house that was written for it.
fn worked_out(house: &House, text: &str, beside: &str) {
    let mut found = Vec::new();
    let (card, _) = card::read_by("card.toml".into(), text.into(), &house.customs());
    let options = Options::default();
    let Some(made) = card.as_ref().and_then(|card| aim::chosen(card, house, &options, &mut found)) else { return };
    let Some(solved) = solve(&made.card, &made.house, &options).solved else { return };
    assert!(solved.bottled().total_grams().is_finite(), "a mass is no number");
    let asked = options.asked(&made.card);
    let (sheet, _) = SolveView::new(&made.card, &solved, &made.house, asked, celsius(20.0), DAY);
    let sheet = text::solve(&Report::new(Some(sheet), &[], |_| None), Page { width: 100, full: true });
    let draws = Draws { draws: 20, ..Draws::default() };
    let (dated, _) = assessment::assess(&solved, &made.house, DAY, Which::All, draws);
    let dates = text::date(&Report::new(Some(DateView::new(&dated)), &[], |_| None), Page { width: 100, full: true });
    cost_of(&solved, &made.house, &CostAsked { makes: asked, ..CostAsked::default() });
    for said in [sheet, dates] {
        numbers_only(&said, &format!("{text}{beside}"));
    }
}

/// What is no number is not printed, but where somebody wrote it.
fn numbers_only(said: &str, input: &str) {
    let is_no_number = |word: &str| matches!(word, "NaN" | "inf" | "-inf" | "infinity");
    let word = said.split(|c: char| !(c.is_alphanumeric() || c == '-')).find(|word| is_no_number(word));
    assert!(word.is_none_or(|word| input.contains(word)), "{} is said in\n{said}", word.unwrap_or_default());
}

/// Notes what is being read, so that also a case that ends the process, or never ends, is found again.
struct Watch {
    folder: PathBuf,
    since: Arc<Mutex<Option<Instant>>>,
}

impl Watch {
    fn new(name: &str) -> Self {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("fuzz");
        fs::create_dir_all(&folder).unwrap();
        let watch = Self { folder: folder.join(name), since: Arc::default() };
        let (since, file) = (Arc::downgrade(&watch.since), watch.folder.clone());
        std::thread::spawn(move || {
            while let Some(since) = since.upgrade() {
                if since.lock().is_ok_and(|since| since.is_some_and(|since| since.elapsed() > BOUND)) {
                    eprintln!("no answer in {BOUND:?}: {}", file.display());
                    std::process::abort();
                }
                drop(since);
                std::thread::sleep(Duration::from_secs(1));
            }
        });
        watch
    }

    fn over(&self, target: &str, seed: u64, case: &str, run: impl FnOnce()) {
        fs::write(&self.folder, case).unwrap();
        *self.since.lock().unwrap() = Some(Instant::now());
        let done = catch_unwind(AssertUnwindSafe(run));
        *self.since.lock().unwrap() = None;
        if let Err(panicked) = done {
            let kept = self.folder.with_file_name(format!("{target}.{seed:x}"));
            fs::write(&kept, case).unwrap();
            eprintln!("the case is kept as {}", kept.display());
            resume_unwind(panicked);
        }
    }
}

fn number_of(variable: &str, otherwise: u64) -> u64 {
    std::env::var(variable).ok().and_then(|text| text.parse().ok()).unwrap_or(otherwise)
}

/// Each of two kinds: what is read inside the process, and whole commands.
fn for_a_while(mut one: impl FnMut(u64)) {
    let end = Instant::now() + Duration::from_secs(number_of("STILLROOM_FUZZ_SECONDS", 10)) / 2;
    let first = number_of("STILLROOM_FUZZ_SEED", 1);
    let count = (first..).take_while(|_| Instant::now() < end).map(&mut one).count();
    println!("{count} cases from seed {first}");
}

#[test]
fn what_was_found_once_is_read_again() {
    let shipped = Shipped::new();
    let watch = Watch::new("again");
    for file in fs::read_dir(Path::new(ROOT).join("tests/fuzz")).unwrap() {
        let path = file.unwrap().path();
        let (name, case) =
            (path.file_name().unwrap().to_string_lossy().into_owned(), fs::read_to_string(&path).unwrap());
        let target = name.split('.').next().unwrap();
        watch.over(target, 0, &case, || shipped.read(target, &case));
    }
}

#[test]
fn whatever_is_read_is_answered() {
    let shipped = Shipped::new();
    let watch = Watch::new("reading");
    let targets: Vec<(&str, &Vec<String>)> = shipped.corpus.iter().map(|(target, texts)| (*target, texts)).collect();
    for_a_while(|seed| {
        let mut dice = Dice(seed);
        let (target, texts) = dice.of(&targets);
        let text = dice.of::<String>(texts);
        let case = shipped.pieces.mutated(text, &mut dice);
        watch.over(target, seed, &case, || shipped.read(target, &case));
    });
}

#[test]
fn whatever_is_commanded_is_answered() {
    let shipped = Shipped::new();
    let watch = Watch::new("commanding");
    let bar = process::Bar::new(&["formulas", "examples/hotel-bar"]);
    for_a_while(|seed| {
        let mut dice = Dice(seed);
        let case = bar.case(&shipped.pieces, &mut dice);
        watch.over("command", seed, &case.to_string(), || bar.run(&case));
    });
}
