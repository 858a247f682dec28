//! `square`: the Pearson square as the trade draws it, and the exact answer beside it.

use serde::Serialize;

use crate::card::Makes;
use crate::diagnostic::{Code, Diagnostic};
use crate::solver::square::{Exact, NoSquare, SquareKind, draw};

use super::{Report, View};

pub(crate) type SquareReport = Report<SquareView>;

#[derive(Clone, Debug, Serialize)]
pub(crate) struct SquareView {
    /// What it is drawn for: "abv" or "brix".
    pub of: SquareKind,
    pub(crate) strong: f64,
    pub(crate) weak: f64,
    pub(crate) target: f64,
    pub(crate) square: SquareParts,
    pub(crate) exact: Exact,
}

/// The parts of the square, and what they give when they are measured by volume.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct SquareParts {
    pub(crate) strong_parts: f64,
    pub(crate) weak_parts: f64,
    /// The strength they give, % vol; null for a square of Brix, and where a side has no volume to pour.
    pub(crate) gives_abv_pct: Option<f64>,
    /// The Brix they give; null for a square of strengths, and where a side has no volume to pour.
    pub(crate) gives_brix: Option<f64>,
}

impl View for SquareView {
    const VERB: &'static str = "square";
    const KEYS: &'static str = "of strong weak target square exact";
}

impl SquareView {
    /// Draws a square, and says what else there is to know of it; `None` where these three strengths make none.
    pub(crate) fn drawn(
        of: SquareKind,
        [strong, weak, target]: [f64; 3],
        make: Makes,
        found: &mut Vec<Diagnostic>,
    ) -> Option<Self> {
        let s = draw(of, strong, weak, target, make).map_err(|why| found.push(refused(of, &why))).ok()?;
        if let Some(why) = s.stretched {
            found.push(Diagnostic::warning(Code::PropertyExtrapolated, format!("the density is stretched: {why}")));
        }
        if s.gives.is_none() {
            let title = "what the square would give is not known: a side has no volume to pour";
            found.push(Diagnostic::note(Code::PropertyUnknown, title));
        }
        if of == SquareKind::Brix {
            let title = "gives_abv_pct does not apply: the square is drawn for Brix";
            found.push(Diagnostic::note(Code::DoesNotApply, title));
        }
        let gives = |kind| s.gives.filter(|_| of == kind);
        Some(Self {
            of,
            strong: s.strong,
            weak: s.weak,
            target: s.target,
            square: SquareParts {
                strong_parts: s.strong_parts,
                weak_parts: s.weak_parts,
                gives_abv_pct: gives(SquareKind::Abv),
                gives_brix: gives(SquareKind::Brix),
            },
            exact: s.exact,
        })
    }
}

fn refused(of: SquareKind, why: &NoSquare) -> Diagnostic {
    let unit = match of {
        SquareKind::Abv => "% vol",
        SquareKind::Brix => "°Bx",
    };
    let code = if *why == NoSquare::Target { Code::OutOfReach } else { Code::BadArgument };
    let (title, help) = match why {
        NoSquare::OutOfRange(x) => {
            (format!("{x} {unit} is not a possible strength"), "strengths run from 0 to 100".to_owned())
        }
        NoSquare::Sides => (
            "the strong side is not stronger than the weak side".to_owned(),
            "give the stronger one with --strong and the weaker one with --weak".to_owned(),
        ),
        NoSquare::Target => (
            "the target does not lie between the two sides".to_owned(),
            "a blend is never stronger than its strong side nor weaker than its weak side".to_owned(),
        ),
        NoSquare::Engine(trouble) => {
            (format!("no exact answer was found: {trouble}"), "check the three strengths".to_owned())
        }
    };
    Diagnostic::error(code, title).help(help)
}
