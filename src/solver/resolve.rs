//! From the lines of a card to what the engine needs: what each part is, what a gram of it is made
//! of, and what its amount means in grams.

use crate::card::{Amount, Part};
use crate::larder::{Form, Ingredient};
use crate::mixture::{Component, Mixture};
use crate::units::{Basis, in_grams, in_kg_per_m3, in_millilitres};

use super::balance::MassRule;
use super::error::PartError;
use super::stage::Feed;
use super::target::g_per_ml;

/// What a part is.
#[derive(Clone, Debug)]
pub enum Material {
    /// An ingredient of the larder.
    Ingredient(Box<Ingredient>),
    /// An earlier stage of the same card, by its place.
    Stage(usize),
    /// Another card of the house, by its place among the inner cards of the solved card.
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
    pub(crate) fn ingredient(ingredient: &Ingredient) -> Self {
        let g_per_ml = match ingredient.form {
            Form::Liquid => g_per_ml(&ingredient.per_gram),
            Form::Solid => ingredient.bulk_density.map(|d| in_kg_per_m3(d) / 1000.0),
        };
        Self {
            what: Material::Ingredient(Box::new(ingredient.clone())),
            per_gram: ingredient.per_gram,
            g_per_ml,
            form: ingredient.form,
        }
    }

    /// The liquid of a stage or of another card.
    pub fn liquid(what: Material, out: &Mixture) -> Self {
        let per_gram = out.per_gram();
        Self { what, per_gram, g_per_ml: g_per_ml(&per_gram), form: Form::Liquid }
    }

    /// The part as it goes into the pan.
    ///
    /// # Errors
    /// Where its strained solids would keep an unknown amount, or less than nothing.
    pub(super) fn feed(&self, part: &Part) -> Result<Feed, PartError> {
        let mut feed = Feed { per_gram: self.per_gram, holds: None };
        if part.strained {
            let of_larder = || match &self.what {
                Material::Ingredient(ingredient) => ingredient.holds,
                Material::Stage(_) | Material::Card(_) => None,
            };
            let holds = part.holds.map(|h| h.value).or_else(of_larder).ok_or(PartError::HoldsUnknown)?;
            feed.holds = Some(holds);
            if feed.keeps() < -1e-9 {
                let solids = self.per_gram.grams_of_all(&Component::STAYS_IN_STRAINER);
                return Err(PartError::HoldsTooLow { holds, solids });
            }
        }
        Ok(feed)
    }

    /// What the amount of a part means to the engine.
    ///
    /// # Errors
    /// Where it is by volume or by the piece, and what that weighs is not known.
    pub(super) fn rule(&self, part: &Part) -> Result<MassRule, PartError> {
        let density = || self.g_per_ml.ok_or(PartError::DensityUnknown);
        Ok(match part.amount.value {
            Amount::AsNeeded => MassRule::Open,
            Amount::Mass(mass) => MassRule::Fixed(in_grams(mass)),
            Amount::Volume(volume) => MassRule::Fixed(in_millilitres(volume) * density()?),
            Amount::Pieces(count) => MassRule::Fixed(count * self.piece_g().ok_or(PartError::PieceUnknown)?),
            Amount::Parts { parts, basis: Basis::Weight } => MassRule::Ratio(parts),
            Amount::Parts { parts, basis: Basis::Volume } => MassRule::Ratio(parts * density()?),
            Amount::Dose(dose) => MassRule::Dose(in_kg_per_m3(dose) / 1000.0),
            Amount::VolumeDose(share) => MassRule::Dose(share * density()?),
            Amount::Share(share) => MassRule::Share(share),
        })
    }

    fn piece_g(&self) -> Option<f64> {
        match &self.what {
            Material::Ingredient(ingredient) => ingredient.piece.map(in_grams),
            Material::Stage(_) | Material::Card(_) => None,
        }
    }
}
