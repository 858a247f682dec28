//! What is said of a property beside its number.

use super::{Equation, Properties, TargetKind};

/// One property: what stands behind it and how it is shown.
pub(crate) struct Property {
    pub equation: Equation,
    /// Its number among those of a liquid.
    pub value: fn(&Properties) -> Option<f64>,
    /// The unit as printed beside the number.
    pub unit: &'static str,
    pub decimals: usize,
    /// Its line on a sheet; without one only programs read it.
    pub line: Option<PropertyLine>,
    /// What a card calls it that aims at it.
    pub target: Option<TargetKind>,
    /// How its uncertainty is counted, where it has one.
    pub headline: Option<Headline>,
}

/// A line of a sheet: label, number, what follows it.
pub(crate) struct PropertyLine {
    /// What it is called there.
    pub label: &'static str,
    /// A number below this is not shown.
    pub least: f64,
    pub before: &'static str,
    /// Stands after the number and its uncertainty.
    pub after: &'static str,
    /// What else there is to say of it.
    pub remark: fn(&Properties) -> String,
    /// Whether it is said that the number is not known.
    pub said_unknown: fn(&Properties) -> bool,
}

impl Property {
    /// What it is called on a sheet.
    pub(crate) fn label(&self) -> &'static str {
        self.line.as_ref().map_or(self.equation.name, |line| line.label)
    }
}

impl PropertyLine {
    pub(super) const fn new(label: &'static str) -> Self {
        Self {
            label,
            least: f64::NEG_INFINITY,
            before: "",
            after: "",
            remark: |_| String::new(),
            said_unknown: |_| false,
        }
    }
}

#[derive(Debug)]
/// A number that carries an uncertainty: an amount of something in a whole.
pub struct Headline {
    /// What is counted, with its unit.
    pub counts: &'static str,
    /// Whether the whole is a mass; else it is a volume at 20 °C.
    pub in_mass: bool,
    /// Half-width at 95 % of the equations themselves from known masses, by the value.
    pub error: fn(f64) -> f64,
}
