//! Ingredients: composition, tags, allergens, where each number comes from. An embedded
//! larder, and the house's own `larder.toml` over it.

mod analysis;
mod blank_entry;
mod built_in;
mod entry;
pub mod house_file;
pub(crate) mod ingredient;
pub(crate) mod label;
mod lent;
mod measured;
mod per_100g;
pub(crate) mod portion;
mod strained;
mod written;

use std::collections::{BTreeSet, HashMap};
use std::sync::{Arc, LazyLock};

pub(crate) use built_in::alkali_words;
pub(crate) use blank_entry::blank_entry;
pub use ingredient::Form;
pub(crate) use ingredient::HOLDS;
pub use ingredient::{Ingredient, Origin, Stated};
pub use portion::PortionWeight;
pub use strained::{Practice, Strained};

use crate::diagnostic::Diagnostic;
use crate::spelling::{fold, nearest_name};
use crate::vocabulary::{Kind, Word};

/// What the licences of the embedded tables ask to be printed with their figures.
pub(crate) const DATA_NOTICE: &str = "Composition of ingredients: USDA National Nutrient Database for Standard Reference, \
    Release 26 (public domain); Canadian Nutrient File, Health Canada (contains information licensed under the Open \
    Government Licence - Canada); CIQUAL French food composition table 2020, Anses (Licence Ouverte / Etalab). Changed: \
    selected, split and closed to 100 g as each row says. Names known as food: the same, BLS 4.0 (Max Rubner-Institut, CC BY \
    4.0), CIQUAL 2025 (Licence Ouverte / Etalab), CoFID 2021 (Open Government Licence v3.0); changed: selected, folded, sorted.";

/// What to do about a name that the larder does not have.
pub(crate) fn to_add(name: &str) -> String {
    format!(
        "describe it in larder.toml beside the formulas; this writes the entry, with what to fill in: stillroom larder add {name:?}"
    )
}

/// The keys of `larder.toml` as a JSON Schema (draft 2020-12), from the list of keys that reads it.
pub fn schema() -> serde_json::Value {
    crate::input::schema("a larder", written::FILE)
}

/// All ingredients that can be named.
#[derive(Clone, Debug, Default)]
pub struct Larder {
    ingredients: Vec<Arc<Ingredient>>,
    /// Folded names, and where the ingredient stands.
    index: HashMap<String, usize>,
    said: Vec<house_file::Said>,
}

static BUILT_IN: LazyLock<Larder> = LazyLock::new(Larder::embedded);

impl Larder {
    /// The names of the embedded tables stand folded in one of their own: to fold thousands at every start is slow.
    fn embedded() -> Self {
        let ingredients: Vec<Arc<Ingredient>> = built_in::ingredients().into_iter().map(Arc::new).collect();
        let places: HashMap<&str, usize> =
            ingredients.iter().enumerate().map(|(place, ingredient)| (ingredient.id.as_str(), place)).collect();
        let index = built_in::keys(|id| places.get(id).copied());
        Self { ingredients, index, said: Vec::new() }
    }

    /// The embedded larder.
    pub fn built_in() -> &'static Self {
        &BUILT_IN
    }

    /// The ingredient with this id, name or alias; capitals, hyphens and simple plurals do not matter.
    pub fn find(&self, name: &str) -> Option<&Ingredient> {
        self.index.get(&fold(name)).and_then(|&i| self.ingredients.get(i)).map(Arc::as_ref)
    }

    /// The other ingredients that a name might mean, where it is not the very name of one: things of the same kind of
    /// which a name has all of its words and more ("ceylon cinnamon" of "cinnamon").
    pub(crate) fn others_called(&self, name: &str) -> impl Iterator<Item = &Ingredient> {
        let folded = fold(name);
        let meant = self.find(name).filter(|own| [&own.id, &own.name].iter().all(|n| fold(n) != folded));
        let others = meant.map(|_| self.with_all_words(&folded)).unwrap_or_default();
        others.into_iter().filter(move |other| meant.is_some_and(|own| own.id != other.id && own.kind == other.kind))
    }

    /// What has a name with all of these words, in the order of the larder.
    fn with_all_words(&self, folded: &str) -> Vec<&Ingredient> {
        let words: Vec<&str> = folded.split(' ').collect();
        let has_all = |other: &str| words.iter().all(|word| other.split(' ').any(|w| w == *word));
        let places: BTreeSet<usize> = self.index.iter().filter(|(name, _)| has_all(name)).map(|(_, &i)| i).collect();
        places.into_iter().filter_map(|i| self.ingredients.get(i)).map(Arc::as_ref).collect()
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

    /// With entries that came with a card over it; what is said of the house's own stays.
    #[must_use]
    pub(crate) fn with_more(mut self, read: house_file::Read) -> Self {
        let said = std::mem::take(&mut self.said);
        let mut larder = self.with_house(read);
        larder.said.extend(said);
        larder
    }

    /// The name that was probably meant, as people write it; none when it is not clear, and never that of a thing of
    /// another kind where the name says of which kind it is (`red wine` is no vinegar).
    pub fn suggest(&self, name: &str) -> Option<&str> {
        let kind = self.kind_said(name);
        // Where things of several kinds have all of its words (`cream`), nobody knows which is meant.
        let kinds: BTreeSet<Option<Kind>> = self.with_all_words(&fold(name)).into_iter().map(|i| i.kind).collect();
        if kind.is_none() && kinds.len() > 1 {
            return None;
        }
        let near = |i: &&Ingredient| kind.is_none() || i.kind.is_none() || i.kind == kind;
        let near = nearest_name(name, self.iter().filter(near).flat_map(Ingredient::all_names))?;
        let by_id = self.iter().find(|ingredient| ingredient.id == near);
        Some(by_id.map_or(near, |ingredient| &ingredient.name))
    }

    /// The kind of thing that a name says it is by its last word: that of a kind, or the name of something.
    fn kind_said(&self, name: &str) -> Option<Kind> {
        let folded = fold(name);
        let (_, last) = folded.rsplit_once(' ')?;
        Kind::parse(last).or_else(|| self.find(last)?.kind)
    }

    /// Every ingredient that can still be named, the embedded ones first.
    pub fn iter(&self) -> impl Iterator<Item = &Ingredient> {
        let mut named = vec![false; self.ingredients.len()];
        for &i in self.index.values() {
            if let Some(named) = named.get_mut(i) {
                *named = true;
            }
        }
        self.ingredients.iter().zip(named).filter(|(_, named)| *named).map(|(ingredient, _)| ingredient.as_ref())
    }

    /// With these ingredients over it: where a name is taken, theirs is meant. A name goes before an alias.
    #[must_use]
    pub fn overlay(mut self, house: Vec<Ingredient>) -> Self {
        let first = self.ingredients.len();
        self.ingredients.extend(house.into_iter().map(Arc::new));
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
