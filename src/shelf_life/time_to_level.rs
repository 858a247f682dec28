//! From a growth rate to the time at which a count is reached: Baranyi & Roberts 1994.

/// A population before growth. Counts in log10 CFU/mL.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Population {
    /// The initial count.
    pub log10_n0: f64,
    /// The count at which growth ends.
    pub log10_nmax: f64,
    /// The work to be done before growth: `h0 = mu · lag`.
    pub h0: f64,
}

/// Hours until `log10_level` is reached at the rate `mu_per_h` (natural logarithm): the exact inverse of the curve below.
/// Infinite when nothing grows or the level lies at or above the end of growth; zero when it is reached at the start.
///
/// With `D = ln(level/N0)`, `M = ln(Nmax/N0)`: `X = e^D (1-e^-M)/(1-e^(D-M))`, `t = [h0 + ln(X - 1 + e^-h0)]/mu`.
/// Without the end of growth it would be `(h0 + D)/mu`: 0.1 % short when Nmax is 100 times the level.
pub fn hours_to_level(mu_per_h: f64, population: Population, log10_level: f64) -> f64 {
    let Population { log10_n0, log10_nmax, h0 } = population;
    let d = (log10_level - log10_n0) * std::f64::consts::LN_10;
    let m = (log10_nmax - log10_n0) * std::f64::consts::LN_10;
    if d <= 0.0 {
        return 0.0;
    }
    if mu_per_h <= 0.0 || d >= m {
        return f64::INFINITY;
    }
    let x = d.exp() * (1.0 - (-m).exp()) / (1.0 - (d - m).exp());
    (h0 + (x - 1.0 + (-h0).exp()).ln()) / mu_per_h
}

/// The count after `t_h` hours, log10: the forward curve.
///
/// `ln N = ln N0 + mu A - ln(1 + (e^(mu A) - 1)/e^M)`, `A = t + ln(e^(-mu t) + e^-h0 - e^(-mu t - h0))/mu`.
pub fn log10_count(mu_per_h: f64, population: Population, t_h: f64) -> f64 {
    let Population { log10_n0, log10_nmax, h0 } = population;
    if mu_per_h <= 0.0 {
        return log10_n0;
    }
    let m = (log10_nmax - log10_n0) * std::f64::consts::LN_10;
    let mt = mu_per_h * t_h;
    // mu·A with e^(-mu t) taken out of the logarithm, so that it cannot underflow
    if mt - h0 - m > 500.0 {
        return log10_nmax;
    }
    let grown = (1.0 + (mt - h0).exp() - (-h0).exp()).ln();
    log10_n0 + (grown - (1.0 + (grown - m).exp() - (-m).exp()).ln()) / std::f64::consts::LN_10
}
