//! Quality decay against its tables and the published worked numbers.

use stillroom::shelf_life::decay;

use super::table::{assert_close, rows};

const KCAL: f64 = 4184.0;

#[test]
fn every_row_of_q10_from_ea() {
    for row in rows("shelf-q10-from-ea.csv") {
        let (ea, t) = (row.number("ea_kj_per_mol") * 1000.0, row.number("t_low_c"));
        assert_close(decay::q10(ea, t), row.number("q10"), 5.1e-7, &format!("{ea} at {t}"));
        assert_close(decay::ea_from_q10(decay::q10(ea, t), t), ea, 1e-6, "and back");
    }
}

/// The figure that the table prints for an attribute in a matrix.
fn printed(attribute: &str, matrix: &str, source: &str, column: &str) -> f64 {
    let rows = rows("shelf-kinetics-published.csv");
    let row = rows.iter().find(|r| {
        r.text("attribute") == attribute && r.text("matrix") == matrix && r.text("source").starts_with(source)
    });
    row.unwrap_or_else(|| panic!("{attribute} in {matrix}")).number(column)
}

#[test]
fn published_kinetics_follow_from_their_own_readings() {
    // Zhang et al. 2016: k 0.0460 at 5 °C and 0.2617 /d at 37 °C in juice, 0.0396 and 0.3573 in the fruit
    let ea = decay::ea_from_two(0.046, 5.0, 0.2617, 37.0) / 1000.0;
    assert_close(ea, printed("ascorbic acid", "orange juice", "Zhang", "ea_kj_per_mol_low"), 0.005, "juice");
    let ea = decay::ea_from_two(0.0396, 5.0, 0.3573, 37.0) / 1000.0;
    assert_close(ea, printed("ascorbic acid", "orange (whole fruit)", "Zhang", "ea_kj_per_mol_low"), 0.005, "fruit");
    // Fellers 1988: 93 % retained in 14 d
    let k = decay::first_order_time(100.0, 93.0, 1.0) / 14.0;
    let expected = printed("ascorbic acid", "fresh citrus juice bottled 1.1 to 4.4 C", "Fellers", "k_value");
    assert_close(k, expected, 0.00005, "Fellers");
    // Robertson & Samaniego-Esguerra 1990: 95.7 % after 16 weeks
    let k = decay::first_order_time(100.0, 95.7, 1.0) / 112.0;
    assert_close(k, printed("ascorbic acid", "lemon juice 50 Brix, glass", "Robertson", "k_value"), 5e-7, "lemon");
    // Burdurlu et al. 2006, 8 weeks at 28 and 45 °C: 54.5 to 15.1 % and 83.7 to 20.0 %
    let k = |retained: f64| decay::first_order_time(100.0, retained, 1.0) / 56.0;
    assert_close(k(54.5), 0.010839, 5e-7, "k28");
    assert_close(k(15.1), 0.033758, 5e-7, "k45");
    assert_close(k(83.7), printed("ascorbic acid", "citrus concentrates", "Burdurlu", "k_value"), 5e-6, "k28 low");
    let ea = decay::ea_from_two(k(54.5), 28.0, k(15.1), 45.0);
    assert_close(ea / 1000.0, 53.2, 0.05, "kJ/mol");
    assert_close(ea / KCAL, 12.72, 0.005, "kcal/mol");
    assert_close(decay::ea_from_two(k(83.7), 28.0, k(20.0), 45.0) / KCAL, 24.66, 0.005, "upper pair");
    // Burdurlu's printed range 12.77-25.39 kcal/mol in the table's kJ/mol
    let (low, high) = ("ea_kj_per_mol_low", "ea_kj_per_mol_high");
    assert_close(12.77 * KCAL / 1000.0, printed("ascorbic acid", "citrus concentrates", "Burdurlu", low), 0.05, "low");
    assert_close(
        25.39 * KCAL / 1000.0,
        printed("ascorbic acid", "citrus concentrates", "Burdurlu", high),
        0.05,
        "high",
    );
    // Thuy et al. 2022: half-life 11.76 weeks
    let k = decay::first_order_time(2.0, 1.0, 1.0) / 11.76;
    let expected = printed("anthocyanin", "raspberry-pomegranate-banana nectar", "Thuy", "k_value");
    assert_close(k, expected, 0.00005, "nectar");
    // Antioxidants 2021 10:1337, Table 1: half-life 42.30 h at 50 °C
    let hours = decay::first_order_time(2.0, 1.0, 0.000273) / 60.0;
    assert_close(hours, 42.30, 0.05, "blueberry");
}

#[test]
fn extension_example_of_q10() {
    // 20 weeks at 20 °C and 10 weeks at 30 °C
    assert_close(decay::ea_from_q10(2.0, 20.0) / 1000.0, 51.2, 0.05, "Ea");
    // 70 °F from 100 °F: 16.67 K
    for (q10, times) in [(2.0, 3.17), (3.0, 6.24), (4.0, 10.1)] {
        let got = decay::time_by_q10(1.0, q10, 100.0 / 1.8, 70.0 / 1.8);
        assert_close(got, times, 0.05 * times / 10.0, "70 °F");
    }
    // dried fruit, 365 d at 60 °F and 180 d at 80 °F
    let q10 = (365.0f64 / 180.0).powf(10.0 / (26.7 - 15.6));
    assert_close(q10, 1.89, 0.005, "dried fruit");
    assert_close(decay::time_by_q10(365.0, q10, 15.6, 26.7), 180.0, 1e-9, "and back");
}

#[test]
fn orders() {
    assert_eq!(decay::zero_order(10.0, 0.5, 4.0), 8.0);
    assert_eq!(decay::zero_order_time(10.0, 8.0, 0.5), 4.0);
    let t = decay::first_order_time(10.0, 9.0, 0.0155);
    assert_close(decay::first_order(10.0, 0.0155, t), 9.0, 1e-12, "first order");
    assert_close(t, 6.7975, 5e-5, "vitamin C to 90 %");
}
