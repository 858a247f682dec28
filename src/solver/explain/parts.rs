//! What is wrong with a part of a card.

use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::spelling::nearest;

use super::super::Solved;
use super::super::error::{DEEPEST, NotOnCard, PartError};
use super::super::resolve::Material;

pub(super) fn part(name: &Spanned<String>, amount: Span, error: &PartError) -> Diagnostic {
    let Spanned { value: name, span } = name;
    let diagnostic = Diagnostic::error;
    match error {
        PartError::Unknown(near) => {
            let said = diagnostic(Code::UnknownIngredient, format!("nothing in the house is called `{name}`"))
                .at(*span, "no ingredient, earlier stage or formula has this name");
            match near {
                Some(near) => said.help(format!("did you mean `{near}`?")).fix(*span, format!("{near:?}")),
                None => said.help(format!(
                    "describe it in larder.toml beside the formulas: [ingredient.{name:?}] with per_100g, abv, brix, or like = \"…\""
                )),
            }
        }
        PartError::StageOrder => diagnostic(Code::StageOrder, format!("the stage `{name}` is used before it is made"))
            .at(*span, "used here")
            .help("stages are made in the order of the card: move that stage above this one"),
        PartError::Cycle(names) => diagnostic(Code::CardCycle, format!("a ring of formulas: {}", names.join(" -> ")))
            .at(*span, "closes the ring")
            .help("a product cannot be made from itself: take one of these parts out, or buy it in"),
        PartError::TooDeep => {
            diagnostic(Code::CardDepth, format!("formulas in formulas, more than {DEEPEST} levels deep"))
                .at(*span, "not followed further")
                .help("write the ingredients of one of them on the card that uses it")
        }
        PartError::InnerCard => diagnostic(Code::InnerCard, format!("`{name}` cannot be made as its own card stands"))
            .at(*span, "this formula of the house is needed here")
            .help("mend that card first: what is wrong with it is listed with it"),
        PartError::HoldsUnknown => diagnostic(
            Code::HoldsUnknown,
            format!("how much liquid the strained `{name}` keeps is not known"),
        )
        .at(amount, "strained out")
        .help(
            "before the first batch weigh a trial: steep 20 g of it in 100 g of water as the card does, strain and \
                     weigh what stays in the strainer; (that weight - 20) / 20 is what to write here: \
                     { amount = …, strained = true, holds = … }",
        ),
        PartError::HoldsTooLow { holds, solids } => diagnostic(
            Code::OutOfRange,
            format!("with holds = {holds}, less comes out of the strainer than the dry solids of `{name}`"),
        )
        .at(amount, format!("{:.0} % of it does not dissolve", 100.0 * solids))
        .help("weigh it again: (wet weight out - weight in) / weight in"),
        PartError::DensityUnknown => diagnostic(
            Code::DensityUnknown,
            format!("`{name}` is measured by volume, but what a cup of it weighs is not known"),
        )
        .at(amount, "a volume")
        .help("write it in grams, or give the ingredient a `density` in the house's larder.toml"),
        PartError::PieceUnknown => diagnostic(Code::PieceUnknown, format!("what one `{name}` weighs is not known"))
            .at(amount, "pieces")
            .help("write it in grams, or give the ingredient a `piece` (\"67 g\") in the house's larder.toml"),
    }
}

pub(super) fn not_on_card(NotOnCard { name, parts }: &NotOnCard) -> Diagnostic {
    let near = nearest(name, parts.iter().map(String::as_str));
    Diagnostic::error(Code::UnknownIngredient, format!("the card uses no `{name}`")).help(
        near.map_or_else(|| format!("its parts are: {}", parts.join(", ")), |near| format!("did you mean `{near}`?")),
    )
}

pub(super) fn not_an_amount(name: &str) -> Diagnostic {
    Diagnostic::error(Code::WrongDimension, format!("how much `{name}` there is must be a weight or a volume"))
        .help("write for example --from \"white sugar=3 kg\"")
}

/// A warning for each stage and inner card of which the targets leave no gram.
pub(in super::super) fn unneeded<'a>(card: &'a Card, solved: &'a Solved) -> impl Iterator<Item = Diagnostic> + 'a {
    let parts = solved.stages.iter().flat_map(|s| &s.parts).zip(card.all_parts().map(|(_, written)| written));
    let nothing = parts.filter(|(part, _)| part.mass_g == 0.0 && !matches!(part.found.what, Material::Ingredient(_)));
    nothing.map(|(part, written)| {
        Diagnostic::warning(Code::Unused, format!("nothing of `{}` is needed for these targets", part.of))
            .at(written.of.span, "0 g of it: what it is made of is not weighed")
            .help("do not make it for this batch; or ask for targets that need it")
    })
}
