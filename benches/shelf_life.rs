//! How long a date takes: four stores with all their draws, as the second question of a run and as the first look, and
//! everything that is not drawn.

use divan::{Bencher, black_box};
use stillroom::shelf_life::{Asked, Authority, Draws, Filled, Product, verdicts};
use stillroom::units::celsius;

fn main() {
    divan::main();
}

/// A rich syrup, whose growth decides in the warm: nothing about it can be skipped.
fn syrup() -> Product {
    Product {
        sugar_g_l: 858.0,
        brix: Some(65.1),
        aw: Some(0.8645),
        aw_doubt: 0.008,
        filled: Filled::Cold,
        closed: true,
        ..Product::default()
    }
}

fn dates(bencher: Bencher, draws: u32, lives: bool) {
    let (product, authority) = (syrup(), Authority::default());
    let stores = [4.0, 12.0, 21.0, 25.0].map(celsius);
    let asked = Asked { draws: Draws { draws, ..Draws::default() }, lives };
    bencher.bench(|| verdicts(black_box(&product), &stores, &authority, asked));
}

#[divan::bench]
fn four_stores(bencher: Bencher) {
    dates(bencher, Draws::default().draws, false);
}

#[divan::bench]
fn four_stores_for_a_chart(bencher: Bencher) {
    dates(bencher, Draws::default().draws, true);
}

#[divan::bench]
fn without_draws(bencher: Bencher) {
    dates(bencher, 0, false);
}
