//! One number of one card with all that stands behind it: value, doubt, budget, equation.

use crate::card::TargetKind;
use crate::house::Instruments;
use crate::mixture::equations::EQUATIONS;
use crate::properties::{Equation, methods};
use crate::solver::Solved;
use crate::solver::balance::{amount_for, value_of};
use crate::solver::card::volume_ml;

use super::{Better, Doubt, better, find, of};

/// A number and where it comes from.
#[derive(Clone, Debug)]
pub struct Budget {
    /// The product.
    pub formula: String,
    /// °Bx, % vol or g/L at 20 °C.
    pub value: f64,
    /// What is counted: grams of solids, sugars or acid, millilitres of pure alcohol.
    pub amount: f64,
    /// What it is in: grams for Brix, else millilitres at 20 °C.
    pub whole: f64,
    /// How sure it is, and why.
    pub doubt: Doubt,
    /// What a better measurement would make of it.
    pub better: Option<Better>,
    /// What it is computed by.
    pub equation: Option<&'static Equation>,
}

impl Budget {
    /// Of one of the headline numbers; `None` where the product has nothing of it.
    pub fn of(solved: &Solved, instruments: &Instruments, kind: TargetKind) -> Option<Self> {
        let doubt = find(&of(solved, instruments), kind)?.clone();
        let bottled = solved.bottled();
        let whole = match kind {
            TargetKind::Brix => bottled.total_grams(),
            _ => volume_ml(bottled)?,
        };
        Some(Self {
            formula: solved.name.clone(),
            value: value_of(kind, bottled)?,
            amount: amount_for(kind, bottled),
            whole,
            better: better(solved, instruments, &doubt),
            doubt,
            equation: equation(kind),
        })
    }
}

fn equation(kind: TargetKind) -> Option<&'static Equation> {
    let name = match kind {
        TargetKind::Acid => "titratable acidity",
        other => other.key(),
    };
    EQUATIONS.iter().chain(methods()).find(|e| e.name == name)
}
