//! The draws against the reference Monte-Carlo, within its stated sampling error. Every lot has the yeast here: how many have
//! it is another question ([`stillroom::shelf_life::lots`]).

use stillroom::shelf_life::simulate::{Conditions, Draws, simulate, store_sd};

use super::table::{assert_close, rows};

/// Name, °C, pH, aw, its sd, % vol, log10 N0, h0.
type Case = (&'static str, f64, f64, f64, f64, f64, f64, f64);

const CASES: [Case; 7] = [
    ("a", 5.0, 6.0, 0.8654154, 0.005, 0.0, 1.0, 3.0),
    ("b5", 5.0, 6.0, 0.9347607, 0.005, 0.0, 1.0, 3.0),
    ("b20", 20.0, 6.0, 0.9347607, 0.005, 0.0, 1.0, 3.0),
    ("c", 4.0, 2.35, 0.99, 0.005, 0.0, 3.5, 2.0),
    ("d", 20.0, 4.0, 0.92, 0.03, 18.0, 1.0, 3.0),
    ("e", 4.0, 6.3, 0.9347607, 0.005, 0.0, 3.0, 2.0),
    ("f", 20.0, 6.0, 0.8654154, 0.005, 0.0, 1.0, 3.0),
];

#[test]
fn every_case_within_its_sampling_error() {
    let rows = rows("shelf-examples-montecarlo.csv");
    for (name, t_c, ph, aw, aw_sd, abv_pct, log10_n0, h0) in CASES {
        let conditions = Conditions { ph: Some(ph), ph_sd: 0.1, aw, aw_sd, abv_pct, log10_n0, h0, grow: [true; 4] };
        let lives = simulate(&conditions, &[t_c], Draws::default()).remove(0);
        let row = rows.iter().find(|r| r.text("case") == name).unwrap();
        let share = if abv_pct > 0.0 { 0.15 } else { 0.06 };
        let quantiles = [("q05", 0.05), ("q10", 0.10), ("q25", 0.25), ("q50", 0.50)];
        for (quantile, at) in quantiles {
            let (got, expected) = (lives.quantile(at), row.number(&format!("{quantile}_micro_days")));
            if expected.is_infinite() {
                assert!(got.is_infinite(), "{name} {quantile}: {got}");
            } else {
                assert_close(got / expected, 1.0, share, &format!("{name} {quantile}"));
            }
        }
        assert_close(lives.never(), row.number("p_no_growth"), 0.01, name);
        let (code, first) = lives.first().unwrap();
        assert_eq!(code, row.text("first_spoiler"), "{name}");
        assert_close(first, row.number("first_spoiler_share"), 0.01, name);
    }
}

fn rich() -> Conditions {
    let (aw, h0) = (0.8654154, 3.0);
    Conditions { ph: None, ph_sd: 0.1, aw, aw_sd: 0.005, abv_pct: 0.0, log10_n0: 0.5, h0, grow: [true; 4] }
}

#[test]
fn the_same_seed_gives_the_same_digits_in_any_company() {
    let few = Draws { draws: 3_000, seed: 1 };
    let together = simulate(&rich(), &[4.0, 12.0, 21.0], few);
    for (t_c, lives) in [4.0, 12.0, 21.0].into_iter().zip(&together) {
        assert_eq!(&simulate(&rich(), &[t_c], few)[0], lives);
    }
    // fewer draws are the first of more, and another seed has other digits
    let more = simulate(&rich(), &[21.0], Draws { draws: 5_000, seed: 1 }).remove(0);
    assert_ne!(more, together[2]);
    assert_ne!(simulate(&rich(), &[21.0], Draws { draws: 3_000, seed: 2 })[0], together[2]);
}

#[test]
fn no_draws_give_no_days() {
    assert_eq!(simulate(&rich(), &[4.0], Draws { draws: 0, seed: 1 })[0].quantile(0.05), 0.0);
}

#[test]
fn a_warmer_store_is_warmer_in_every_draw() {
    for z in [-6.0, -2.0, 0.0, 6.0] {
        let drawn = |t: f64| t + z * store_sd(t, 1.0, 2.0);
        assert!((0..300).all(|i| drawn(f64::from(i) / 10.0) < drawn(f64::from(i + 1) / 10.0)));
    }
    assert_eq!((store_sd(4.0, 1.0, 2.0), store_sd(20.0, 1.0, 2.0)), (1.0, 2.0));
}
