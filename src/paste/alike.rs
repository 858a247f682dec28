//! Whether two amounts are one size.

use crate::spelling::fold;
use crate::units::{Literal, in_grams, in_millilitres};

use super::names::Names;

/// Two sizes are one where they differ by no more than this share (ours: a cup is written as 240 and as 237 ml).
const SAME: f64 = 0.02;

/// Whether two numbers are one size.
pub(super) fn near(one: f64, other: f64) -> bool {
    (one / other - 1.0).abs() < SAME
}

/// Whether two amounts are one size, in whatever unit.
pub(super) fn alike(one: &str, other: &str, names: Names<'_>) -> bool {
    match (names.reads(one), names.reads(other)) {
        (Ok(Literal::Mass(a)), Ok(Literal::Mass(b))) => near(in_grams(a), in_grams(b)),
        (Ok(Literal::Volume(a)), Ok(Literal::Volume(b))) => near(in_millilitres(a), in_millilitres(b)),
        (Ok(a), Ok(b)) => a == b,
        _ => fold(one) == fold(other),
    }
}
