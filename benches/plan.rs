//! How long a plan takes once its products are dated: 200 products and 12 weeks (below 1 s).

use chrono::NaiveDate;
use divan::{Bencher, black_box};
use stillroom::plan::{Calendar, Goes, OnHand, PrepProduct, Uses, Work, schedule};

fn main() {
    divan::main();
}

/// Lives from a day to a year, half with a wait, every fourth with a product of the house in it.
fn products(count: usize) -> Vec<PrepProduct> {
    let work = |days_before| Work { stage: None, days_before, takes: None };
    (0..count)
        .map(|i| PrepProduct {
            name: format!("Product {i:03}"),
            life: [1, 2, 4, 7, 14, 30, 90, 365][i % 8],
            par: 500,
            uses: Uses::weekly(3000 + i as u64),
            smallest: 500,
            largest: Some(4000),
            on_hand: vec![OnHand { amount: 900, use_by: 3, ..OnHand::default() }],
            works: if i % 2 == 0 { vec![work(0)] } else { vec![work((i % 5) as i32), work(0)] },
            parts: if i % 4 == 3 {
                vec![Goes { of: format!("Product {:03}", i - 1), days_before: 0, per_unit: 0.2 }]
            } else {
                Vec::new()
            },
            ..PrepProduct::default()
        })
        .collect()
}

#[divan::bench]
fn two_hundred_products_and_twelve_weeks(bencher: Bencher) {
    let mut calendar = Calendar::open_all(NaiveDate::from_ymd_opt(2026, 11, 30).unwrap_or_default(), 84);
    calendar.closed[0] = true;
    let products = products(200);
    bencher.bench(|| schedule(black_box(&calendar), products.clone()));
}
