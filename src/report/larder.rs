//! `larder`: what is known of an ingredient, and from where.

use serde::{Serialize, Serializer};

use crate::cost::usable_kg_in_larder;
use crate::diagnostic::{Code, Diagnostic};
use crate::larder::{Form, Ingredient, Larder, Origin};
use crate::mixture::Component;
use crate::units::{celsius, in_grams, in_kg_per_m3};
use crate::vocabulary::{Open, Status, Tag};

use super::money::Money;
use super::{Report, View};

pub(crate) type LarderReport = Report<LarderView>;

#[derive(Clone, Debug, Serialize)]
pub(crate) struct LarderView {
    /// Whether one was asked for and is meant: then everything is said of it.
    #[serde(skip)]
    pub(crate) one: bool,
    pub(crate) ingredients: Vec<IngredientView>,
}

/// Everything that is known of an ingredient; null is "not known".
#[derive(Clone, Debug, Serialize)]
pub(crate) struct IngredientView {
    /// Its stable id in the embedded larder, or its name in the house's.
    pub(crate) id: String,
    pub(crate) name: String,
    pub(crate) aliases: Vec<String>,
    /// Grams of each component in 100 g, by its key.
    #[serde(serialize_with = "by_key")]
    pub(crate) per_100g: Vec<(Component, f64)>,
    pub(crate) sugar_per_100g: f64,
    /// Titratable acid in 100 g, as anhydrous citric.
    pub(crate) acid_per_100g: f64,
    pub(crate) density_kg_m3: Option<f64>,
    pub(crate) brix: Option<f64>,
    pub(crate) abv_pct: Option<f64>,
    pub(crate) ph: Option<String>,
    pub(crate) bulk_density_kg_m3: Option<f64>,
    pub(crate) piece_g: Option<f64>,
    /// Liquid that its strained solids keep, grams a gram.
    pub(crate) holds: Option<f64>,
    pub(crate) holds_status: Option<String>,
    pub(crate) tags: Vec<Open<Tag>>,
    pub(crate) allergens: Vec<String>,
    pub(crate) price: Option<String>,
    pub(crate) priced_on: Option<String>,
    /// What is usable of what is bought, 0 to 1.
    pub(crate) usable: Option<f64>,
    pub(crate) per_usable_kg: Option<Money>,
    pub(crate) status: Status,
    pub(crate) source: String,
    pub(crate) notes: String,
    /// The house's file that it stands in; null for the built-in larder.
    pub(crate) file: Option<String>,
}

fn by_key<S: Serializer>(of: &[(Component, f64)], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(of.iter().map(|(component, grams)| (component.key(), grams)))
}

impl View for LarderView {
    const VERB: &'static str = "larder";
    const KEYS: &'static str = "ingredients";
}

impl LarderView {
    /// The ingredient of this name, or all with the word in a name; all there are without a word.
    pub(crate) fn find(larder: &Larder, word: Option<&str>, found: &mut Vec<Diagnostic>) -> Self {
        let of = |ingredients: Vec<&Ingredient>| Self {
            one: word.is_some() && ingredients.len() == 1,
            ingredients: ingredients.into_iter().map(IngredientView::from).collect(),
        };
        let Some(word) = word else { return of(larder.iter().collect()) };
        if let Some(ingredient) = larder.find(word) {
            return of(vec![ingredient]);
        }
        let part = word.to_lowercase();
        let has_word = |i: &&Ingredient| i.all_names().any(|name| name.to_lowercase().contains(&part));
        let all: Vec<_> = larder.iter().filter(has_word).collect();
        if all.is_empty() {
            let unknown = Diagnostic::error(Code::UnknownIngredient, format!("the larder knows no `{word}`"));
            found.push(match larder.suggest(word) {
                Some(near) => unknown.help(format!("did you mean `{near}`?")),
                None => unknown.help(format!(
                    "describe it in larder.toml beside the formulas: [ingredient.{word:?}] with per_100g, abv, brix, or like = \"…\""
                )),
            });
        }
        of(all)
    }
}

impl From<&Ingredient> for IngredientView {
    fn from(i: &Ingredient) -> Self {
        let in_100_g = |component| 100.0 * i.per_gram.grams_of(component);
        let of_liquid = (i.form == Form::Liquid).then_some(&i.per_gram);
        let spirit = (i.per_gram.grams_of(Component::Ethanol) > 0.0).then_some(&i.per_gram);
        Self {
            id: i.id.clone(),
            name: i.name.clone(),
            aliases: i.aliases.clone(),
            per_100g: Component::ALL.iter().map(|&c| (c, in_100_g(c))).filter(|(_, g)| *g > 0.0).collect(),
            sugar_per_100g: 100.0 * i.per_gram.sugar_grams(),
            acid_per_100g: 100.0 * i.per_gram.titratable_acid_grams(),
            density_kg_m3: of_liquid.and_then(|m| m.density(celsius(20.0)).ok()).map(|d| in_kg_per_m3(d.value)),
            brix: of_liquid.map(|m| 100.0 * m.solids_grams()),
            abv_pct: spirit.and_then(|m| m.abv().ok()).map(|abv| abv.value.get()),
            ph: i.ph_published.clone(),
            bulk_density_kg_m3: i.bulk_density.map(in_kg_per_m3),
            piece_g: i.piece.map(in_grams),
            holds: i.holds,
            holds_status: i.holds_status.clone(),
            tags: i.tags.clone(),
            allergens: i.allergens.clone(),
            price: i.price.clone(),
            priced_on: i.priced_on.clone(),
            usable: i.usable,
            per_usable_kg: usable_kg_in_larder(i).map(|(currency, amount)| Money { amount, currency }),
            status: i.status.clone(),
            source: i.source.clone(),
            notes: i.notes.clone(),
            file: match &i.origin {
                Origin::BuiltIn => None,
                Origin::House(file) => Some(file.to_string()),
            },
        }
    }
}
