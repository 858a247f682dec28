//! Numbers as the bench reads them: used by everything that prints.

use super::{Mass, Temperature, Volume, degrees_celsius, in_grams, in_millilitres};

/// What stands in place of a number that there is not.
pub const UNKNOWN: &str = "unknown";

/// A number with thousands commas ("1,307"): never "-0", and "unknown" if it is not a number.
pub fn grouped(n: f64, decimals: usize) -> String {
    if !n.is_finite() {
        return UNKNOWN.to_owned();
    }
    let plain = format!("{:.decimals$}", n.abs());
    let (whole, rest) = plain.split_at(plain.find('.').unwrap_or(plain.len()));
    let mut text = String::new();
    if n < 0.0 && plain.bytes().any(|b| (b'1'..=b'9').contains(&b)) {
        text.push('-');
    }
    for (i, digit) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i) % 3 == 0 {
            text.push(',');
        }
        text.push(digit);
    }
    text + rest
}

/// Three significant digits, no zeros at the end ("22.2", "0.9", "1,200").
pub fn short(n: f64) -> String {
    without_end_zeros(&grouped(n, decimals_for(n.abs(), 3)))
}

/// The decimals that show so many significant digits; whole numbers are never rounded away.
fn decimals_for(n: f64, significant: i32) -> usize {
    if n > 0.0 && n.is_finite() { place(significant - 1 - n.log10().floor() as i32) } else { 0 }
}

/// A number of decimals that makes sense on paper.
fn place(decimals: i32) -> usize {
    usize::try_from(decimals.clamp(0, 9)).unwrap_or(0)
}

/// A mass in grams, on the scale's step ("1,307 g" on a 1 g scale, "12.1 g" on a 0.1 g scale).
/// A step that is no step (zero, negative, not a number) leaves the mass as it is, to 0.01 g.
pub fn mass_text(mass: Mass, step_g: f64) -> String {
    let g = in_grams(mass);
    if !g.is_finite() {
        return UNKNOWN.to_owned();
    }
    let (g, decimals) = if step_g.is_finite() && step_g > 0.0 {
        ((g / step_g).round() * step_g, decimals_of_step(step_g))
    } else {
        (g, 2)
    };
    format!("{} g", grouped(g, decimals))
}

/// The decimals that a step needs: 1 for 0.5, 2 for 0.25.
fn decimals_of_step(step: f64) -> usize {
    let is_whole = |n: f64| (n - n.round()).abs() < 1e-6 * n.abs().max(1e-3);
    (0..=6).find(|d| is_whole(step * 10f64.powi(*d))).map_or(6, place)
}

/// A volume: litres from 1 L up ("1.50 L"), below that millilitres ("871 ml", "3.2 ml").
pub fn volume_text(volume: Volume) -> String {
    let ml = in_millilitres(volume);
    let size = ml.abs();
    if !ml.is_finite() {
        UNKNOWN.to_owned()
    } else if size >= 999.5 {
        format!("{} L", grouped(ml / 1000.0, 2))
    } else if size >= 99.95 {
        format!("{} ml", grouped(ml, 0))
    } else if size >= 0.95 || size == 0.0 {
        format!("{} ml", grouped(ml, 1))
    } else {
        format!("{} ml", grouped(ml, 2))
    }
}

/// A value with as many decimals as its uncertainty allows: 64.03 ± 0.6 is "64.0", 1310.52 ± 2 is "1,311".
/// Without a uncertainty that says anything, two decimals.
pub fn rounded_to_uncertainty(value: f64, uncertainty: f64) -> String {
    let uncertainty = uncertainty.abs();
    let decimals = if uncertainty.is_finite() { decimals_for(uncertainty, 1) } else { 0 };
    grouped(value, if uncertainty == 0.0 || uncertainty.is_nan() { 2 } else { decimals })
}

/// A temperature to the degree if it is whole ("4 °C"), else to a tenth ("20.5 °C").
pub fn temperature_text(temperature: Temperature) -> String {
    let t = degrees_celsius(temperature);
    if !t.is_finite() {
        return UNKNOWN.to_owned();
    }
    format!("{} °C", without_end_zeros(&grouped(t, 1)))
}

/// A fraction in percent, to a tenth, without a zero at the end: 0.03 is "3 %", 0.125 is "12.5 %".
pub fn percent_text(fraction: f64) -> String {
    if !fraction.is_finite() {
        return UNKNOWN.to_owned();
    }
    format!("{} %", without_end_zeros(&grouped(fraction * 100.0, 1)))
}

fn without_end_zeros(text: &str) -> String {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{celsius, grams, millilitres};

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
    fn a_mass_stands_on_the_step_of_the_scale() {
        for (g, step, text) in [
            (1306.7, 1.0, "1,307 g"),
            (12.06, 0.1, "12.1 g"),
            (10.45, 0.01, "10.45 g"),
            (1306.7, 5.0, "1,305 g"),
            (3.3, 0.5, "3.5 g"),
            (3.3, 0.25, "3.25 g"),
            (-0.2, 1.0, "0 g"),
            (2.345, 0.0, "2.35 g"),
            (f64::NAN, 1.0, "unknown"),
        ] {
            assert_eq!(mass_text(grams(g), step), text, "{g} on {step}");
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
        for (n, text) in [
            (22.18, "22.2"),
            (0.9, "0.9"),
            (751.17, "751"),
            (3785.4, "3,785"),
            (5.0, "5"),
            (0.0, "0"),
            (1200.0, "1,200"),
        ] {
            assert_eq!(short(n), text);
        }
    }
}
