//! The one root finder: a bracketed root, which cannot run away and needs no starting guess.

use std::convert::Infallible;

/// No root can be given: the function has the same sign at both ends, or is not a number somewhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NotBracketed {
    /// The lower end.
    pub lo: f64,
    /// The function there.
    pub at_lo: f64,
    /// The upper end.
    pub hi: f64,
    /// The function there.
    pub at_hi: f64,
}

/// Why [`try_bracketed`] found no root.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum NoRoot<E> {
    /// The ends have the same sign, or the function is not a number somewhere.
    NotBracketed(NotBracketed),
    /// The function could not be evaluated.
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
/// As [`bracketed`], and where the function fails.
pub(crate) fn try_bracketed<E>(
    mut f: impl FnMut(f64) -> Result<f64, E>,
    lo: f64,
    hi: f64,
    tolerance: f64,
) -> Result<f64, NoRoot<E>> {
    const MOST_STEPS: usize = 200;
    let mut f = |x| f(x).map_err(NoRoot::Stopped);
    let (mut a, mut fa) = (lo, f(lo)?);
    let (mut b, mut fb) = (hi, f(hi)?);
    let refusal = |at_lo, at_hi| NoRoot::NotBracketed(NotBracketed { lo, at_lo, hi, at_hi });
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_roots_in_few_evaluations() {
        let mut count = 0;
        let root = bracketed(
            |x| {
                count += 1;
                x * x * x - 2.0
            },
            0.0,
            10.0,
            1e-12,
        );
        assert!((root.unwrap() - 2f64.cbrt()).abs() < 1e-12);
        assert!(count < 20, "{count}");
    }

    #[test]
    fn takes_a_root_at_an_end_and_a_step() {
        assert_eq!(bracketed(|x| x, 0.0, 1.0, 1e-9), Ok(0.0));
        assert_eq!(bracketed(|x| x - 1.0, 0.0, 1.0, 1e-9), Ok(1.0));
        let step = bracketed(|x| if x < 0.3 { -1.0 } else { 1.0 }, 0.0, 1.0, 1e-9).unwrap();
        assert!((step - 0.3).abs() < 1e-8);
    }

    #[test]
    fn a_failure_of_the_function_ends_the_search() {
        let mut asked = 0;
        let stopped = try_bracketed(
            |x| {
                asked += 1;
                if x > 0.2 && x < 0.9 { Err("no value here") } else { Ok(x - 0.5) }
            },
            0.0,
            1.0,
            1e-9,
        );
        assert_eq!((stopped, asked), (Err(NoRoot::Stopped("no value here")), 3));
    }

    #[test]
    fn refuses_what_is_not_bracketed_or_not_a_number() {
        assert!(bracketed(|x| x + 1.0, 0.0, 1.0, 1e-9).is_err());
        assert!(bracketed(|_| f64::NAN, 0.0, 1.0, 1e-9).is_err());
        assert!(bracketed(|x| if x == 0.5 { f64::NAN } else { x - 0.6 }, 0.0, 1.0, 1e-9).is_err());
    }
}
