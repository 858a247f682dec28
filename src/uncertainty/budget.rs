//! One number of one card with all that stands behind it: value, uncertainty, budget, equation.

use crate::card::TargetKind;
use crate::house::Instruments;
use crate::properties::{Headline, amount_for, of_target, value_of};
use crate::solver::Solved;
use crate::solver::target::volume_ml;

use super::{Better, Uncertainty, better, find, of_headlines};

/// A number and where it comes from.
#[derive(Clone, Debug, serde::Serialize)]
pub(crate) struct Budget {
    /// °Bx, % vol or g/L at 20 °C.
    pub value: f64,
    /// What is counted, and in what.
    #[serde(skip)]
    pub headline: &'static Headline,
    /// How much of it: grams of solids, sugars or acid, millilitres of pure alcohol.
    pub amount: f64,
    /// What it is in: grams for Brix, else millilitres at 20 °C.
    pub whole: f64,
    /// How sure it is, and why.
    #[serde(rename = "doubt")]
    pub uncertainty: Uncertainty,
    /// What a better measurement would make of it.
    pub better: Option<Better>,
}

impl Budget {
    /// Of one of the headline numbers; `None` where the product has nothing of it.
    pub(crate) fn of_target(solved: &Solved, instruments: &Instruments, kind: TargetKind) -> Option<Self> {
        let uncertainty = find(&of_headlines(solved, instruments), kind)?.clone();
        let bottled = solved.bottled();
        let headline = of_target(kind).headline.as_ref()?;
        let whole = if headline.in_mass { bottled.total_grams() } else { volume_ml(bottled)? };
        Some(Self {
            value: value_of(kind, bottled)?,
            amount: amount_for(kind, bottled),
            headline,
            whole,
            better: better(solved, instruments, &uncertainty),
            uncertainty,
        })
    }
}
