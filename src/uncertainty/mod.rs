//! How sure each headline number is, and what spoils it most.
//!
//! Every input has a half-width at 95 % ([`spread`]): what the scale tells, what a cup holds, what a
//! label may say, what an ingredient is made of. Each is moved by its half-width, both ways, the card
//! is run forward again, and half the difference is its contribution. Contributions of independent
//! inputs add as squares (JCGM 100:2008, the guide to the expression of uncertainty in measurement,
//! first order). One ingredient is one input wherever it stands on the card.

pub mod adjusted;
pub(crate) mod budget;
mod cause;
mod forward;
pub(crate) mod ingredient;
pub mod spread;

use crate::house::Instruments;
use crate::mixture::Mixture;
use crate::properties::{TargetKind, headlines, of_target, value_of};
use crate::solver::Solved;
use crate::units::{display, in_grams};

pub(crate) use budget::Budget;
pub use cause::Cause;
use forward::Forward;
pub(crate) use spread::Input;

/// One input's part in the uncertainty of a number.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Share {
    /// The input in words ("weighing white sugar").
    pub what: String,
    /// Half-width at 95 % that it alone gives, in the unit of the number.
    pub half_width: f64,
    /// Its share of the variance, 0 to 1.
    pub of_variance: f64,
    /// What to do about it.
    pub remedy: &'static str,
    /// The half-width of the number once that is done, where it is known.
    pub then_half_width: Option<f64>,
    /// Why the input is in uncertainty; `None` for the equations.
    #[serde(skip)]
    pub cause: Option<Cause>,
    /// The share of the half-width that its remedy leaves, where one is known.
    #[serde(skip)]
    pub left_by_remedy: Option<f64>,
}

/// The uncertainty of one number.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Uncertainty {
    /// Which number.
    #[serde(skip)]
    pub kind: TargetKind,
    /// Half-width.
    pub half_width: f64,
    /// Of how many cases it is true: 0.95.
    pub coverage: f64,
    /// The budget, largest first.
    #[serde(rename = "budget")]
    pub shares: Vec<Share>,
}

/// The uncertainties of the headline numbers of a solved card made with these instruments. Numbers that
/// the product does not have (no sugar, no alcohol) are left out.
pub fn of_headlines(solved: &Solved, instruments: &Instruments) -> Vec<Uncertainty> {
    let inputs = spread::inputs(solved, instruments);
    let forward = Forward::new(solved);
    let moved: Vec<(Mixture, Mixture)> =
        inputs.iter().map(|input| (input.moves(&forward, 1.0), input.moves(&forward, -1.0))).collect();
    headlines().filter_map(|(kind, _)| one(kind, solved.bottled(), &inputs, &moved)).collect()
}

fn one(kind: TargetKind, liquid: &Mixture, inputs: &[Input], moved: &[(Mixture, Mixture)]) -> Option<Uncertainty> {
    let value = value_of(kind, liquid).filter(|v| *v > 1e-6)?;
    let mut shares: Vec<Share> = inputs
        .iter()
        .zip(moved)
        .filter_map(|(input, (up, down))| {
            let half_width = match (value_of(kind, up), value_of(kind, down)) {
                // it is the one or the other: the sheet has to reach it
                (Some(up), _) if input.cause == Cause::Behind => (up - value).abs(),
                (Some(up), Some(down)) => 0.5 * (up - down).abs(),
                // Nothing can be stronger than pure ethanol: then the one side counts.
                (Some(one), None) | (None, Some(one)) => (one - value).abs(),
                (None, None) => return None,
            };
            Some(Share {
                what: input.what.clone(),
                remedy: input.cause.remedy(),
                half_width,
                of_variance: 0.0,
                then_half_width: None,
                cause: Some(input.cause),
                left_by_remedy: input.left_by_remedy,
            })
        })
        .collect();
    let equation = equation_error(kind, value);
    shares.push(Share {
        what: "the equations for density and volume".to_owned(),
        remedy: "nothing the house can do",
        half_width: equation,
        of_variance: 0.0,
        then_half_width: None,
        cause: None,
        left_by_remedy: None,
    });
    let variance: f64 = shares.iter().map(|s| s.half_width * s.half_width).sum();
    let whole = variance.sqrt();
    if variance > 0.0 {
        for share in &mut shares {
            share.of_variance = share.half_width * share.half_width / variance;
            let mended = |left: f64| whole.powi(2) - share.half_width.powi(2) * (1.0 - left * left);
            share.then_half_width = share.left_by_remedy.map(|left| mended(left).max(0.0).sqrt());
        }
    }
    shares.retain(|s| s.of_variance >= 0.001);
    shares.sort_by(|a, b| b.half_width.total_cmp(&a.half_width));
    Some(Uncertainty { kind, half_width: whole, coverage: 0.95, shares })
}

/// Half-width at 95 % of the equations themselves; a pH has its own edges.
fn equation_error(kind: TargetKind, value: f64) -> f64 {
    of_target(kind).headline.as_ref().map_or(0.0, |headline| (headline.error)(value))
}

impl Uncertainty {
    /// What the half-width would be without the inputs that are in uncertainty for this reason.
    pub fn without(&self, cause: Cause) -> f64 {
        let of_cause: f64 =
            self.shares.iter().filter(|s| s.cause == Some(cause)).map(|s| s.half_width * s.half_width).sum();
        (self.half_width * self.half_width - of_cause).max(0.0).sqrt()
    }
}

/// What mending the largest share of a uncertainty would make of it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Better {
    /// The better measurement, in words ("a 0.1 g scale").
    pub with: String,
    /// The half-width that it leaves.
    pub half_width: f64,
}

/// What a better measurement of the largest share would buy: a scale ten times as fine, or the remedy of that share with
/// the instruments that the house has. `None` where nothing is known that helps.
pub fn better(solved: &Solved, instruments: &Instruments, uncertainty: &Uncertainty) -> Option<Better> {
    let most = uncertainty.shares.first()?;
    if most.cause? == Cause::Scale {
        let mut finer = *instruments;
        finer.scale.step *= 0.1;
        let half_width = find(&of_headlines(solved, &finer), uncertainty.kind)?.half_width;
        let step = display::short(in_grams(finer.scale.step));
        return (half_width < uncertainty.half_width).then(|| Better { with: format!("a {step} g scale"), half_width });
    }
    let half_width = most.then_half_width?;
    let with = match most.cause? {
        Cause::Volume => "weighing it".to_owned(),
        Cause::Composition => {
            format!("a reading of its Brix to {} °Bx", display::short(instruments.refractometer_brix))
        }
        Cause::Acid => "a titration of it".to_owned(),
        Cause::Solid => "a reading of it dissolved in as much water".to_owned(),
        Cause::Scale
        | Cause::Label
        | Cause::Sugar
        | Cause::Evaporation
        | Cause::Holds
        | Cause::Ice
        | Cause::Crystals
        | Cause::Gives
        | Cause::Behind => {
            return None;
        }
    };
    Some(Better { with, half_width })
}

/// The uncertainty of one number among them.
pub fn find(uncertainties: &[Uncertainty], kind: TargetKind) -> Option<&Uncertainty> {
    uncertainties.iter().find(|d| d.kind == kind)
}
