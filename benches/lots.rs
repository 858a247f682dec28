//! The lot book at the size of a group of bars: read from its folder, `due`, `recall`. Held to 0.3 s and 100 MB for the
//! whole command; `examples/many_lots.rs` writes the book.

use chrono::NaiveDate;
use divan::{Bencher, black_box};

use stillroom::lots::Event;
use stillroom::lots::{LotBook, due::due, files, recall::chain};

#[allow(dead_code)]
#[path = "../examples/many_lots.rs"]
mod many_lots;

fn main() {
    divan::main();
}

fn folder() -> std::path::PathBuf {
    let folder = std::env::temp_dir().join(format!("stillroom bench {}", std::process::id()));
    let lots = folder.join(files::FOLDER);
    std::fs::create_dir_all(&lots).unwrap();
    std::fs::write(lots.join("many.jsonl"), many_lots::lines(many_lots::EVENTS)).unwrap();
    folder
}

fn book() -> LotBook {
    let lines = many_lots::lines(many_lots::EVENTS);
    LotBook::of(lines.lines().map(|line| Event::of_line(line.as_bytes()).unwrap()).collect())
}

#[divan::bench]
fn read_100_000_events(bencher: Bencher<'_, '_>) {
    let folder = folder();
    bencher.bench_local(|| LotBook::of(files::read(black_box(&folder)).unwrap().0));
    std::fs::remove_dir_all(folder).unwrap();
}

#[divan::bench]
fn due_of_100_000_events(bencher: Bencher<'_, '_>) {
    let book = book();
    let on = NaiveDate::from_ymd_opt(2026, 11, 28).unwrap();
    bencher.bench_local(|| due(black_box(&book), on).len());
}

#[divan::bench]
fn recall_of_a_syrup(bencher: Bencher<'_, '_>) {
    let book = book();
    let lot = many_lots::code(many_lots::EVENTS / 10);
    bencher.bench_local(|| chain(black_box(&book), &lot).map(|chain| chain.into.len()));
}
