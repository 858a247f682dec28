//! The one root finder: a bracketed root, which cannot run away and needs no starting guess.

use std::convert::Infallible;

/// No root can be given: the function has the same sign at both ends, or is not a number somewhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NotBracketed {
    /// The function at the lower end.
    pub at_lo: f64,
    /// The function at the upper end.
    pub at_hi: f64,
}

/// Why the search of a function that may fail gives no root.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoRoot<E> {
    /// The ends have the same sign, or the function is not a number somewhere.
    NotBracketed(NotBracketed),
    /// The function failed with this.
    Stopped(E),
}

/// The place in `lo..=hi` where `f` changes sign, to within `tolerance` in the argument.
///
/// Chandrupatla's method (T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145): inverse
/// quadratic interpolation where it is safe, bisection where it is not. The root always stays between
/// two ends of different sign, so it ends for any continuous function; the number of steps is limited
/// all the same. A function that cannot be evaluated somewhere may return NaN there: that is an error.
///
/// # Errors
/// Where the ends do not have different signs, or the function is not a number somewhere.
pub fn bracketed(mut f: impl FnMut(f64) -> f64, lo: f64, hi: f64, tolerance: f64) -> Result<f64, NotBracketed> {
    try_bracketed(|x| Ok::<_, Infallible>(f(x)), lo, hi, tolerance).map_err(|why| match why {
        NoRoot::NotBracketed(why) => why,
        NoRoot::Stopped(never) => match never {},
    })
}

/// The same for a function that may fail: the first failure ends the search.
///
/// # Errors
/// The failure, or as [`bracketed`].
pub fn try_bracketed<E>(
    mut f: impl FnMut(f64) -> Result<f64, E>,
    lo: f64,
    hi: f64,
    tolerance: f64,
) -> Result<f64, NoRoot<E>> {
    const MOST_STEPS: usize = 200;
    let mut f = |x| f(x).map_err(NoRoot::Stopped);
    let (mut a, mut fa) = (lo, f(lo)?);
    let (mut b, mut fb) = (hi, f(hi)?);
    let refusal = |at_lo, at_hi| NoRoot::NotBracketed(NotBracketed { at_lo, at_hi });
    if fa == 0.0 {
        return Ok(a);
    }
    if fb == 0.0 {
        return Ok(b);
    }
    let opposite = (fa < 0.0 && fb > 0.0) || (fa > 0.0 && fb < 0.0);
    if !opposite {
        return Err(refusal(fa, fb));
    }
    // `a` is the newest point, `b` the end of the other sign, `c` the point before.
    let mut share = 0.5;
    for _ in 0..MOST_STEPS {
        let x = a + share * (b - a);
        let fx = f(x)?;
        if fx.is_nan() {
            return Err(refusal(fa, fb));
        }
        let (c, fc);
        if (fx > 0.0) == (fa > 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);

        let best = if fa.abs() < fb.abs() { a } else { b };
        let width = (b - a).abs();
        let smallest = tolerance.max(2.0 * f64::EPSILON * best.abs());
        if fx == 0.0 || width <= smallest {
            return Ok(best);
        }
        let xi = (a - b) / (c - b);
        let phi = (fa - fb) / (fc - fb);
        let interpolate = phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi;
        share = if interpolate {
            fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        } else {
            0.5
        };
        let margin = (0.5 * smallest / width).min(0.5);
        share = share.clamp(margin, 1.0 - margin);
    }
    Ok(if fa.abs() < fb.abs() { a } else { b })
}
