//! Ingredients: composition, tags, allergens, where each number comes from. An embedded
//! larder, and the house's own `larder.toml` over it.

mod analysis;
mod built_in;
mod entry;
pub mod house_file;
pub(crate) mod ingredient;
pub(crate) mod label;
mod lent;
mod measured;
mod per_100g;
pub(crate) mod portion;
mod written;

use std::collections::HashMap;
use std::sync::LazyLock;

pub use ingredient::Form;
pub(crate) use ingredient::HOLDS;
pub use ingredient::{Ingredient, Origin, Stated};
pub use portion::PortionWeight;

use crate::diagnostic::Diagnostic;
use crate::spelling::{fold, nearest_name};

/// What the licences of the embedded tables ask to be printed with their figures.
pub(crate) const DATA_NOTICE: &str = "Composition of ingredients: USDA National Nutrient Database for Standard Reference, \
    Release 26 (public domain); Canadian Nutrient File, Health Canada (contains information licensed under the Open \
    Government Licence - Canada); CIQUAL French food composition table 2020, Anses (Licence Ouverte / Etalab). Changed: \
    selected, split and closed to 100 g as each row says. Names known as food: the same, BLS 4.0 (Max Rubner-Institut, CC BY \
    4.0), CIQUAL 2025 (Licence Ouverte / Etalab), CoFID 2021 (Open Government Licence v3.0); changed: selected, folded, sorted.";

/// The keys of `larder.toml` as a JSON Schema (draft 2020-12), from the list of keys that reads it.
pub fn schema() -> serde_json::Value {
    crate::input::schema("a larder", written::FILE)
}

/// All ingredients that can be named.
#[derive(Clone, Debug, Default)]
pub struct Larder {
    ingredients: Vec<Ingredient>,
    /// Folded names, and where the ingredient stands.
    index: HashMap<String, usize>,
    said: Vec<house_file::Said>,
}

static BUILT_IN: LazyLock<Larder> = LazyLock::new(|| Larder::default().overlay(built_in::ingredients()));

impl Larder {
    /// The embedded larder.
    pub fn built_in() -> &'static Self {
        &BUILT_IN
    }

    /// The ingredient with this id, name or alias; capitals, hyphens and simple plurals do not matter.
    pub fn find(&self, name: &str) -> Option<&Ingredient> {
        self.index.get(&fold(name)).and_then(|&i| self.ingredients.get(i))
    }

    /// The other ingredients that a name might mean, where it is not the very name of one: theirs has all of its words
    /// and more ("ceylon cinnamon" of "cinnamon").
    pub(crate) fn others_called(&self, name: &str) -> impl Iterator<Item = &Ingredient> {
        let folded = fold(name);
        let meant = self.find(name).filter(|own| [&own.id, &own.name].iter().all(|n| fold(n) != folded));
        let has_all = move |other: &&str| {
            let other = fold(other);
            let words: Vec<&str> = other.split(' ').collect();
            folded.split(' ').all(|word| words.contains(&word))
        };
        let id = meant.map(|own| own.id.as_str());
        self.iter().filter(move |other| id.is_some_and(|id| id != other.id) && other.all_names().any(|n| has_all(&n)))
    }

    pub(crate) fn said_of(&self, name: &str) -> impl Iterator<Item = &Diagnostic> {
        let key = fold(name);
        self.said.iter().filter(move |entry| fold(&entry.name) == key).flat_map(|entry| &entry.found)
    }

    pub(crate) fn said(&self) -> impl Iterator<Item = &Diagnostic> {
        self.said.iter().flat_map(|entry| &entry.found)
    }

    /// The names of the entries that cannot be used: nothing is found under them.
    pub(crate) fn left_out(&self) -> impl Iterator<Item = &str> {
        self.said.iter().filter(|entry| entry.is_broken()).map(|entry| entry.name.as_str())
    }

    /// With the house's own file over it. An embedded ingredient does not stand in for an entry that cannot be used.
    #[must_use]
    pub(crate) fn with_house(self, house_file::Read { ingredients, said }: house_file::Read) -> Self {
        let mut larder = self.overlay(ingredients);
        for entry in said.iter().filter(|entry| entry.is_broken()) {
            larder.index.remove(&fold(&entry.name));
        }
        larder.said = said;
        larder
    }

    /// The name that was probably meant, as people write it; none when it is not clear.
    pub fn suggest(&self, name: &str) -> Option<&str> {
        let near = nearest_name(name, self.iter().flat_map(Ingredient::all_names))?;
        let by_id = self.iter().find(|ingredient| ingredient.id == near);
        Some(by_id.map_or(near, |ingredient| &ingredient.name))
    }

    /// Every ingredient that can still be named, the embedded ones first.
    pub fn iter(&self) -> impl Iterator<Item = &Ingredient> {
        self.ingredients.iter().enumerate().filter_map(|(i, ingredient)| {
            let named = ingredient.all_names().any(|name| self.index.get(&fold(name)) == Some(&i));
            named.then_some(ingredient)
        })
    }

    /// With these ingredients over it: where a name is taken, theirs is meant. A name goes before an alias.
    #[must_use]
    pub fn overlay(mut self, house: Vec<Ingredient>) -> Self {
        let first = self.ingredients.len();
        self.ingredients.extend(house);
        let numbered = || self.ingredients.iter().enumerate().skip(first);
        for (i, ingredient) in numbered() {
            for alias in &ingredient.aliases {
                self.index.insert(fold(alias), i);
            }
        }
        for (i, ingredient) in numbered() {
            self.index.insert(fold(&ingredient.id), i);
            self.index.insert(fold(&ingredient.name), i);
        }
        self
    }
}
