//! Numbers as they are printed.

use stillroom::units::display::{grouped, percent_text, rounded_to_uncertainty, short, temperature_text, volume_text};
use stillroom::units::{celsius, millilitres};

#[test]
fn thousands_have_commas_and_zero_has_no_sign() {
    for (n, decimals, text) in [
        (0.0, 0, "0"),
        (-0.0, 1, "0.0"),
        (-0.04, 1, "0.0"),
        (-0.06, 1, "-0.1"),
        (999.5, 0, "1,000"),
        (1306.7, 0, "1,307"),
        (-1234567.89, 1, "-1,234,567.9"),
        (123.0, 2, "123.00"),
        (f64::NAN, 1, "unknown"),
        (f64::NEG_INFINITY, 1, "unknown"),
    ] {
        assert_eq!(grouped(n, decimals), text);
    }
}

#[test]
fn a_volume_is_in_litres_from_one_litre() {
    for (ml, text) in [
        (1500.2, "1.50 L"),
        (871.0, "871 ml"),
        (3.2, "3.2 ml"),
        (99.97, "100 ml"),
        (999.7, "1.00 L"),
        (0.9, "0.90 ml"),
        (0.05, "0.05 ml"),
        (0.0, "0.0 ml"),
        (1_234_500.0, "1,234.50 L"),
        (f64::NAN, "unknown"),
    ] {
        assert_eq!(volume_text(millilitres(ml)), text, "{ml}");
    }
}

#[test]
fn decimals_are_those_that_the_doubt_allows() {
    for (value, uncertainty, text) in [
        (64.03, 0.6, "64.0"),
        (64.03, 0.06, "64.03"),
        (1310.52, 2.0, "1,311"),
        (1310.52, 20.0, "1,311"),
        (18.04, 0.0, "18.04"),
        (18.04, f64::NAN, "18.04"),
        (-0.001, 0.1, "0.0"),
        (f64::NAN, 0.1, "unknown"),
        (18.04, f64::INFINITY, "18"),
    ] {
        assert_eq!(rounded_to_uncertainty(value, uncertainty), text, "{value} ± {uncertainty}");
    }
}

#[test]
fn temperatures_and_percentages() {
    assert_eq!(temperature_text(celsius(4.0)), "4 °C");
    assert_eq!(temperature_text(celsius(20.46)), "20.5 °C");
    assert_eq!(temperature_text(celsius(-0.01)), "0 °C");
    assert_eq!(temperature_text(celsius(f64::NAN)), "unknown");
    assert_eq!(percent_text(0.03), "3 %");
    assert_eq!(percent_text(0.125), "12.5 %");
    assert_eq!(percent_text(-0.00001), "0 %");
    assert_eq!(percent_text(f64::NAN), "unknown");
}

#[test]
fn short_numbers_keep_three_digits() {
    for (n, text) in
        [(22.18, "22.2"), (0.9, "0.9"), (751.17, "751"), (3785.4, "3,785"), (5.0, "5"), (0.0, "0"), (1200.0, "1,200")]
    {
        assert_eq!(short(n), text);
    }
}
