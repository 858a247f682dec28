//! `larder`: what is known of an ingredient, and from where.

use serde::{Serialize, Serializer};

use crate::cost::usable_kg_in_larder;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::{self, Form, Ingredient, Origin, PortionWeight, Practice};
use crate::mixture::Component;
use crate::units::{Customs, celsius, in_grams, in_kg_per_m3};
use crate::vocabulary::{Open, Portion, Status, Tag};

use super::money::Money;
use super::{Report, View};

pub(crate) type LarderReport = Report<LarderView>;

/// The entry that an ingredient needs.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct LarderEntryView {
    /// To be filled in.
    pub(crate) text: String,
    /// The file that it was added to; null where it was only printed.
    pub(crate) file: Option<String>,
}

impl View for LarderEntryView {
    const VERB: &'static str = "larder-add";
    const KEYS: &'static str = "text file";
}

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
    /// Of their own juice, grams a gram.
    pub(crate) gives: Option<Practice>,
    /// The share of dry solids that dissolves.
    pub(crate) solubles: Option<Practice>,
    /// The share of the fat that is lifted off, or of fat and protein that passes into a nut milk.
    pub(crate) recovered: Option<Practice>,
    /// What a gram of it neutralises at most, milliequivalents; null where it is no alkali.
    pub(crate) neutralises_meq_per_g: Option<f64>,
    /// What a piece, a sprig, the juice of one, a spoon weighs.
    pub(crate) portions: Vec<PortionView>,
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

/// What one of a portion weighs.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct PortionView {
    pub(crate) portion: Portion,
    /// Which of them.
    pub(crate) said: String,
    pub(crate) grams: f64,
    pub(crate) ml: Option<f64>,
    pub(crate) low_g: Option<f64>,
    pub(crate) high_g: Option<f64>,
    pub(crate) status: Status,
    pub(crate) source: String,
}

impl From<&PortionWeight> for PortionView {
    fn from(p: &PortionWeight) -> Self {
        Self {
            portion: p.portion,
            said: p.said.clone(),
            grams: in_grams(p.grams),
            ml: p.ml,
            low_g: p.low.map(in_grams),
            high_g: p.high.map(in_grams),
            status: p.status.clone(),
            source: p.source.clone(),
        }
    }
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
    pub(crate) fn find(house: &House, word: Option<&str>, found: &mut Vec<Diagnostic>) -> Self {
        let (larder, customs) = (&house.larder, house.customs());
        let of = |one: bool, ingredients: Vec<&Ingredient>| Self {
            one,
            ingredients: ingredients.into_iter().map(|i| IngredientView::new(i, &customs)).collect(),
        };
        let Some(word) = word else { return of(false, larder.iter().collect()) };
        if let Some(ingredient) = larder.find(word) {
            return of(true, vec![ingredient]);
        }
        let part = word.to_lowercase();
        let has_word = |i: &&Ingredient| i.all_names().any(|name| name.to_lowercase().contains(&part));
        let all: Vec<_> = larder.iter().filter(has_word).collect();
        if all.is_empty() {
            let unknown = Diagnostic::error(Code::UnknownIngredient, format!("the larder knows no `{word}`"));
            found.push(match larder.suggest(word) {
                Some(near) => unknown.help(format!("did you mean `{near}`?")),
                None => unknown.help(larder::to_add(word)),
            });
        } else {
            // its figures would be read as those of the name that was asked for
            let title = format!("a card that says `{word}` is not understood: nothing has this name alone");
            let said = Diagnostic::warning(Code::UnknownIngredient, title);
            found.push(match larder::which_of(word) {
                Some(which) => said.help(format!("which of these is it: `{}`?", which.join("`, `"))),
                None => said.help("listed is what has it in a name"),
            });
        }
        of(false, all)
    }
}

impl IngredientView {
    /// Its price is for the measures of the house.
    fn new(i: &Ingredient, customs: &Customs) -> Self {
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
            gives: i.strained.and_then(|s| s.gives),
            solubles: i.strained.and_then(|s| s.solubles),
            recovered: i.strained.and_then(|s| s.recovered),
            neutralises_meq_per_g: Some(1000.0 * i.alkali.most_eq_per_gram).filter(|meq| *meq > 0.0),
            portions: i.portions.iter().map(PortionView::from).collect(),
            tags: i.tags.clone(),
            allergens: i.allergens.clone(),
            price: i.price.clone(),
            priced_on: i.priced_on.clone(),
            usable: i.usable,
            per_usable_kg: usable_kg_in_larder(i, customs).map(|(currency, amount)| Money { amount, currency }),
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
