//! Sensory shelf life by survival analysis: at what age lots are refused, from looks that only say "fine then" and "off by
//! then". Pure functions of observations.
//!
//! Interval censoring, Weibull and lognormal by likelihood, Turnbull's estimate: Hough, Langohr, Gomez and Curia, J Food Sci
//! 68(1):359 (2003). Few lots beside what a model expects: a posterior on a grid.

mod fit;
mod posterior;
mod turnbull;

use statrs::distribution::{ContinuousCDF, Normal};

pub use fit::{Fit, Law, fit};
pub use posterior::{Learned, Prior, exact_lots, learn};
pub use turnbull::{RefusedShare, turnbull};

/// When a lot was refused, as far as anybody saw: not yet at `fine_at`, at the latest at `off_at`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observation {
    /// The age at which it was last found fine; 0 where it was off at the first look.
    pub fine_at: f64,
    /// The age at which it was found off; infinite where it never was; the same as `fine_at` where the very day is known.
    pub off_at: f64,
}

impl Observation {
    /// Off on the very day.
    pub fn exactly(at: f64) -> Self {
        Self { fine_at: at, off_at: at }
    }

    /// Between two looks.
    pub fn between(fine_at: f64, off_at: f64) -> Self {
        Self { fine_at, off_at }
    }

    /// Fine when it was last looked at, or finished while it was good.
    pub fn fine_to(at: f64) -> Self {
        Self { fine_at: at, off_at: f64::INFINITY }
    }

    pub(crate) fn is_exact(self) -> bool {
        self.fine_at == self.off_at
    }
}

/// The standard normal distribution.
fn normal() -> Normal {
    Normal::standard()
}

/// The probability of a standard normal value between two, without loss in either tail.
fn between(low: f64, high: f64) -> f64 {
    let normal = normal();
    if low > 0.0 { normal.sf(low) - normal.sf(high) } else { normal.cdf(high) - normal.cdf(low) }
}
