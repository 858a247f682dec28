//! The draws against the reference Monte-Carlo, within its stated sampling error.

use stillroom::shelf_life::data::tables;
use stillroom::shelf_life::simulate::{Conditions, Draws, simulate, store_sd};
use stillroom::vocabulary::{ProductClass, Word};

use super::table::{assert_close, rows};

/// Name, °C, pH, aw, its sd, % vol, log10 N0, h0, class of the quality model.
type Case = (&'static str, f64, f64, f64, f64, f64, f64, f64, Option<&'static str>);

const CASES: [Case; 7] = [
    ("a", 5.0, 6.0, 0.8654154, 0.005, 0.0, 1.0, 3.0, None),
    ("b5", 5.0, 6.0, 0.9347607, 0.005, 0.0, 1.0, 3.0, None),
    ("b20", 20.0, 6.0, 0.9347607, 0.005, 0.0, 1.0, 3.0, None),
    ("c", 4.0, 2.35, 0.99, 0.005, 0.0, 3.5, 2.0, Some("juice")),
    ("d", 20.0, 4.0, 0.92, 0.03, 18.0, 1.0, 3.0, Some("liqueur")),
    ("e", 4.0, 6.3, 0.9347607, 0.005, 0.0, 3.0, 2.0, None),
    ("f", 20.0, 6.0, 0.8654154, 0.005, 0.0, 1.0, 3.0, None),
];

fn conditions() -> Vec<Conditions> {
    let ceilings = &tables().ceilings;
    let of = |class: &str| ceilings.quality_of(ceilings.class(ProductClass::parse(class).unwrap()).unwrap());
    CASES
        .iter()
        .map(|&(_, t_c, ph, aw, aw_sd, abv_pct, log10_n0, h0, class)| Conditions {
            t_c,
            ph: Some(ph),
            ph_sd: 0.1,
            aw,
            aw_sd,
            abv_pct,
            log10_n0,
            h0,
            quality: class.and_then(of),
        })
        .collect()
}

#[test]
fn every_case_within_its_sampling_error() {
    let spreads = simulate(&conditions(), &tables().organisms, Draws::default());
    let rows = rows("shelf-examples-montecarlo.csv");
    for (case, spread) in CASES.iter().zip(&spreads) {
        let row = rows.iter().find(|r| r.text("case") == case.0).unwrap();
        let share = if case.5 > 0.0 { 0.15 } else { 0.06 };
        let mut checks = vec![
            ("q05_micro_days", spread.micro.q05),
            ("q10_micro_days", spread.micro.q10),
            ("q25_micro_days", spread.micro.q25),
            ("q50_micro_days", spread.micro.q50),
            ("q05_joint_days", spread.joint_q05),
        ];
        if let Some(q) = spread.quality {
            let quality = ["q05_qual_days", "q10_qual_days", "q25_qual_days", "q50_qual_days"];
            checks.extend(quality.into_iter().zip([q.q05, q.q10, q.q25, q.q50]));
        }
        for (column, got) in checks {
            let expected = row.number(column);
            println!("{} {column}: {got:.3} against {expected} ({:+.2} %)", case.0, 100.0 * (got / expected - 1.0));
            if expected.is_infinite() {
                assert!(got.is_infinite(), "{} {column}: {got}", case.0);
            } else {
                assert_close(got / expected, 1.0, share, &format!("{} {column}", case.0));
            }
        }
        assert_close(spread.p_no_growth, row.number("p_no_growth"), 0.01, case.0);
        let (code, first) = spread.first.unwrap();
        assert_eq!(code, row.text("first_spoiler"), "{}", case.0);
        assert_close(first, row.number("first_spoiler_share"), 0.01, case.0);
    }
}

#[test]
fn the_same_seed_gives_the_same_digits_in_any_company() {
    let organisms = &tables().organisms;
    let all = simulate(&conditions(), organisms, Draws { draws: 3_000, seed: 1 });
    for (c, together) in conditions().into_iter().zip(&all) {
        let alone = simulate(&[c], organisms, Draws { draws: 3_000, seed: 1 });
        assert_eq!(&alone[0], together);
    }
    let other = simulate(&conditions(), organisms, Draws { draws: 3_000, seed: 2 });
    assert_ne!(all, other);
}

#[test]
fn no_draws_give_no_days() {
    let none = simulate(&conditions(), &tables().organisms, Draws { draws: 0, seed: 1 });
    assert!(none.iter().all(|s| s.micro.q05 == 0.0));
}

#[test]
fn a_warmer_store_is_warmer_in_every_draw() {
    for z in [-6.0, -2.0, 0.0, 6.0] {
        let drawn = |t: f64| t + z * store_sd(t, 1.0, 2.0);
        assert!((0..300).all(|i| drawn(f64::from(i) / 10.0) < drawn(f64::from(i + 1) / 10.0)));
    }
    assert_eq!((store_sd(4.0, 1.0, 2.0), store_sd(20.0, 1.0, 2.0)), (1.0, 2.0));
}
