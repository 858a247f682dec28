//! By when a lot of a card goes, in every store of its house, and which rule decided.
//!
//! `cargo run --example date_card formulas/lime-cordial.toml 2026-11-25`

use std::path::Path;

use chrono::NaiveDate;
use stillroom::assessment::{Which, assess};
use stillroom::house::{self, House};
use stillroom::shelf_life::Draws;
use stillroom::solver::{Options, solve};

/// What it says, a line each.
pub fn said(card: &Path, made: NaiveDate) -> Vec<String> {
    let (house, _) = House::find(card);
    let source = house::read(card).unwrap_or_else(|unread| panic!("{}", unread.title));
    let card = stillroom::card::read(source.file, source.text).0.expect("a card");
    let solved = solve(&card, &house, &Options::default()).solved.expect("a card that can be made");
    let (judged, _) = assess(&solved, &house, made, Which::All, Draws::default());
    let of = |dated: &stillroom::assessment::DatedStore| match (dated.date, &dated.decided_by) {
        (Some(date), Some(rule)) => format!("{:<10} {date}: {rule}", dated.store.name),
        _ => format!(
            "{:<10} no date: {}",
            dated.store.name,
            dated.refused.first().map_or_else(String::new, |r| r.why.clone())
        ),
    };
    judged.stores.iter().map(of).collect()
}

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    let card = asked.first().map_or("formulas/lime-cordial.toml", String::as_str);
    let made = asked.get(1).map_or("2026-11-25", String::as_str).parse().expect("a day, year first");
    said(Path::new(card), made).iter().for_each(|line| println!("{line}"));
}
