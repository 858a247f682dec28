//! How long a date takes: four stores with all their draws (two cores: below 150 ms), and everything that is not drawn
//! (below 1 ms).

use divan::{Bencher, black_box};
use stillroom::shelf_life::{Authority, Contents, Draws, Product, UncertainValue, verdicts};
use stillroom::units::{Abv, Brix, Ph, WaterActivity, celsius, grams_per_litre};
use stillroom::vocabulary::ProductClass;

fn main() {
    divan::main();
}

fn liqueur() -> Product {
    Product {
        ph: Ph::new(4.0).map(|value| UncertainValue { value, uncertainty: 0.1 }),
        water_activity: WaterActivity::new(0.92).map(|value| UncertainValue { value, uncertainty: 0.03 }),
        abv: Abv::new(18.0),
        sugar: Some(grams_per_litre(250.0)),
        brix: Brix::new(23.7),
        class: Some(ProductClass::Liqueur),
        contents: Some(Contents::default()),
        ..Product::default()
    }
}

fn dates(bencher: Bencher, draws: u32) {
    let (product, authority) = (liqueur(), Authority::default());
    let stores = [4.0, 12.0, 21.0, 25.0].map(celsius);
    let settings = Draws { draws, ..Draws::default() };
    bencher.bench(|| verdicts(black_box(&product), &stores, &authority, settings));
}

#[divan::bench]
fn four_stores(bencher: Bencher) {
    dates(bencher, Draws::default().draws);
}

#[divan::bench]
fn without_draws(bencher: Bencher) {
    dates(bencher, 0);
}
