//! What a card makes for nothing: a stage or an inner formula of which the targets leave no gram.

use crate::card::{Card, Part};
use crate::diagnostic::{Code, Diagnostic};
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};

/// A warning for each.
pub(super) fn warnings(card: &Card, solved: &Solved) -> Vec<Diagnostic> {
    let parts = solved.stages.iter().flat_map(|s| &s.parts).zip(card.all_parts().map(|(_, written)| written));
    let nothing = parts.filter(|(part, _)| part.mass_g == 0.0 && !matches!(part.found.what, Material::Ingredient(_)));
    let warning = |(part, written): (&SolvedPart, &Part)| {
        Diagnostic::warning(Code::Unused, format!("nothing of `{}` is needed for these targets", part.of))
            .at(written.of.span, "0 g of it: what it is made of is not weighed")
            .help("do not make it for this batch; or ask for targets that need it")
    };
    nothing.map(warning).collect()
}
