//! Draws `charts/` from the demo house in `formulas/`: the expected life of six products, where the money of one goes, what
//! the lots of one say, what stays dissolved in two syrups, how sweet and strong a liqueur is, and a square, as SVG and as PNG.
//!
//! `cargo run --release --example gallery`, or with a folder of your own at the end.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use chrono::NaiveDate;
use stillroom::assessment::{self, Which};
use stillroom::house::{self, House};
use stillroom::lots::{LotBook, LotState, files};
use stillroom::render::chart;
use stillroom::report::cost::CostView;
use stillroom::report::cost_question::CostQuestion;
use stillroom::report::learn::LessonView;
use stillroom::shelf_life::Draws;
use stillroom::solver::{Options, solve};

/// The cards that are drawn, by the names of their files.
pub const CARDS: [&str; 6] =
    ["rich-syrup-65", "plain-syrup", "fresh-lime-juice", "lime-and-clove-liqueur", "almond-syrup", "dried-lime-wheels"];

/// The chart of costs, by the name of its file, and its card.
pub const COSTS: (&str, &str) = ("coffee-liqueur-cost", "coffee-liqueur");

/// The chart of what lots say, by the name of its file, and their product.
pub const LOTS: (&str, &str) = ("rich-muscovado-syrup-lots", "Rich muscovado syrup");

/// The maps and the square, by the names of their files, and their cards.
pub const MAPS: [(&str, &str); 4] = [
    ("rich-muscovado-syrup-dissolved", "rich-muscovado-syrup"),
    ("rich-syrup-65-dissolved", "rich-syrup-65"),
    ("lime-and-clove-liqueur-strength", "lime-and-clove-liqueur"),
    ("plain-syrup-square", "plain-syrup"),
];

/// Every chart, by the name of its file.
pub fn names() -> impl Iterator<Item = &'static str> {
    CARDS.into_iter().chain([COSTS.0, LOTS.0]).chain(MAPS.map(|(name, _)| name))
}

/// The chart of a card of the demo house, made on the day of all examples.
pub fn drawing(name: &str) -> Option<String> {
    let of = [COSTS].into_iter().chain(MAPS).find(|(file, _)| *file == name);
    let card = of.map_or(name, |(_, card)| card);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    if name == LOTS.0 {
        let book = LotBook::of(files::read(&folder).ok()?.0);
        let sheet = |lot: &LotState| serde_json::from_str(&files::sheet(&folder, &lot.recorded.sheet).ok()?).ok();
        return Some(chart::what_lots_say(&LessonView::all(&book, Some(LOTS.1), None, sheet)));
    }
    let (house, _) = House::find(&folder);
    let source = house::read(&folder.join(format!("{card}.toml"))).ok()?;
    let card = stillroom::card::read(source.file, source.text).0?;
    let made = NaiveDate::from_ymd_opt(2026, 11, 25)?;
    if name == COSTS.0 {
        let question = CostQuestion { today: Some(made), ..CostQuestion::default() };
        let view = CostView::of_card(&card, &house, &question, &mut Vec::new())?;
        return Some(chart::where_the_money_goes(&card.name.value, view.batch.0.as_ref()?));
    }
    let solved = solve(&card, &house, &Options::default()).solved?;
    if of.is_some() {
        let (name_of, liquid, settings) = (&solved.name, solved.bottled(), &house.settings);
        return match name.rsplit('-').next() {
            Some("dissolved") => chart::what_stays_dissolved(name_of, liquid, &settings.stores),
            Some("strength") => chart::how_sweet_and_strong(name_of, liquid, &settings.markets),
            _ => chart::square_of_card(&solved),
        };
    }
    let (dated, _) = assessment::assess(&solved, &house, made, Which::AllWithBands, Draws::default());
    Some(chart::expected_life(&solved.name, &dated))
}

fn main() -> ExitCode {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("charts"), PathBuf::from);
    for card in names() {
        let written = drawing(card).and_then(|svg| {
            fs::create_dir_all(&folder).ok()?;
            fs::write(folder.join(format!("{card}.svg")), &svg).ok()?;
            fs::write(folder.join(format!("{card}.png")), chart::png(&svg)?).ok()
        });
        if written.is_none() {
            eprintln!("could not draw {card}");
            return ExitCode::FAILURE;
        }
    }
    println!("{} charts in {}", names().count(), folder.display());
    ExitCode::SUCCESS
}
