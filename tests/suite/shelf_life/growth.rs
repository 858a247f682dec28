//! Growth factors, the measured E. coli series, Baranyi's curve, and the median-parameter examples.

use stillroom::shelf_life::data::tables;
use stillroom::shelf_life::growth;
use stillroom::shelf_life::time_to_level::{Population, hours_to_level, log10_count};
use stillroom::shelf_life::{Asked, Authority, Contents, Draws, Filled, Product, verdicts};
use stillroom::units::celsius;

use super::table::{assert_close, rows};

#[test]
fn every_row_of_the_gamma_table() {
    for row in rows("shelf-gamma-check.csv") {
        let (p1, p2, p3) = (row.maybe("p1"), row.maybe("p2"), row.maybe("p3"));
        let (x, n) = (row.number("x"), row.maybe("n"));
        let got = match row.text("factor") {
            "gamma_T" => growth::ctmi(x, p1.unwrap(), p2.unwrap(), p3.unwrap()),
            "gamma_pH" => growth::cpm(x, p1.unwrap(), p2.unwrap(), p3.unwrap()),
            "gamma_aw" => growth::water_activity(x, p1.unwrap(), p2.unwrap()),
            "gamma_EtOH" => growth::ethanol(x, p3.unwrap(), n.unwrap()),
            other => panic!("{other}"),
        };
        assert_close(got, row.number("gamma"), 1e-7, &format!("{} {} {x}", row.text("factor"), row.text("organism")));
    }
}

#[test]
fn every_rate_of_the_e_coli_series() {
    for row in rows("shelf-ctmi-ecoli.csv") {
        let t = row.number("temperature_c");
        let mu = 1.811538 * growth::ctmi(t, 6.12679, 41.07631, 48.12113);
        // the fitted constants are printed to five decimals: half a digit of Tmin moves the coldest rate by 3e-6 of it
        assert_close(mu, row.number("mu_fit_per_h"), 2e-6, &format!("{t} °C"));
        assert_close(mu.sqrt(), row.number("sqrt_mu_fit_sqrt_per_h"), 1e-6, &format!("√ {t} °C"));
    }
}

#[test]
fn every_row_of_time_to_level() {
    for row in rows("shelf-time-to-level.csv") {
        let (mu, h0) = (row.number("mu_per_h"), row.number("h0_dimensionless"));
        let population =
            Population { log10_n0: row.number("log10_n0_cfu_ml"), log10_nmax: row.number("log10_nmax_cfu_ml"), h0 };
        let level = row.number("log10_ncrit_cfu_ml");
        let expected = row.number("t_exact_h");
        let got = hours_to_level(mu, population, level);
        assert_close(got, expected, 1e-6, "exact");
        // the short form is the safe side of it
        assert!(row.number("t_approx_h") < got);
        assert_close(log10_count(mu, population, got), level, 1e-9, "forward curve");
    }
}

#[test]
fn every_point_of_the_baranyi_curve() {
    let population = Population { log10_n0: 5.81275, log10_nmax: 8.77860, h0: 0.078128 * 49.37966 };
    for row in rows("shelf-baranyi-growthcurve4.csv") {
        let t = row.number("t_h");
        assert_close(log10_count(0.078128, population, t), row.number("log10_n_fit"), 1e-5, &format!("{t} h"));
    }
}

#[test]
fn curve_keeps_to_its_ends() {
    let population = Population { log10_n0: 1.0, log10_nmax: 7.5, h0: 3.0 };
    assert_eq!(log10_count(0.1, population, 0.0), 1.0);
    assert_eq!(log10_count(0.1, population, 1e6), 7.5);
    assert_eq!(hours_to_level(0.1, population, 0.5), 0.0);
    assert_eq!(hours_to_level(0.0, population, 5.5), f64::INFINITY);
    assert_eq!(hours_to_level(0.1, population, 7.5), f64::INFINITY);
}

/// The Brix of "65 Bx sucrose syrup, 5 C" or of "almond syrup 50 Bx pH 6.3".
fn syrup_brix(description: &str) -> Option<f64> {
    description.split_once(" Bx")?.0.rsplit(' ').next()?.parse().ok()
}

/// Water activity of sucrose in water as the head of the table says: Norrish, K = 6.47, M 342.30 and 18.015.
fn norrish(brix: f64) -> f64 {
    let (sucrose, water) = (brix / 342.30, (100.0 - brix) / 18.015);
    let x = sucrose / (sucrose + water);
    (1.0 - x) * (-6.47 * x * x).exp()
}

#[test]
fn every_median_example() {
    let table = &tables().organisms;
    let organisms = table.modelled();
    for row in rows("shelf-examples-deterministic.csv") {
        let o = organisms.iter().find(|o| o.code == row.text("organism")).unwrap();
        let (t, ph, printed_aw) = (row.number("temperature_c"), row.number("ph"), row.number("aw"));
        // The table was computed with more digits of a syrup's water activity than it prints.
        let aw = syrup_brix(row.text("description")).map_or(printed_aw, norrish);
        assert!((aw - printed_aw).abs() <= 0.5e-7, "{aw} {printed_aw}");
        let ethanol = row.number("ethanol_g_per_l");
        let what = format!("{} {}", row.text("case"), o.code);
        assert_close(growth::ctmi_for_a_date(t, o.t_min, o.t_opt, o.t_max), row.number("gamma_t"), 1e-8, &what);
        assert_close(
            growth::cpm_for_a_date(Some(ph), o.ph_min, o.ph_opt, o.ph_max),
            row.number("gamma_ph"),
            1e-8,
            &what,
        );
        assert_close(growth::water_activity(aw, o.aw_min, o.aw_opt), row.number("gamma_aw"), 1e-8, &what);
        assert_close(growth::ethanol(ethanol, o.ethanol_max, o.ethanol_n), row.number("gamma_etoh"), 1e-8, &what);

        let mu = o.rate_per_h(t, Some(ph), aw, ethanol);
        let population = Population {
            log10_n0: row.number("log10_n0_cfu_ml"),
            log10_nmax: table.model.log10_nmax,
            h0: row.number("h0"),
        };
        let days = hours_to_level(mu, population, table.model.log10_ncrit) / 24.0;
        let (mu_expected, days_expected) = (row.number("mu_per_h"), row.number("t_micro_days"));
        if days_expected.is_infinite() {
            assert_eq!(mu, 0.0, "{what}");
            assert!(days.is_infinite(), "{what}");
        } else {
            assert_close(mu / mu_expected, 1.0, 1e-6, &what);
            // days are printed to four decimals
            assert_close(days / days_expected, 1.0, 1e-6 + 0.5e-4 / days_expected, &what);
        }
    }
}

#[test]
fn a_date_takes_the_worst_of_an_unknown_or_high_ph_and_a_hot_store() {
    assert_eq!(growth::cpm_for_a_date(None, 2.0, 5.0, 8.5), 1.0);
    assert_eq!(growth::cpm_for_a_date(Some(9.0), 2.0, 5.0, 8.5), 1.0);
    assert!(growth::cpm(6.9, 2.0, 5.0, 8.5) < 0.69);
    assert_eq!(growth::ctmi_for_a_date(44.0, 4.0, 31.0, 40.0), 1.0);
}

#[test]
fn the_ethanol_factor_has_its_stated_ends() {
    assert_eq!(growth::ethanol(0.0, 87.5, 0.41), 1.0);
    assert_eq!(growth::ethanol(87.5, 87.5, 0.41), 0.0);
}

/// A share of 1 / (1 + 10^(4 - 4.76)) = 0.852 of acetic acid is undissociated at pH 4 (pKa 4.76), where S. cerevisiae was seen to grow to
/// 1.0 % and Z. bailii to 3.5 % of it (CORDIS 21322); of Z. rouxii nothing is known.
#[test]
fn acetic_acid_holds_back_what_it_is_known_to() {
    assert_close(growth::undissociated(4.0, 4.76), 0.852, 5e-4, "undissociated");
    assert_close(growth::weak_acid(0.426, 0.852), 0.5, 1e-12, "half way");
    assert_eq!((growth::weak_acid(0.0, 0.852), growth::weak_acid(2.0, 0.852)), (1.0, 0.0));
    let life = |acetic_pct: f64, nutrient: bool, sugar_g_l: f64| {
        let product = Product {
            sugar_g_l,
            brix: Some(2.0),
            aw: Some(0.99),
            ph_up: Some(3.6),
            acetic_pct,
            contents: Contents { plant: true, nutrient, ..Contents::default() },
            filled: Filled::ColdPlant,
            ..Product::default()
        };
        let asked = Asked { draws: Draws { draws: 2_000, ..Draws::default() }, lives: true };
        let found = &verdicts(&product, &[celsius(4.0)], &Authority::default(), asked)[0];
        found.growth.clone().and_then(|growth| growth.q10_days).unwrap()
    };
    // in the cold, where S. cerevisiae is first, it takes longer, and no longer than Z. rouxii lets it
    let (none, some, much) = (life(0.0, false, 15.0), life(0.5, false, 15.0), life(4.0, false, 15.0));
    assert!(some > 1.1 * none && much > some && much.is_finite(), "{none:.0} {some:.0} {much:.0}");
    assert_close(life(4.0, false, 15.0), life(8.0, false, 15.0), 1e-9, "Z. rouxii");
}
