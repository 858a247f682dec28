//! Draws `charts/` from the demo house in `formulas/`: the expected life of six products, as SVG and as PNG.
//!
//! `cargo run --release --example gallery`, or with a folder of your own at the end.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use chrono::NaiveDate;
use stillroom::dated::{self, Which};
use stillroom::house::{self, House};
use stillroom::render::chart;
use stillroom::shelf_life::Settings;
use stillroom::solve::{Options, solve};

/// The cards that are drawn, by the names of their files.
pub const CARDS: [&str; 6] =
    ["rich-syrup-65", "plain-syrup", "fresh-lime-juice", "lime-and-clove-liqueur", "almond-syrup", "dried-lime-wheels"];

/// The chart of a card of the demo house, made on the day of all examples.
pub fn drawing(card: &str) -> Option<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let (house, _) = House::find(&folder);
    let source = house::read(&folder.join(format!("{card}.toml"))).ok()?;
    let formula = stillroom::formula::read(source.file, source.text).0?;
    let solved = solve(&formula, &house, &Options::default()).solved?;
    let made = NaiveDate::from_ymd_opt(2026, 11, 25)?;
    let (dated, _) = dated::of(&solved, &house, made, Which::AllWithBands, Settings::default());
    Some(chart::expected_life(&solved.name, &dated))
}

fn main() -> ExitCode {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("charts"), PathBuf::from);
    for card in CARDS {
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
    println!("{} charts in {}", CARDS.len(), folder.display());
    ExitCode::SUCCESS
}
