//! From the lines of a card to what the engine needs: what each part is, what a gram of it is made
//! of, and what its amount means in grams.

use std::sync::Arc;

use crate::card::{Amount, Part};
use crate::diagnostic::{Code, Diagnostic};
use crate::larder::{Form, Ingredient};
use crate::mixture::{Component, Mixture};
use crate::units::{Basis, celsius, in_grams, in_kg_per_m3, in_millilitres};

use super::Solved;
use super::balance::MassRule;
use super::stage::Feed;

/// What a part is.
#[derive(Clone, Debug)]
pub enum Material {
    /// An ingredient of the larder.
    Ingredient(Box<Ingredient>),
    /// An earlier stage of the same card, by its place.
    Stage(usize),
    /// Another formula of the house, by its place among the inner formulas of the solved card.
    Card(usize),
}

/// A part that has been looked up.
#[derive(Clone, Debug)]
pub struct FoundPart {
    /// What it is.
    pub what: Material,
    /// Composition of one gram.
    pub per_gram: Mixture,
    /// Grams in a millilitre as it is measured (poured at 20 °C, or piled), where known.
    pub g_per_ml: Option<f64>,
    /// Poured or piled.
    pub form: Form,
}

impl FoundPart {
    /// An ingredient: a liquid by the density of its composition, a solid by its bulk density.
    pub fn ingredient(ingredient: &Ingredient) -> Self {
        let g_per_ml = match ingredient.form {
            Form::Liquid => poured_g_per_ml(&ingredient.per_gram),
            Form::Solid => ingredient.bulk_density.map(|d| in_kg_per_m3(d) / 1000.0),
        };
        Self {
            what: Material::Ingredient(Box::new(ingredient.clone())),
            per_gram: ingredient.per_gram,
            g_per_ml,
            form: ingredient.form,
        }
    }

    /// The liquid of a stage or of another formula.
    pub fn liquid(what: Material, out: &Mixture) -> Self {
        let per_gram = out.per_gram();
        Self { what, per_gram, g_per_ml: poured_g_per_ml(&per_gram), form: Form::Liquid }
    }

    /// The part as it goes into the pan; an error where its strained solids would keep an unknown amount.
    pub fn feed(&self, part: &Part, found: &mut Vec<Diagnostic>) -> Option<Feed> {
        if !part.strained {
            return Some(Feed { per_gram: self.per_gram, holds: None });
        }
        let of_larder = match &self.what {
            Material::Ingredient(ingredient) => ingredient.holds,
            Material::Stage(_) | Material::Card(_) => None,
        };
        let Some(holds) = part.holds.map(|h| h.value).or(of_larder) else {
            found.push(
                Diagnostic::error(
                    Code::HoldsUnknown,
                    format!("how much liquid the strained `{}` keeps is not known", part.of.value),
                )
                .at(part.amount.span, "strained out")
                .help(
                    "before the first batch weigh a trial: steep 20 g of it in 100 g of water as the card does, strain and \
                     weigh what stays in the strainer; (that weight - 20) / 20 is what to write here: \
                     { amount = …, strained = true, holds = … }",
                ),
            );
            return None;
        };
        let feed = Feed { per_gram: self.per_gram, holds: Some(holds) };
        if feed.keeps() < -1e-9 {
            let dry = 100.0 * self.per_gram.grams_of_all(&Component::STAYS_IN_STRAINER);
            found.push(
                Diagnostic::error(
                    Code::OutOfRange,
                    format!(
                        "with holds = {holds}, less comes out of the strainer than the dry solids of `{}`",
                        part.of.value
                    ),
                )
                .at(part.amount.span, format!("{dry:.0} % of it does not dissolve"))
                .help("weigh it again: (wet weight out - weight in) / weight in"),
            );
            return None;
        }
        Some(feed)
    }

    /// What the amount of a part means to the engine.
    pub fn rule(&self, part: &Part, found: &mut Vec<Diagnostic>) -> Option<MassRule> {
        Some(match part.amount.value {
            Amount::AsNeeded => MassRule::Open,
            Amount::Mass(mass) => MassRule::Fixed(in_grams(mass)),
            Amount::Volume(volume) => MassRule::Fixed(in_millilitres(volume) * self.density(part, found)?),
            Amount::Pieces(count) => MassRule::Fixed(count * self.piece_g(part, found)?),
            Amount::Parts { parts, basis: Basis::Weight } => MassRule::Ratio(parts),
            Amount::Parts { parts, basis: Basis::Volume } => MassRule::Ratio(parts * self.density(part, found)?),
            Amount::Dose(dose) => MassRule::Dose(in_kg_per_m3(dose) / 1000.0),
            Amount::VolumeDose(share) => MassRule::Dose(share * self.density(part, found)?),
            Amount::Share(share) => MassRule::Share(share),
        })
    }

    fn density(&self, part: &Part, found: &mut Vec<Diagnostic>) -> Option<f64> {
        if self.g_per_ml.is_none() {
            found.push(
                Diagnostic::error(
                    Code::DensityUnknown,
                    format!("`{}` is measured by volume, but what a cup of it weighs is not known", part.of.value),
                )
                .at(part.amount.span, "a volume")
                .help("write it in grams, or give the ingredient a `density` in the house's larder.toml"),
            );
        }
        self.g_per_ml
    }

    fn piece_g(&self, part: &Part, found: &mut Vec<Diagnostic>) -> Option<f64> {
        let piece = match &self.what {
            Material::Ingredient(ingredient) => ingredient.piece.map(in_grams),
            Material::Stage(_) | Material::Card(_) => None,
        };
        if piece.is_none() {
            found.push(
                Diagnostic::error(Code::PieceUnknown, format!("what one `{}` weighs is not known", part.of.value))
                    .at(part.amount.span, "pieces")
                    .help("write it in grams, or give the ingredient a `piece` (\"67 g\") in the house's larder.toml"),
            );
        }
        piece
    }
}

/// Density of a liquid at 20 °C, g/ml; `None` where it cannot be computed (a dry mixture).
pub fn poured_g_per_ml(liquid: &Mixture) -> Option<f64> {
    liquid.density(celsius(20.0)).ok().map(|d| in_kg_per_m3(d.value) / 1000.0)
}

/// The diagnostic for a name that nothing answers to.
pub fn unknown(part: &Part, nearest: Option<String>) -> Diagnostic {
    let name = &part.of.value;
    let diagnostic = Diagnostic::error(Code::UnknownIngredient, format!("nothing in the house is called `{name}`"))
        .at(part.of.span, "no ingredient, earlier stage or formula has this name");
    match nearest {
        Some(near) => diagnostic.help(format!("did you mean `{near}`?")).fix(part.of.span, format!("{near:?}")),
        None => diagnostic.help(format!(
            "describe it in larder.toml beside the formulas: [ingredient.{name:?}] with per_100g, abv, brix, or like = \"…\""
        )),
    }
}

/// The inner formulas of a card, each once, with the grams that go in. What two cards have inside is shared.
pub type Inner = Vec<(Arc<Solved>, f64)>;
