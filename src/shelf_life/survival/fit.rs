//! A law of refusal by likelihood.

use super::{Observation, between, normal};
use statrs::distribution::{Continuous, ContinuousCDF};

/// The law.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Law {
    /// S(t) = exp(-(t/a)^b); the parameters are ln a and ln b.
    Weibull,
    /// S(t) = 1 - Phi((ln t - m)/s); the parameters are m and ln s.
    Lognormal,
}

/// The likeliest parameters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The law.
    pub law: Law,
    /// ln a and ln b, or m and ln s.
    pub parameters: [f64; 2],
    /// The logarithm of the likelihood there.
    pub log_likelihood: f64,
    /// Their covariance, by the inverse Hessian.
    pub covariance: [[f64; 2]; 2],
}

impl Law {
    fn log_likelihood(self, p: [f64; 2], observations: &[Observation]) -> f64 {
        observations.iter().map(|o| self.of_one(p, *o)).sum()
    }

    fn of_one(self, [first, second]: [f64; 2], o: Observation) -> f64 {
        match self {
            Self::Weibull => {
                let shape = second.exp();
                // (t/a)^b
                let hazard = |t: f64| if t <= 0.0 { 0.0 } else { (shape * (t.ln() - first)).exp() };
                if o.is_exact() {
                    let h = hazard(o.off_at);
                    return (shape * h / o.off_at).ln() - h;
                }
                let (low, high) =
                    (hazard(o.fine_at), if o.off_at.is_finite() { hazard(o.off_at) } else { f64::INFINITY });
                // ln(exp(-low) - exp(-high)), without loss where both are large
                -low + (-(low - high).exp_m1()).ln()
            }
            Self::Lognormal => {
                let s = second.exp();
                let z = |t: f64| (t.ln() - first) / s;
                if o.is_exact() {
                    return normal().ln_pdf(z(o.off_at)) - (s * o.off_at).ln();
                }
                between(z(o.fine_at), z(o.off_at)).ln()
            }
        }
    }
}

/// The likeliest parameters; `None` where the observations do not tell them (nothing was refused, or no two differ).
pub fn fit(law: Law, observations: &[Observation]) -> Option<Fit> {
    let seen: Vec<f64> = observations.iter().filter(|o| o.off_at.is_finite()).map(|o| o.off_at.max(1e-9)).collect();
    if seen.is_empty() || observations.len() < 2 {
        return None;
    }
    let mean = seen.iter().map(|t| t.ln()).sum::<f64>() / seen.len() as f64;
    let value = |p: [f64; 2]| law.log_likelihood(p, observations);
    let mut at = [mean, 0.0];
    let mut best = value(at);
    // Newton with a damped step: the likelihood of two parameters is smooth, and steps that make it worse are halved.
    for _ in 0..200 {
        let (gradient, hessian) = slopes(&value, at);
        let step = newton(gradient, hessian);
        let mut share = 1.0;
        let better = loop {
            let to = [at[0] + share * step[0], at[1] + share * step[1]];
            let there = value(to);
            if there.is_finite() && there >= best {
                break Some((to, there));
            }
            share /= 2.0;
            if share < 1e-10 {
                break None;
            }
        };
        let Some((to, there)) = better else { break };
        let moved = (to[0] - at[0]).abs().max((to[1] - at[1]).abs());
        (at, best) = (to, there);
        if moved < 1e-11 {
            break;
        }
    }
    let (_, hessian) = slopes(&value, at);
    let covariance = inverse([[-hessian[0][0], -hessian[0][1]], [-hessian[1][0], -hessian[1][1]]])?;
    let is_found =
        at.iter().all(|p| p.is_finite() && p.abs() < 50.0) && covariance[0][0] > 0.0 && covariance[1][1] > 0.0;
    is_found.then_some(Fit { law, parameters: at, log_likelihood: best, covariance })
}

/// Gradient and Hessian by central differences.
fn slopes(value: &impl Fn([f64; 2]) -> f64, at: [f64; 2]) -> ([f64; 2], [[f64; 2]; 2]) {
    const H: f64 = 1e-4;
    let v = |a: f64, b: f64| value([at[0] + a * H, at[1] + b * H]);
    let here = v(0.0, 0.0);
    let gradient = [(v(1.0, 0.0) - v(-1.0, 0.0)) / (2.0 * H), (v(0.0, 1.0) - v(0.0, -1.0)) / (2.0 * H)];
    let cross = (v(1.0, 1.0) - v(1.0, -1.0) - v(-1.0, 1.0) + v(-1.0, -1.0)) / (4.0 * H * H);
    let first = (v(1.0, 0.0) - 2.0 * here + v(-1.0, 0.0)) / (H * H);
    let second = (v(0.0, 1.0) - 2.0 * here + v(0.0, -1.0)) / (H * H);
    (gradient, [[first, cross], [cross, second]])
}

/// The Newton step uphill; along the gradient where the surface is not a hill there.
fn newton(g: [f64; 2], h: [[f64; 2]; 2]) -> [f64; 2] {
    let is_hill = h[0][0] < 0.0 && h[0][0] * h[1][1] - h[0][1] * h[1][0] > 0.0;
    match inverse(h).filter(|_| is_hill) {
        Some(i) => [-(i[0][0] * g[0] + i[0][1] * g[1]), -(i[1][0] * g[0] + i[1][1] * g[1])],
        None => {
            let long = g[0].hypot(g[1]).max(1e-12);
            [0.5 * g[0] / long, 0.5 * g[1] / long]
        }
    }
}

fn inverse(m: [[f64; 2]; 2]) -> Option<[[f64; 2]; 2]> {
    let determinant = m[0][0] * m[1][1] - m[0][1] * m[1][0];
    (determinant != 0.0)
        .then(|| [[m[1][1] / determinant, -m[0][1] / determinant], [-m[1][0] / determinant, m[0][0] / determinant]])
}

impl Fit {
    /// The age by which a share of lots is refused, with its 95 % limits by the delta method on the logarithm.
    pub fn quantile(&self, share: f64) -> [f64; 3] {
        let [first, second] = self.parameters;
        let (ln_t, slope) = match self.law {
            Law::Weibull => {
                let k = (-(-share).ln_1p()).ln();
                (first + k * (-second).exp(), [1.0, -k * (-second).exp()])
            }
            Law::Lognormal => {
                let z = normal().inverse_cdf(share);
                (first + z * second.exp(), [1.0, z * second.exp()])
            }
        };
        let c = self.covariance;
        let variance =
            slope[0] * slope[0] * c[0][0] + 2.0 * slope[0] * slope[1] * c[0][1] + slope[1] * slope[1] * c[1][1];
        let by = normal().inverse_cdf(0.975) * variance.max(0.0).sqrt();
        [ln_t.exp(), (ln_t - by).exp(), (ln_t + by).exp()]
    }
}
