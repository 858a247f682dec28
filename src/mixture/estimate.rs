//! The result of an equation: the value, its stated error, and whether it was stretched.

use std::fmt;
use std::ops::RangeInclusive;

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

    /// The same in another unit or as another quantity that is proportional to it.
    pub(crate) fn map<R>(self, get: impl Fn(Q) -> R) -> Estimate<R> {
        Estimate { value: get(self.value), error: get(self.error), extrapolated: self.extrapolated }
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

impl OutOfRange {
    pub(crate) fn new(property: &'static str, why: impl Into<String>) -> Self {
        Self { property, why: why.into() }
    }

    /// Whether a property is known at a temperature, °C.
    pub(crate) fn check_celsius(property: &'static str, known: RangeInclusive<f64>, t_c: f64) -> Result<(), Self> {
        if known.contains(&t_c) {
            return Ok(());
        }
        let (lowest, highest) = known.into_inner();
        Err(Self::new(property, format!("known from {lowest} to {highest} °C; {t_c:.1} °C was asked for")))
    }
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.property, self.why)
    }
}

impl std::error::Error for OutOfRange {}
