//! The Pearson square as the trade draws it, and the exact answer beside it.
//!
//! The square takes parts by volume, `target - weak` of the strong one and `strong - target` of the
//! weak one, and assumes that volumes add. They do not: ethanol and water contract, and Brix counts
//! grams. The exact answer is a mass balance through the same engine as any card.

use crate::card::{Makes, TargetKind};
use crate::mixture::{Component, Mixture, alcohol};
use crate::properties::value_of;
use crate::units::{Abv, celsius};

use super::balance::{BalanceError, BalanceLine, MassBalance, MassRule};
use super::card::yield_of;
use super::target::{TargetValue, g_per_ml, volume_ml};

/// What the square is drawn for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum SquareKind {
    /// Percent alcohol by volume: spirit, wine and water.
    Abv,
    /// Degrees Brix: sucrose syrups and water.
    Brix,
}

impl SquareKind {
    fn kind(self) -> TargetKind {
        match self {
            Self::Abv => TargetKind::Abv,
            Self::Brix => TargetKind::Brix,
        }
    }

    /// One gram of a liquid of this strength. `None` outside 0 to 100.
    fn liquid(self, strength: f64) -> Option<Mixture> {
        let (component, share) = match self {
            Self::Abv => (Component::Ethanol, alcohol::mass_fraction_of(Abv::new(strength)?).get()),
            Self::Brix => (Component::Sucrose, (0.0..=100.0).contains(&strength).then_some(strength / 100.0)?),
        };
        Some(Mixture::of(&[(component, share), (Component::Water, 1.0 - share)]))
    }
}

/// A drawn square.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Square {
    /// What it is drawn for.
    pub of: SquareKind,
    /// The strong side, % vol or °Bx.
    pub strong: f64,
    /// The weak side.
    pub weak: f64,
    /// What is wanted.
    pub target: f64,
    /// Parts of the strong one.
    pub strong_parts: f64,
    /// Parts of the weak one.
    pub weak_parts: f64,
    /// What these parts, measured by volume, really give. `None` where a side has no volume (dry sugar).
    pub gives: Option<f64>,
    /// Why the density of a side, or of what it makes, is stretched, if it is.
    pub stretched: Option<&'static str>,
    /// The exact answer.
    pub exact: Exact,
}

/// What to take for the yield that is asked for.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Exact {
    /// Grams of the strong one.
    pub strong_mass_g: f64,
    /// Millilitres of it at 20 °C; `None` for dry sugar.
    pub strong_volume_ml: Option<f64>,
    /// Grams of the weak one.
    pub weak_mass_g: f64,
    /// Millilitres of it at 20 °C.
    pub weak_volume_ml: Option<f64>,
    /// What it makes at 20 °C, millilitres.
    pub yield_volume_ml: f64,
    /// The volumes that went in less the volume that comes out, millilitres.
    pub contraction_ml: Option<f64>,
}

/// Why no square can be drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum NoSquare {
    /// A strength outside 0 to 100.
    OutOfRange(f64),
    /// The strong side is not the stronger.
    Sides,
    /// The target does not lie between the sides.
    Target,
    /// The engine found no answer.
    Engine(BalanceError),
}

/// Draws the square and solves it exactly.
///
/// ```
/// use stillroom::card::Makes;
/// use stillroom::solver::square::{SquareKind, draw};
/// use stillroom::units::millilitres;
///
/// let made = Makes::Volume(millilitres(1000.0));
/// let square = draw(SquareKind::Abv, 63.0, 0.0, 40.0, made).unwrap();
/// assert_eq!((square.strong_parts, square.weak_parts), (40.0, 23.0));
/// // Measured so it comes out stronger: spirit and water shrink when they meet.
/// assert!(square.gives.unwrap() > 40.0);
/// ```
///
/// # Errors
/// When a strength is impossible, the sides are the wrong way round, or the target is not between them.
pub fn draw(of: SquareKind, strong: f64, weak: f64, target: f64, make: Makes) -> Result<Square, NoSquare> {
    for strength in [strong, weak, target] {
        of.liquid(strength).ok_or(NoSquare::OutOfRange(strength))?;
    }
    if strong <= weak {
        return Err(NoSquare::Sides);
    }
    if target < weak || target > strong {
        return Err(NoSquare::Target);
    }
    let liquids = [of.liquid(strong), of.liquid(weak)].map(Option::unwrap_or_default);
    let lines = liquids.map(|joins| BalanceLine { joins, keeps: 0.0, rule: MassRule::Open });
    // At the strength of one side nothing of the other goes in; rounding must not make that less than nothing.
    let lines = match target {
        t if t == weak => [BalanceLine { rule: MassRule::Fixed(0.0), ..lines[0] }, lines[1]],
        t if t == strong => [lines[0], BalanceLine { rule: MassRule::Fixed(0.0), ..lines[1] }],
        _ => lines,
    };
    let targets: &[TargetValue] = if target == weak || target == strong { &[] } else { &[(of.kind(), target)] };
    let balance = MassBalance { lines: &lines, targets, yields: Some(yield_of(&make)), left_behind: 0.0 };
    let masses = balance.solve().map_err(NoSquare::Engine)?;
    let (strong_g, weak_g) = (masses[0], masses[1]);
    let [strong_density, weak_density] = liquids.map(|l| g_per_ml(&l));
    let strong_ml = strong_density.map(|d| strong_g / d);
    let weak_ml = weak_density.map(|d| weak_g / d);
    let made = liquids[0] * strong_g + liquids[1] * weak_g;
    let yield_ml = volume_ml(&made).unwrap_or(0.0);
    let stretched = liquids.iter().chain([&made]).find_map(|l| l.density(celsius(20.0)).ok()?.extrapolated);
    let (strong_parts, weak_parts) = (target - weak, strong - target);
    let gives = strong_density
        .zip(weak_density)
        .and_then(|(s, w)| value_of(of.kind(), &(liquids[0] * (strong_parts * s) + liquids[1] * (weak_parts * w))));
    Ok(Square {
        of,
        strong,
        weak,
        target,
        strong_parts,
        weak_parts,
        gives,
        stretched,
        exact: Exact {
            strong_mass_g: strong_g,
            strong_volume_ml: strong_ml,
            weak_mass_g: weak_g,
            weak_volume_ml: weak_ml,
            yield_volume_ml: yield_ml,
            contraction_ml: strong_ml.zip(weak_ml).map(|(s, w)| s + w - yield_ml),
        },
    })
}
