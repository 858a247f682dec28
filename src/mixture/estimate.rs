//! The result of an equation: the value, its stated error, and whether it was stretched.

use std::fmt;

/// A value with the standing error of the equation that gave it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate<Q> {
    /// The value.
    pub value: Q,
    /// The stated error of the equation (one sided, in the unit of the value).
    pub error: Q,
    /// Why the value is an extrapolation or a guess, if it is one.
    pub extrapolated: Option<&'static str>,
}

impl<Q> Estimate<Q> {
    /// A value inside the range of its equation.
    pub(crate) fn new(value: Q, error: Q) -> Self {
        Self { value, error, extrapolated: None }
    }

    /// A value outside the range in which its equation was checked.
    pub(crate) fn extrapolated(value: Q, error: Q, why: &'static str) -> Self {
        Self { value, error, extrapolated: Some(why) }
    }
}

/// No value can be given: the equation does not reach that far.
#[derive(Clone, Debug, PartialEq)]
pub struct OutOfRange {
    /// Which property.
    pub property: &'static str,
    /// What was asked for and what the range is, in words.
    pub why: String,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.property, self.why)
    }
}

impl std::error::Error for OutOfRange {}
