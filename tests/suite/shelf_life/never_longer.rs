//! A worse hurdle never lengthens a date: drawn products, each changed in one way at a time.

use proptest::prelude::*;
use stillroom::shelf_life::{Asked, Authority, Contents, Draws, Filled, Product, StageWarmth, verdicts};
use stillroom::units::celsius;

const STORES: [f64; 4] = [1.0, 4.0, 12.0, 21.0];

/// Days in every store; a refusal is fewer than none.
fn days(product: &Product) -> Vec<i64> {
    let stores = STORES.map(celsius);
    let asked = Asked { draws: Draws { draws: 4_000, ..Draws::default() }, lives: false };
    let found = verdicts(product, &stores, &Authority::default(), asked);
    found.iter().map(|v| v.days.map_or(-1, i64::from)).collect()
}

/// A day or 3 % may be lost to the draws.
#[track_caller]
fn no_longer(worse: &Product, better: &Product, what: &str) {
    for (store, (w, b)) in STORES.iter().zip(days(worse).into_iter().zip(days(better))) {
        let slack = if b < 0 { 0 } else { 1.max(b * 3 / 100) };
        assert!(w <= b + slack, "{what} at {store} °C: {w} days where the better has {b}\n{worse:?}\n{better:?}");
    }
}

/// A solution of sugar in water: its Brix and water activity (Norrish, K 6.47), so that they fit together.
fn sweet(sugar_g_l: f64, salt_pct: f64) -> (f64, f64) {
    let water = (1000.0 - 0.62 * sugar_g_l).max(50.0);
    let brix = 100.0 * sugar_g_l / (sugar_g_l + water);
    let (n_sugar, n_water) = (sugar_g_l / 342.3, water / 18.015);
    let x = n_sugar / (n_sugar + n_water);
    (brix, (1.0 - x) * (-6.47 * x * x).exp() * (1.0 - 0.006 * salt_pct))
}

fn product() -> impl Strategy<Value = Product> {
    let hurdles = (0.0..45.0_f64, 20.0..900.0_f64, prop::option::of(2.0..7.0_f64), 0.0..1.0_f64);
    let flags = (any::<bool>(), any::<bool>(), any::<bool>(), any::<bool>());
    let fills =
        prop::sample::select(vec![Filled::HotClosed, Filled::HotClean, Filled::Cold, Filled::ColdPlant, Filled::Raw]);
    let more = (prop::bool::weighted(0.3), 0.0..2.0_f64, prop::bool::weighted(0.2), prop::bool::weighted(0.5));
    (hurdles, flags, fills, more).prop_map(|(hurdles, flags, filled, (opened, acetic, drops, sober))| {
        let (abv, sugar_g_l, ph_up, juice) = hurdles;
        let (plant, nutrient, nut, raw) = flags;
        let (brix, aw) = sweet(sugar_g_l, 0.0);
        let raw_juice = if raw { juice } else { 0.0 };
        Product {
            abv_pct: if sober { 0.0 } else { abv },
            abv_doubt: 0.3,
            sugar_g_l,
            brix: Some(brix),
            aw: Some(aw),
            aw_doubt: 0.008,
            ph_up,
            acetic_pct: acetic,
            raw_juice,
            contents: Contents { plant, nutrient: nutrient || raw, nut: nut && !raw, drops, ..Contents::default() },
            filled: if raw { Filled::Raw } else { filled },
            opened,
            closed: true,
            ..Product::default()
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 350, ..ProptestConfig::default() })]

    #[test]
    fn a_warmer_store_never_lengthens(product in product()) {
        let found = days(&product);
        for (colder, warmer) in found.iter().zip(found.iter().skip(1)) {
            prop_assert!(*warmer <= colder + 1.max(colder * 3 / 100), "{found:?} {product:?}");
        }
    }

    #[test]
    fn a_worse_hurdle_never_lengthens(better in product()) {
        let ph = better.ph_up;
        no_longer(&Product { ph_up: ph.map(|ph| ph + 0.4), ..better.clone() }, &better, "less sour");
        no_longer(&Product { ph_up: None, ..better.clone() }, &better, "pH not known");
        no_longer(&Product { aw_doubt: 0.02, ..better.clone() }, &better, "less sure of its water activity");
        no_longer(&Product { opened: true, ..better.clone() }, &better, "opened");
        no_longer(&Product { closed: false, filled: better.filled.max(Filled::HotClean), ..better.clone() },
            &Product { closed: false, ..better.clone() }, "not filled hot and closed");
        let worse_fill = match better.filled {
            Filled::HotClosed => Filled::HotClean,
            Filled::HotClean => Filled::Cold,
            Filled::Cold | Filled::ColdPlant | Filled::Raw => Filled::ColdPlant.max(better.filled),
        };
        no_longer(&Product { filled: worse_fill, ..better.clone() }, &better, "less clean");
        no_longer(&Product { acetic_pct: 0.5 * better.acetic_pct, ..better.clone() }, &better, "less acetic acid");
        if better.abv_pct > 5.0 {
            no_longer(&Product { abv_pct: better.abv_pct - 1.0, ..better.clone() }, &better, "weaker");
        }
        if better.sugar_g_l > 60.0 {
            let (brix, aw) = sweet(better.sugar_g_l - 40.0, 0.0);
            let less = Product { sugar_g_l: better.sugar_g_l - 40.0, brix: Some(brix), aw: Some(aw), ..better.clone() };
            no_longer(&less, &better, "less sweet");
        }
        if better.raw_juice > 0.0 && better.raw_juice < 0.9 {
            no_longer(&Product { raw_juice: better.raw_juice + 0.1, ..better.clone() }, &better, "more raw juice");
        }
        let steeped = |hours, t_c| StageWarmth { t_c, hours, abv: 0.0, ph_up: None, aw_up: 1.0 };
        no_longer(&Product { stages: vec![steeped(3.0, 30.0)], ..better.clone() }, &better, "a warm steep");
        no_longer(&Product { stages: vec![steeped(30.0, 30.0)], ..better.clone() }, &better, "a long warm steep");
        no_longer(&Product { stages: vec![steeped(48.0, 4.0)], ..better.clone() }, &better, "two cold days");
        no_longer(&Product { spoiled_lot_days: Some(5.0), ..better.clone() }, &better, "a lot spoiled");
    }
}
