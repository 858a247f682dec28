//! What is asked of a costing beside the card and the house.

use chrono::NaiveDate;

use crate::card::Makes;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::Ingredient;
use crate::spelling::{meant_or, nearest};

use super::price::Price;

/// What is asked beside the card and the house.
#[derive(Clone, Debug, Default)]
pub struct CostAsked {
    /// Prices over the larder's: id of the ingredient, the price, and how it was written.
    pub prices: Vec<(String, Price, String)>,
    /// The day on which the age of prices is counted.
    pub today: Option<NaiveDate>,
    /// What was asked for: bottles are paid for.
    pub makes: Option<Makes>,
    /// The card's own measure, millilitres.
    pub serving_ml: Option<f64>,
    /// How many servings the batch gives, where they are counted.
    pub servings: Option<f64>,
}

/// The ingredient of the card with this name; else the only one whose name has its words ("rum" of "overproof rum").
pub(crate) fn ingredient_meant<'a>(
    name: &str,
    used: &[(&'a Ingredient, f64)],
    house: &House,
    found: &mut Vec<Diagnostic>,
) -> Option<&'a Ingredient> {
    let id = house.larder.find(name).map(|i| i.id.as_str());
    if let Some((ingredient, _)) = used.iter().find(|(i, _)| Some(i.id.as_str()) == id) {
        return Some(ingredient);
    }
    let wanted = name.to_lowercase();
    let has_words = |i: &Ingredient| {
        let own = i.name.to_lowercase();
        let mut words = wanted.split_whitespace();
        words.clone().next().is_some() && words.all(|word| own.split_whitespace().any(|other| other == word))
    };
    let mut alike: Vec<&Ingredient> = used.iter().map(|(i, _)| *i).filter(|i| has_words(i)).collect();
    alike.dedup_by_key(|i| &i.id);
    let [only] = alike.as_slice() else {
        let listed: Vec<_> = used.iter().map(|(i, _)| i.name.as_str()).collect();
        let near = nearest(name, listed.iter().copied());
        let help = meant_or(near, format!("its ingredients are: {}", listed.join(", ")));
        return Diagnostic::error(Code::UnknownIngredient, format!("the card uses no `{name}`"))
            .help(help)
            .refused(found);
    };
    found.push(Diagnostic::note(Code::Understood, format!("`{name}` was read as `{}`", only.name)));
    Some(only)
}
