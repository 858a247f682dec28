//! `square`: the Pearson square as the trade draws it, and the exact answer beside it.

use serde::Serialize;

use crate::card::Makes;
use crate::diagnostic::{Code, Diagnostic};
use crate::solver::square::{NoSquare, SquareKind, draw};

use super::{Report, View};

pub(crate) type SquareReport = Report<SquareView>;

#[derive(Clone, Debug, Serialize)]
pub(crate) struct SquareView {
    /// What it is drawn for: "abv" or "brix".
    #[serde(serialize_with = "kind_key")]
    pub of: SquareKind,
    /// The strong side, % vol or °Bx.
    pub strong: f64,
    pub weak: f64,
    pub target: f64,
    /// The parts that the square tells.
    pub square: SquareParts,
    pub exact: ExactAnswer,
}

/// The parts of the square, and what they give when they are measured by volume.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct SquareParts {
    pub strong_parts: f64,
    pub weak_parts: f64,
    /// The strength they give, % vol; null for a square of Brix, and where a side has no volume to pour.
    pub gives_abv_pct: Option<f64>,
    /// The Brix they give; null for a square of strengths, and where a side has no volume to pour.
    pub gives_brix: Option<f64>,
}

/// What to take for what is wanted: a mass balance, volumes at 20 °C.
#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct ExactAnswer {
    /// Grams of the strong one.
    pub strong_mass_g: f64,
    /// Its millilitres; null for dry sugar.
    pub strong_volume_ml: Option<f64>,
    /// Grams of the weak one.
    pub weak_mass_g: f64,
    pub weak_volume_ml: Option<f64>,
    pub yield_volume_ml: f64,
    /// What goes in less what comes out, millilitres.
    pub contraction_ml: Option<f64>,
}

fn kind_key<S: serde::Serializer>(of: &SquareKind, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(match of {
        SquareKind::Abv => "abv",
        SquareKind::Brix => "brix",
    })
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
            exact: ExactAnswer {
                strong_mass_g: s.exact.strong_g,
                strong_volume_ml: s.exact.strong_ml,
                weak_mass_g: s.exact.weak_g,
                weak_volume_ml: s.exact.weak_ml,
                yield_volume_ml: s.exact.yield_ml,
                contraction_ml: s.exact.contraction_ml,
            },
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
