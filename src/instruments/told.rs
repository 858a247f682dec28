//! What readings tell, and how they are refused.

use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::acidity::Acid;
use crate::mixture::{Estimate, OutOfRange};
use crate::units::{Abv, Brix, MassDensity, Ph};

use super::readings::LiquidKind;

/// A pH with its edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhTold {
    /// What was shown.
    pub value: Ph,
    /// The lowest it may be.
    pub low: Ph,
    /// The highest it may be: this one counts against a limit.
    pub high: Ph,
    /// Whether it may be held against a limit at all.
    pub clears_limits: bool,
}

/// Titratable acid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AcidTold {
    /// As anhydrous citric acid.
    pub as_citric: Estimate<MassDensity>,
    /// The acid that was asked for.
    pub named: &'static Acid,
    /// As that acid.
    pub as_named: Estimate<MassDensity>,
    /// Where the titration was stopped.
    pub endpoint: Ph,
}

/// What the readings tell. The error of every estimate is a half-width at 95 %.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Told {
    /// What the liquid was taken for.
    pub kind: Option<LiquidKind>,
    /// True dissolved solids.
    pub brix: Option<Estimate<Brix>>,
    /// Strength at 20 °C.
    pub abv: Option<Estimate<Abv>>,
    /// US proof, of a spirit without sugar.
    pub proof: Option<f64>,
    /// Sugars for each volume at 20 °C.
    pub sugar: Option<Estimate<MassDensity>>,
    /// Density at 20 °C.
    pub density: Option<Estimate<MassDensity>>,
    /// Density as measured, at the temperature of the reading.
    pub measured_density: Option<Estimate<MassDensity>>,
    /// The Brix that the same reading means if all of the sugar is invert sugar.
    pub brix_if_invert: Option<Brix>,
    /// pH.
    pub ph: Option<PhTold>,
    /// Titratable acid.
    pub acid: Option<AcidTold>,
    /// Assumptions, cautions, refusals.
    pub diagnostics: Vec<Diagnostic>,
}

impl Told {
    pub(super) fn say(&mut self, diagnostic: Diagnostic) {
        self.diagnostics.push(diagnostic);
    }

    pub(super) fn assume(&mut self, what: impl Into<String>) {
        self.say(Diagnostic::note(Code::Assumed, what));
    }
}

pub(super) type Refused = Box<Diagnostic>;

pub(super) fn refuse<T>(code: Code, title: impl Into<String>, help: impl Into<String>) -> Result<T, Refused> {
    Err(Box::new(Diagnostic::error(code, title).help(help)))
}

pub(super) fn out_of_range(reason: &OutOfRange, help: &str) -> Refused {
    Box::new(Diagnostic::error(Code::OutOfRange, reason.to_string()).help(help))
}
