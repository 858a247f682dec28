//! How long a card takes to date: the demo liqueur at four thawed stores with all its draws (below 150 ms on two cores), all
//! that is not drawn (below 1 ms), and what one change would buy.

use std::path::Path;

use chrono::NaiveDate;
use divan::{Bencher, black_box};
use stillroom::assessment::{self, Which, whatif};
use stillroom::house::{self, House, Store};
use stillroom::shelf_life::Draws;
use stillroom::solver::{Options, Solved, solve};
use stillroom::units::celsius;

fn main() {
    divan::main();
}

fn liqueur() -> Option<(Solved, House)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("formulas");
    let (mut house, _) = House::find(&folder);
    let stores = [("fridge", 4.0), ("cellar", 12.0), ("back bar", 21.0), ("window", 25.0)];
    house.settings.stores =
        stores.map(|(name, t)| Store { name: name.into(), temperature: celsius(t), assumed: false }).into();
    let source = house::read(&folder.join("lime-and-clove-liqueur.toml")).ok()?;
    let card = stillroom::card::read(source.file, source.text).0?;
    Some((solve(&card, &house, &Options::default()).solved?, house))
}

fn dates(bencher: Bencher, draws: u32, change: bool) {
    let Some((solved, house)) = liqueur() else { return };
    let (made, settings) = (NaiveDate::default(), Draws { draws, ..Draws::default() });
    bencher.bench(|| {
        let (dated, _) = assessment::assess(black_box(&solved), &house, made, Which::All, settings);
        if change { whatif::what_if(&solved, &house, &dated, settings).len() } else { dated.stores.len() }
    });
}

#[divan::bench]
fn four_stores(bencher: Bencher) {
    dates(bencher, Draws::default().draws, false);
}

#[divan::bench]
fn without_draws(bencher: Bencher) {
    dates(bencher, 0, false);
}

#[divan::bench]
fn with_what_one_change_buys(bencher: Bencher) {
    dates(bencher, Draws::default().draws, true);
}
