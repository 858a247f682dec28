//! Refusals by age, against three other implementations, and what a few lots teach.
//!
//! `survival-data.csv`: Finkelstein and Wolfe, Biometrics 41:731 (1985), the radiotherapy arm: the same structure as tasters'
//! refusals. `survival-results.csv`: maximum likelihood by scipy, lifelines 0.30.3 and surpyval 0.25, which agree to 1e-5;
//! Turnbull's masses as Fay and Shaw print them, J Stat Softw 36(2) (2010). `learning-*.csv`: computed in Python by the
//! formulae of the same model.

use super::table::{Row, rows};
use stillroom::shelf_life::survival::{Fit, Law, Observation, Prior, exact_lots, fit, learn, turnbull};

fn data() -> Vec<Observation> {
    let number = |row: &Row, key: &str| row.maybe(key).unwrap();
    let table = rows("survival-data.csv");
    table.iter().map(|row| Observation::between(number(row, "left_month"), number(row, "right_month"))).collect()
}

fn near(found: f64, expected: f64, relative: f64, what: &str) {
    assert!((found - expected).abs() <= relative * expected.abs(), "{what}: {found} for {expected}");
}

#[test]
fn two_laws_are_fitted_as_three_others_fit_them() {
    let table = rows("survival-results.csv");
    for (name, law) in [("weibull", Law::Weibull), ("lognormal", Law::Lognormal)] {
        let fitted: Fit = fit(law, &data()).unwrap();
        let [first, second] = fitted.parameters;
        for row in table.iter().filter(|row| row.text("model") == name) {
            let value: f64 = row.text("value").parse().unwrap();
            let se: Option<f64> = row.text("se_or_lower95").parse().ok();
            let se_of = |place: usize| fitted.covariance[place][place].sqrt();
            match row.text("quantity") {
                "scale_month" => {
                    near(first.exp(), value, 1e-5, "scale");
                    near(se_of(0), se.unwrap(), 1e-4, "its error");
                }
                "mu_ln_month" => {
                    near(first, value, 1e-5, "m");
                    near(se_of(0), se.unwrap(), 1e-4, "its error");
                }
                "shape" | "sigma" => {
                    near(second.exp(), value, 1e-5, "the second parameter");
                    near(se_of(1), se.unwrap(), 1e-4, "its error");
                }
                "loglik" => near(fitted.log_likelihood, value, 1e-7, "log likelihood"),
                quantity => {
                    let share: f64 = quantity[1..3].parse::<f64>().unwrap() / 100.0;
                    let [t, low, high] = fitted.quantile(share);
                    near(t, value, 1e-5, quantity);
                    near(low, se.unwrap(), 1e-4, quantity);
                    near(high, row.text("upper95").parse().unwrap(), 1e-4, quantity);
                }
            }
        }
    }
}

#[test]
fn turnbulls_masses_are_the_published_ones() {
    let table = rows("survival-results.csv");
    let masses = turnbull(&data());
    let expected: Vec<_> =
        table.iter().filter(|row| row.text("model") == "turnbull" && row.text("quantity") != "loglik").collect();
    assert_eq!(masses.len(), expected.len(), "{masses:?}");
    for (mass, row) in masses.iter().zip(expected) {
        assert_eq!(format!("({},{}]", mass.after, mass.up_to), row.text("quantity"));
        let value: f64 = row.text("value").parse().unwrap();
        assert!((mass.share - value).abs() < 1e-6, "{}: {} for {value}", row.text("quantity"), mass.share);
    }
}

fn observed(written: &str) -> Vec<Observation> {
    let one = |text: &str| match text.strip_prefix('=') {
        Some(day) => Observation::exactly(day.parse().unwrap()),
        None => {
            let (low, high) = text.trim_matches(['(', ']']).split_once(',').unwrap();
            let high = if high == "inf" { f64::INFINITY } else { high.parse().unwrap() };
            Observation::between(low.parse().unwrap(), high)
        }
    };
    written.split(';').filter(|text| *text != "none").map(one).collect()
}

#[test]
fn a_few_lots_move_what_was_expected_as_far_as_they_should() {
    for row in rows("learning-grid.csv") {
        let n = |key: &str| row.text(key).parse::<f64>().unwrap();
        let prior = Prior { median: n("prior_t0_days"), tau: n("prior_tau"), s: n("prior_s0"), of_s: n("prior_ts") };
        let learned = learn(prior, &observed(row.text("data_days")));
        let set = row.text("set");
        for (share, key) in
            [(0.05, "q05_days"), (0.1, "q10_days"), (0.25, "q25_days"), (0.5, "q50_days"), (0.95, "q95_days")]
        {
            let (found, expected) = (learned.quantile(share), n(key));
            // the file's grid is four times finer: 1e-4 days apart by its own remark
            assert!((found - expected).abs() < 3e-4 * expected.max(1.0), "{set} {key}: {found} for {expected}");
        }
        for (probability, key) in [(0.1, "t10_lb10_days"), (0.2, "t10_lb20_days")] {
            assert!((learned.lower_bound(0.1, probability) - n(key)).abs() < 0.03, "{set} {key}");
        }
        assert!((learned.m.0 - n("post_mean_m")).abs() < 1e-4 && (learned.m.1 - n("post_sd_m")).abs() < 1e-4, "{set}");
        assert!((learned.s - n("post_mean_s")).abs() < 1e-4, "{set}: {}", learned.s);
        assert!((learned.log_evidence - n("log_evidence")).abs() < 1e-4, "{set}: {}", learned.log_evidence);
    }
}

#[test]
fn exact_lots_agree_with_the_closed_form() {
    for row in rows("learning-exact.csv") {
        let days: Vec<f64> = row.text("times_days").split(';').filter_map(|t| t.parse().ok()).collect();
        let keys = ["q05_days", "q10_days", "q25_days", "q50_days", "q95_days"];
        let found = exact_lots(28.0, &days, &[0.05, 0.1, 0.25, 0.5, 0.95]);
        for (found, key) in found.iter().zip(keys) {
            near(*found, row.text(key).parse().unwrap(), 1e-5, &format!("{} {key}", row.text("set")));
        }
    }
}

#[test]
fn nothing_seen_is_nothing_learned() {
    let none = learn(Prior::of_model(28.0), &[]);
    near(none.quantile(0.5), 28.0, 1e-6, "the median of the prior");
    // of the prior 7e-6 lies beyond 4.5 deviations, where the grid ends
    assert!(none.log_evidence.abs() < 1e-5);
    assert!(fit(Law::Weibull, &[Observation::fine_to(28.0), Observation::fine_to(30.0)]).is_none());
    // ten lots finished while good lengthen what is expected, and say nothing beyond the day they were looked at
    let good = learn(Prior::of_model(28.0), &[Observation::fine_to(28.0); 10]);
    assert!(good.quantile(0.1) > none.quantile(0.1));
}
