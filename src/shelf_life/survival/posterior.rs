//! What a few lots teach beside what a model expects: ln T of a lot is normal about m with s; a prior on m from the model of
//! this product, one on ln s from how lots differ; the posterior by a grid, which takes exact, interval and right-censored
//! looks alike.

use statrs::distribution::{Continuous, ContinuousCDF, StudentsT};

use super::{Observation, between, normal};

/// What is expected before any lot is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// The median life, days.
    pub median: f64,
    /// How sure that is: the deviation of its logarithm.
    pub tau: f64,
    /// How lots differ: the usual deviation of the logarithm of their lives.
    pub s: f64,
    /// How sure that is: the deviation of its logarithm.
    pub of_s: f64,
}

impl Prior {
    /// A median of a model, and what is assumed of lots where nobody has seen any: 0.7 for the median, lots differ by 0.30,
    /// give or take 0.5 (assumed).
    pub fn of_model(median: f64) -> Self {
        Self { median, tau: 0.7, s: 0.3, of_s: 0.5 }
    }
}

/// What was learned.
#[derive(Clone, Debug, PartialEq)]
pub struct Learned {
    /// ln s and m where the posterior is highest: `(m, s)`.
    pub likeliest: (f64, f64),
    /// Mean and deviation of m.
    pub m: (f64, f64),
    /// Mean of s.
    pub s: f64,
    /// How well the lots fit what was expected: the logarithm of their probability under the prior.
    pub log_evidence: f64,
    /// Points of the grid with their weights.
    grid: Vec<(f64, f64, f64)>,
}

const OF_M: usize = 401;
const OF_S: usize = 201;
/// How far the grid reaches, in deviations of the prior.
const REACH_M: f64 = 6.0;
const REACH_S: f64 = 4.5;

/// The posterior after some looks; without any it is the prior.
pub fn learn(prior: Prior, observations: &[Observation]) -> Learned {
    let (m0, u0) = (prior.median.ln(), prior.s.ln());
    let along = |count: usize, place: usize, reach: f64| reach * (2.0 * place as f64 / (count - 1) as f64 - 1.0);
    let edge = |count: usize, place: usize| -> f64 { if place == 0 || place == count - 1 { 0.5 } else { 1.0 } };
    let mut grid = Vec::with_capacity(OF_M * OF_S);
    for a in 0..OF_M {
        let at_m = along(OF_M, a, REACH_M);
        for b in 0..OF_S {
            let at_s = along(OF_S, b, REACH_S);
            let (m, s) = (m0 + prior.tau * at_m, (u0 + prior.of_s * at_s).exp());
            let seen: f64 = observations.iter().map(|o| log_likelihood(m, s, *o)).sum();
            let expected = normal().ln_pdf(at_m) + normal().ln_pdf(at_s);
            grid.push((m, s, expected + seen + (edge(OF_M, a) * edge(OF_S, b)).ln()));
        }
    }
    let top = grid.iter().map(|(.., w)| *w).fold(f64::NEG_INFINITY, f64::max);
    let all: f64 = grid.iter().map(|(.., w)| (w - top).exp()).sum();
    let cell = (2.0 * REACH_M / (OF_M - 1) as f64) * (2.0 * REACH_S / (OF_S - 1) as f64);
    let log_evidence = top + (all * cell).ln();
    let likeliest = grid.iter().filter(|(.., w)| *w == top).map(|(m, s, _)| (*m, *s)).next().unwrap_or((m0, prior.s));
    for point in &mut grid {
        point.2 = (point.2 - top).exp() / all;
    }
    let mean = |of: fn(&(f64, f64, f64)) -> f64| grid.iter().map(|point| of(point) * point.2).sum::<f64>();
    let m = mean(|p| p.0);
    let spread = grid.iter().map(|p| (p.0 - m).powi(2) * p.2).sum::<f64>().sqrt();
    let s = mean(|p| p.1);
    // what weighs nothing is not looked at again
    grid.retain(|(.., w)| *w > 1e-14);
    Learned { likeliest, m: (m, spread), s, log_evidence, grid }
}

fn log_likelihood(m: f64, s: f64, o: Observation) -> f64 {
    let z = |t: f64| (t.ln() - m) / s;
    if o.is_exact() {
        return normal().ln_pdf(z(o.off_at)) - (s * o.off_at).ln();
    }
    between(z(o.fine_at), z(o.off_at)).ln()
}

impl Learned {
    /// The age by which a new lot is refused with this probability.
    pub fn quantile(&self, share: f64) -> f64 {
        bisected(self.m.0 - 12.0, self.m.0 + 12.0, |ln_t| self.refused_by(ln_t.exp()) - share).exp()
    }

    /// The probability that a new lot is refused by this age, days.
    pub fn refused_by(&self, days: f64) -> f64 {
        self.grid.iter().map(|(m, s, w)| w * normal().cdf((days.ln() - m) / s)).sum()
    }

    /// The age below which the share of lots refused is, with this probability, less than `of_lots`: a lower bound of a
    /// quantile.
    pub fn lower_bound(&self, of_lots: f64, probability: f64) -> f64 {
        let z = normal().inverse_cdf(of_lots);
        let mut all: Vec<(f64, f64)> = self.grid.iter().map(|(m, s, w)| (m + z * s, *w)).collect();
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut sum = 0.0;
        let reached = all.iter().find(|(_, w)| {
            sum += w;
            sum >= probability
        });
        reached.map_or(f64::NAN, |(ln_t, _)| ln_t.exp())
    }
}

fn bisected(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if f(middle) < 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

/// The same from exact days alone, without any grid (a normal law with an inverse gamma on its variance): quantiles of a new
/// lot, days. A cross-check; the reference prior has 0.2 lots, a = 2 and b = 0.18.
pub fn exact_lots(median: f64, days: &[f64], shares: &[f64]) -> Vec<f64> {
    let (mu0, k0, a0, b0) = (median.ln(), 0.2, 2.0, 0.18);
    let n = days.len() as f64;
    let logs: Vec<f64> = days.iter().map(|t| t.ln()).collect();
    let mean = if logs.is_empty() { mu0 } else { logs.iter().sum::<f64>() / n };
    let squares: f64 = logs.iter().map(|y| (y - mean).powi(2)).sum();
    let k = k0 + n;
    let mu = (k0 * mu0 + n * mean) / k;
    let a = a0 + n / 2.0;
    let b = b0 + squares / 2.0 + k0 * n * (mean - mu0).powi(2) / (2.0 * k);
    let scale = (b * (k + 1.0) / (a * k)).sqrt();
    let t = StudentsT::new(0.0, 1.0, 2.0 * a).ok();
    let quantile = |share: &f64| t.map_or(f64::NAN, |t| (mu + scale * t.inverse_cdf(*share)).exp());
    shares.iter().map(quantile).collect()
}
