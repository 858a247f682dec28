//! A house of its own in a folder of its own, for one test: cards, larder and settings as text.
#![allow(dead_code)] // each test file uses a part of it

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

use chrono::NaiveDate;
use serde_json::Value;
use stillroom::aim;
use stillroom::assessment::{self, Assessment, DatedStore, Which};
use stillroom::card::{self, Card, TargetKind};
use stillroom::diagnostic::{Code, Diagnostic, Severity, any_error};
use stillroom::house::{self, House};
use stillroom::properties::value_of;
use stillroom::render::text::Page;
use stillroom::report::Report;
use stillroom::report::solve::SolveView;
use stillroom::shelf_life::Draws;
use stillroom::solver::target::volume_ml;
use stillroom::solver::{Options, Solved, SolvedPart, solve};
use stillroom::units::celsius;

/// A page with everything on it, so wide that no sentence is broken.
pub const FULL: Page = Page { width: 10_000, full: true };

/// A Wednesday: the day on which everything here is made.
pub const DAY: NaiveDate = NaiveDate::from_ymd_opt(2026, 11, 25).unwrap();

/// A folder that is gone when the test is.
pub struct Folder(pub PathBuf);

impl Folder {
    pub fn new() -> Self {
        Self::called("stillroom-folder-")
    }

    fn called(name: &str) -> Self {
        static COUNT: AtomicUsize = AtomicUsize::new(0);
        let name = format!("{name}{}-{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
        let path = std::env::temp_dir().join(name);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    pub fn with(self, file: &str, text: &str) -> Self {
        let path = self.0.join(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
        self
    }

    pub fn find(&self, start: &str) -> (House, Vec<Diagnostic>) {
        House::find(&self.0.join(start))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

pub struct Kitchen {
    folder: Folder,
}

impl Kitchen {
    /// A house with these settings and this larder, each entry of which is stated to be food: what a test is not about
    /// shall not refuse its dates.
    pub fn new(larder: &str) -> Self {
        Self::unstated(&stated_as_food(larder))
    }

    /// The same, nothing stated but what the larder itself states.
    pub fn unstated(larder: &str) -> Self {
        let kitchen = Self { folder: Folder::called("stillroom kitchen ") };
        kitchen.write("larder.toml", larder);
        kitchen.write("house.toml", "[instruments]\nscale = \"0.1 g up to 5 kg\"\n[stores]\nfridge = \"4 °C\"\n");
        kitchen
    }

    /// The demo house in a folder of its own, without its book.
    pub fn demo() -> Self {
        let house = Self::new("");
        for file in fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas")).unwrap() {
            let path = file.unwrap().path();
            if path.is_file() {
                house.write(path.file_name().unwrap().to_str().unwrap(), &fs::read_to_string(&path).unwrap());
            }
        }
        house
    }

    /// Puts a file, and gives its path.
    pub fn write(&self, name: &str, text: &str) -> PathBuf {
        let path = self.folder().join(name);
        fs::write(&path, text).unwrap();
        path
    }

    /// With these files; a name without an end is that of a card.
    pub fn with(self, files: &[(&str, &str)]) -> Self {
        for (name, text) in files {
            let end = if name.contains('.') { "" } else { ".toml" };
            self.write(&format!("{name}{end}"), text);
        }
        self
    }

    /// The command in this house: its exit code, what it answers and what it finds.
    pub fn run(&self, arguments: &[&str]) -> (Option<i32>, String, String) {
        run_in(self.folder(), arguments)
    }

    /// All that it says in this house.
    pub fn says(&self, arguments: &[&str]) -> String {
        let (_, page, said) = self.run(arguments);
        page + &said
    }

    /// The same for programs.
    pub fn json(&self, arguments: &[&str]) -> Value {
        let (_, page, said) = self.run(&[arguments, &["--json"]].concat());
        serde_json::from_str(&page).unwrap_or_else(|why| panic!("{why}: {page}{said}"))
    }

    pub fn folder(&self) -> &Path {
        &self.folder.0
    }

    /// Reads and solves a card of this house.
    pub fn solve(&self, card: &str, options: &Options) -> Made {
        made(&self.write("card.toml", card), options)
    }

    /// As the card stands, without a finding of any weight.
    pub fn makes(&self, card: &str) -> Made {
        let made = self.solve(card, &Options::default());
        assert!(made.found.iter().all(|d| d.severity == Severity::Note), "{}", made.plain());
        assert!(made.solved.is_some());
        made
    }

    /// The findings of a card that cannot be met.
    pub fn refuses(&self, card: &str) -> Made {
        let made = self.solve(card, &Options::default());
        assert!(any_error(&made.found), "{card}\n{}", made.plain());
        made
    }
}

/// The command in a folder: its exit code, what it answers and what it finds.
pub fn run_in(folder: &Path, arguments: &[&str]) -> (Option<i32>, String, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
    let out = command.args(arguments).current_dir(folder).output().unwrap();
    let [page, said] = [out.stdout, out.stderr].map(|bytes| String::from_utf8(bytes).unwrap());
    (out.status.code(), page, said)
}

pub fn number(of: &Value) -> f64 {
    of.as_f64().unwrap_or_else(|| panic!("{of}"))
}

/// A larder with a statement at the end of each entry that makes none.
pub fn stated_as_food(larder: &str) -> String {
    let mut out = String::new();
    for (place, entry) in larder.split("[ingredient.").enumerate() {
        out += if place == 0 { "" } else { "[ingredient." };
        out += entry;
        if place > 0 && !entry.contains("food =") {
            out = format!("{}\nfood = \"sold as food, label\"\n", out.trim_end());
        }
    }
    out
}

/// What became of a card.
pub struct Made {
    pub card: Option<Card>,
    pub house: House,
    pub solved: Option<Solved>,
    pub found: Vec<Diagnostic>,
}

/// A card that is read without an error.
pub fn card(text: &str) -> Card {
    let (card, found) = card::read("card.toml".into(), text.into());
    assert!(!any_error(&found), "{found:?}");
    card.unwrap()
}

/// The house of a folder. That of the project itself, which no test changes, is looked for once.
pub fn house_of(folder: &Path) -> (House, Vec<Diagnostic>) {
    static SHIPPED: Mutex<BTreeMap<PathBuf, (House, Vec<Diagnostic>)>> = Mutex::new(BTreeMap::new());
    if !folder.starts_with(env!("CARGO_MANIFEST_DIR")) {
        return House::find(folder);
    }
    let mut shipped = SHIPPED.lock().unwrap_or_else(PoisonError::into_inner);
    shipped.entry(folder.to_owned()).or_insert_with(|| House::find(folder)).clone()
}

/// Reads and solves one card in the house that it lies in.
pub fn made(path: &Path, options: &Options) -> Made {
    let (house, mut found) = house_of(path.parent().unwrap());
    let source = house::read(path).unwrap();
    let (card, read) = card::read_by(source.file, source.text, &house.customs());
    // Like the verb: with a broken larder nothing is weighed.
    let readable = !any_error(&read) && !any_error(&found);
    found.extend(read);
    let mut solved = None;
    // Like the verb: what a card leaves room for is chosen first.
    let chosen = card.as_ref().filter(|_| readable).and_then(|card| aim::chosen(card, &house, options, &mut found));
    if let Some(made) = &chosen {
        let outcome = solve(&made.card, &made.house, options);
        solved = outcome.solved;
        found.extend(outcome.diagnostics);
    }
    let card = chosen.map(|made| made.card.into_owned()).or(card.clone());
    Made { card, house, solved, found }
}

impl Made {
    pub fn solved(&self) -> &Solved {
        self.solved.as_ref().unwrap_or_else(|| panic!("{}", self.plain()))
    }

    /// Grams of the part with this label, in whatever stage it stands.
    pub fn grams(&self, label: &str) -> f64 {
        self.part(label).mass_g
    }

    pub fn part(&self, label: &str) -> &SolvedPart {
        let all = || self.solved().stages.iter().flat_map(|s| &s.parts);
        all().find(|p| p.label == label).unwrap_or_else(|| panic!("no part {label}"))
    }

    /// °Bx, % vol or g/L of what is bottled.
    pub fn is(&self, kind: TargetKind) -> f64 {
        value_of(kind, self.solved().bottled()).unwrap()
    }

    pub fn millilitres(&self) -> f64 {
        volume_ml(self.solved().bottled()).unwrap()
    }

    pub fn total_grams(&self) -> f64 {
        self.solved().bottled().total_grams()
    }

    /// The sheet at 20 °C for the size that the card states.
    pub fn sheet(&self) -> SolveView {
        self.sheet_and_found().0
    }

    /// The same, with what is found on the way.
    pub fn sheet_and_found(&self) -> (SolveView, Vec<Diagnostic>) {
        let card = self.card.as_ref().unwrap();
        let makes = Options::default().asked(card);
        SolveView::new(card, self.solved(), &self.house, makes, celsius(20.0), DAY)
    }

    pub fn text(&self) -> String {
        stillroom::render::text::solve(&Report::new(Some(self.sheet()), &[], |_| None), FULL)
    }

    pub fn codes(&self) -> Vec<Code> {
        self.found.iter().filter(|d| d.severity > Severity::Note).map(|d| d.code).collect()
    }

    /// Every finding in plain lines.
    pub fn plain(&self) -> String {
        self.found.iter().map(plain).collect::<Vec<_>>().join("\n")
    }
}

/// A finding in plain lines, with the text of the file that it speaks of.
pub fn plain(found: &Diagnostic) -> String {
    let text = found.file.as_ref().and_then(|file| house::read(Path::new(&**file)).ok());
    found.plain(text.as_ref().map_or("", |source| &source.text))
}

pub fn close(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} for {expected} ± {tolerance}");
}

/// The day on which the tests make everything: a Wednesday.
pub fn wednesday() -> NaiveDate {
    DAY
}

impl Made {
    /// The dates and cautions of a solved card, with so many draws.
    pub fn dated(&self, draws: u32) -> Assessment {
        let settings = Draws { draws, ..Draws::default() };
        let (dated, found) = assessment::assess(self.solved(), &self.house, DAY, Which::All, settings);
        assert!(!any_error(&found), "{}", found.iter().map(plain).collect::<Vec<_>>().join("\n"));
        dated
    }
}

/// The store with this name.
pub fn at<'a>(dated: &'a Assessment, store: &str) -> &'a DatedStore {
    dated.stores.iter().find(|s| s.store.name == store).unwrap_or_else(|| panic!("no store {store}"))
}
