//! Numbers as the bench reads them: used by everything that prints.

use super::{Temperature, Volume, degrees_celsius, in_millilitres};

pub(crate) const UNKNOWN: &str = "unknown";

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

/// "30 to 52", or one number where both are printed alike.
pub(crate) fn span(low: f64, high: f64, decimals: usize) -> String {
    let (low, high) = (grouped(low.min(high), decimals), grouped(low.max(high), decimals));
    if low == high { low } else { format!("{low} to {high}") }
}

/// Three significant digits, no zeros at the end ("22.2", "0.9", "1,200").
pub fn short(n: f64) -> String {
    without_end_zeros(&grouped(n, decimals_for(n.abs(), 3)))
}

/// The decimals that show so many significant digits; whole numbers are never rounded away.
fn decimals_for(n: f64, significant: i32) -> usize {
    if n > 0.0 && n.is_finite() { place(significant - 1 - n.log10().floor() as i32) } else { 0 }
}

fn place(decimals: i32) -> usize {
    usize::try_from(decimals.clamp(0, 9)).unwrap_or(0)
}

/// A volume: litres from 1 L up ("1.50 L"), below that millilitres ("871 ml", "3.2 ml").
pub fn volume_text(volume: Volume) -> String {
    let ml = in_millilitres(volume);
    match ml.abs() {
        _ if !ml.is_finite() => UNKNOWN.to_owned(),
        size if size >= 999.5 => format!("{} L", grouped(ml / 1000.0, 2)),
        size if size >= 99.95 => format!("{} ml", grouped(ml, 0)),
        size if size >= 0.95 || size == 0.0 => format!("{} ml", grouped(ml, 1)),
        _ => format!("{} ml", grouped(ml, 2)),
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
    to_a_tenth(degrees_celsius(temperature), "°C")
}

/// A fraction in percent, to a tenth, without a zero at the end: 0.03 is "3 %", 0.125 is "12.5 %".
pub fn percent_text(fraction: f64) -> String {
    to_a_tenth(fraction * 100.0, "%")
}

fn to_a_tenth(n: f64, unit: &str) -> String {
    if n.is_finite() { format!("{} {unit}", without_end_zeros(&grouped(n, 1))) } else { UNKNOWN.to_owned() }
}

/// A number that was read, as it can be written again: six significant digits, no thousands commas, no zeros at the end.
pub(crate) fn as_read(n: f64) -> String {
    let rounded = without_end_zeros(&format!("{n:.*}", decimals_for(n.abs(), 6)));
    // what is not zero is not shown as zero
    if n.is_finite() && (n == 0.0 || rounded.parse() != Ok(0.0)) { rounded } else { n.to_string() }
}

fn without_end_zeros(text: &str) -> String {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text.to_owned() }
}
