//! Of what properties are asked, and what could not be given of it.

use std::fmt::Display;

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::mixture::{Estimate, Mixture};
use crate::units::{Length, Temperature};

#[derive(Clone, Debug, Default)]
pub(crate) struct Acidity {
    /// The parts of which no acid is listed: only without such a part is it true that there is none.
    pub unknown: Vec<String>,
    /// A pH that was read of it, and the half-width of the meter: it beats what is computed.
    pub read: Option<(f64, f64)>,
}

/// A liquid at a temperature in a place, and what was found on the way.
pub(crate) struct Subject<'a> {
    pub(super) liquid: &'a Mixture,
    pub(super) at: Temperature,
    /// Of the house, above the sea.
    pub(super) altitude: Length,
    /// What else is known of its acid.
    pub(super) acidity: &'a Acidity,
    span: Span,
    pub(super) found: Vec<Diagnostic>,
}

impl<'a> Subject<'a> {
    /// Of a liquid of which the card speaks at `span`, in a house so high above the sea.
    pub(crate) fn new(
        liquid: &'a Mixture,
        at: Temperature,
        altitude: Length,
        acidity: &'a Acidity,
        span: Span,
    ) -> Self {
        Self { liquid, at, altitude, acidity, span, found: Vec::new() }
    }

    /// The value of an estimate; an extrapolated or refused one is reported.
    pub(super) fn value<Q, E: Display>(
        &mut self,
        name: &str,
        result: Result<Estimate<Q>, E>,
        get: impl Fn(Q) -> f64,
    ) -> Option<f64> {
        match result {
            Ok(estimate) => {
                if let Some(why) = estimate.extrapolated {
                    self.note(Code::PropertyExtrapolated, format!("{name} is stretched: {why}"));
                }
                Some(get(estimate.value)).filter(|v| v.is_finite())
            }
            Err(why) => self.refused(name, &why),
        }
    }

    pub(super) fn does_not_apply(&mut self, name: &str, why: &str) -> Option<f64> {
        self.found.push(Diagnostic::note(Code::DoesNotApply, format!("no {name} is given: {why}")));
        None
    }

    /// The value, or why there is none: every null of a report is accounted for.
    pub(super) fn or_said(&mut self, name: &str, value: Option<f64>, why: &str) -> Option<f64> {
        value.or_else(|| self.does_not_apply(name, why))
    }

    pub(super) fn refused(&mut self, name: &str, why: &dyn Display) -> Option<f64> {
        self.note(Code::PropertyUnknown, format!("no {name} is given: {why}"));
        None
    }

    fn note(&mut self, code: Code, title: String) {
        self.found.push(Diagnostic::note(code, title).at(self.span, "of this product"));
    }
}
