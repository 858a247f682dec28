//! Acid beside a juice: the last tenth waits for the tongue.

use serde::Serialize;

use crate::card::{Amount, Card};
use crate::larder::{Form, Ingredient};
use crate::solver::resolve::Material;
use crate::solver::{Solved, SolvedPart};
use crate::vocabulary::Tag;

/// The share that goes in before anybody tastes: common practice, no source. Juices differ by more than a tenth.
const FIRST: f64 = 0.9;

/// One acid.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Dose {
    /// The part as the card calls it.
    pub of: String,
    /// All of it, grams.
    pub mass_g: f64,
    /// What goes in before anybody tastes, grams.
    pub first_g: f64,
    /// What each litre of the juice takes of it, grams: the volume that it adds itself is counted.
    pub g_per_litre_of_juice: Option<f64>,
}

/// The acids that were found for a juice: as needed, or a blend in a ratio of its own. Empty where there are none.
pub(super) fn doses(card: &Card, weighed: &Solved) -> Vec<Dose> {
    let parts = || weighed.last().parts.iter().zip(&card.last.parts).filter(|(_, written)| !written.strained);
    let juice_ml: Vec<_> = parts().filter(|(p, _)| is_juice(p)).map(|(p, _)| p.volume_ml()).collect();
    if juice_ml.is_empty() {
        return Vec::new();
    }
    let litres = juice_ml.into_iter().sum::<Option<f64>>().map(|ml| ml / 1000.0).filter(|l| *l > 0.0);
    let acid = |part: &SolvedPart| part.found.per_gram.is_acid();
    let in_ratio = |amount: Amount| matches!(amount, Amount::Parts { .. });
    let blend = card.last.parts.iter().zip(&weighed.last().parts).all(|(w, p)| !in_ratio(w.amount.value) || acid(p));
    parts()
        .filter(|(p, w)| acid(p) && (p.solved || (blend && in_ratio(w.amount.value))))
        .map(|(p, _)| Dose {
            of: p.label.clone(),
            mass_g: p.mass_g,
            first_g: FIRST * p.mass_g,
            g_per_litre_of_juice: litres.map(|l| p.mass_g / l),
        })
        .collect()
}

fn is_juice(part: &SolvedPart) -> bool {
    let tagged = |i: &Ingredient, tag: Tag| i.tags.iter().any(|t| *t == tag);
    match &part.found.what {
        Material::Ingredient(i) => tagged(i, Tag::RawJuice) || (tagged(i, Tag::Citrus) && i.form == Form::Liquid),
        Material::Stage(_) | Material::Card(_) => false,
    }
}
