//! Ingredients: composition, tags, allergens, where each number comes from. An embedded
//! larder, and the house's own `larder.toml` over it.

mod analysis;
mod blank_entry;
mod brix_alone;
mod built_in;
mod entry;
mod finings;
mod fruit;
mod gas;
pub mod house_file;
mod house_has;
pub(crate) mod ingredient;
pub(crate) mod label;
mod lent;
pub(crate) use lent::{TRACE_OF_ALCOHOL, denies_alcohol};
mod measured;
pub(crate) mod packs;
mod per_100g;
mod ph_at_most;
pub(crate) mod portion;
mod sour;
pub(crate) mod spoken;
mod state;
mod strained;
mod strengths;
mod sugars;
mod written;

use std::collections::{BTreeSet, HashMap};
use std::sync::{Arc, LazyLock};

pub(crate) use blank_entry::blank_entry;
pub(crate) use built_in::alkali_words;
pub use ingredient::Form;
pub(crate) use ingredient::HOLDS;
pub use ingredient::{Alkali, Ingredient, Origin, Stated};
pub use portion::PortionWeight;
pub use strained::{Practice, Strained};

use serde::Deserialize;

use crate::diagnostic::Diagnostic;
use crate::spelling::{Memo, fold, nearest_name, words};
use crate::vocabulary::table::{List, rows};
use crate::vocabulary::{Kind, Open, Tag, Word};

/// What the licences of the embedded tables ask to be printed with their figures.
pub(crate) const DATA_NOTICE: &str = "Composition of ingredients: USDA National Nutrient Database for Standard Reference, \
    Releases 24 and 26 (public domain); Canadian Nutrient File, Health Canada (contains information licensed under the Open \
    Government Licence - Canada); CIQUAL French food composition table 2020, Anses (Licence Ouverte / Etalab). Changed: \
    selected, split and closed to 100 g as each row says. Names known as food: the same, BLS 4.0 (Max Rubner-Institut, CC BY \
    4.0), CIQUAL 2025 (Licence Ouverte / Etalab), CoFID 2021 (Open Government Licence v3.0); changed: selected, folded, sorted.";

/// What to do about a name that the larder does not have.
pub(crate) fn to_add(name: &str) -> String {
    format!(
        "describe it in larder.toml beside the formulas; this writes the entry, with what to fill in: stillroom larder add {name:?}"
    )
}

/// The words of the names of the embedded larder, folded.
pub(crate) fn built_in_words() -> impl Iterator<Item = &'static str> {
    built_in::keys().flat_map(|key| key.split(' '))
}

/// The keys of `larder.toml` as a JSON Schema (draft 2020-12), from the list of keys that reads it.
pub fn schema() -> serde_json::Value {
    crate::input::schema("a larder", written::FILE)
}

/// All ingredients that can be named: the embedded ones, and over them those of a house.
#[derive(Clone, Debug, Default)]
pub struct Larder {
    own: Vec<Arc<Ingredient>>,
    /// Folded names of the house, and where the ingredient stands among its own; `None` for an entry that cannot be used,
    /// which no embedded ingredient stands in for.
    index: HashMap<String, Option<usize>>,
    /// What of it bears a name of the embedded larder.
    has: house_has::HouseHas,
    said: Vec<house_file::Said>,
    /// One slip of the pen stands on many cards, and every name is looked at for it. Forgotten where the larder changes.
    suggested: Arc<Memo<Suggestion>>,
}

/// What a name that nothing has may mean.
#[derive(Clone, Debug)]
pub(crate) struct Suggestion {
    /// The one that was probably meant.
    pub(crate) near: Option<String>,
    /// Else those that have all of its words, up to [`MOST_MEANT`].
    pub(crate) which: Vec<String>,
}

/// So many things that a name may mean are offered.
const MOST_MEANT: usize = 4;

static BUILT_IN: LazyLock<Larder> = LazyLock::new(Larder::default);

#[derive(Deserialize)]
struct WhichRow {
    name: String,
    which: List<String>,
}

/// The things that an everyday name may mean, by that name folded.
static WHICH: LazyLock<HashMap<String, Vec<String>>> = LazyLock::new(|| {
    let read: Vec<WhichRow> = rows("which.csv", include_str!("data/which.csv"));
    read.into_iter().map(|row| (fold(&row.name), row.which.0)).collect()
});

/// What an everyday name may mean that by itself names no one thing.
pub(crate) fn which_of(name: &str) -> Option<Vec<String>> {
    WHICH.get(&fold(name)).cloned()
}

impl Larder {
    /// The embedded larder.
    pub fn built_in() -> &'static Self {
        &BUILT_IN
    }

    /// Whether an embedded ingredient has this id.
    pub(crate) fn embeds(id: &str) -> bool {
        built_in::has_id(id)
    }

    /// The ingredient with this id, name or alias; capitals, hyphens and simple plurals do not matter. A bottle
    /// may be named with the strength of its label ("rum 54%").
    pub fn find(&self, name: &str) -> Option<&Ingredient> {
        let written = |name: &str| self.find_folded(&fold(name));
        // A label writes 50% as well as 50 %, and a name of the larder has one of the two.
        let found = written(name).or_else(|| {
            let joined = name.contains('%').then(|| name.replace(" %", "%"))?;
            let other = written(&joined).or_else(|| written(&name.replace('%', " %")));
            other.or_else(|| strengths::at_strength(&fold(&joined)))
        });
        found.or_else(|| strengths::at_strength(&fold(&strengths::in_percent(name)?)))
    }

    /// An ingredient with all that is the same thing under another of its names: an entry of the house that bears a name of the embedded
    /// one, and that one itself. Of an entry of the house no other entry is: it has them apart.
    pub(crate) fn same_as<'l>(&'l self, of: &'l Ingredient) -> Vec<&'l Ingredient> {
        let row = |of: &Ingredient| Self::built_in().find(&of.name).map(|row| &row.id);
        let own = self.of_house().filter(|own| of.origin == Origin::BuiltIn && row(own) == Some(&of.id));
        let embedded = Self::built_in().find(&of.name).filter(|embedded| embedded.name != of.name);
        std::iter::once(of).chain(own).chain(embedded).collect()
    }

    fn find_folded(&self, key: &str) -> Option<&Ingredient> {
        match self.index.get(key) {
            Some(own) => own.and_then(|place| self.own.get(place)).map(Arc::as_ref),
            None => self.of_house_alone(key).or_else(|| built_in::place_of(key).and_then(built_in::at)),
        }
    }

    /// The one entry of the house that a folded name means which is none of its own; none where there are several.
    fn of_house_alone(&self, key: &str) -> Option<&Ingredient> {
        match self.has.meant(key, &self.own).as_slice() {
            [only] => self.own.get(*only).map(Arc::as_ref),
            _ => None,
        }
    }

    /// Whether a name was taken as this entry of the house, which does not bear it.
    pub(crate) fn is_taken_as(&self, name: &str, taken: &Ingredient) -> bool {
        taken.origin != Origin::BuiltIn && taken.written_names().all(|own| fold(own) != fold(name))
    }

    /// The entries of the house that a name may mean which is the very name of none of them, where there are several: nobody but the
    /// maker knows which bottle is poured.
    pub(crate) fn several_of_house(&self, name: &str) -> Vec<&Ingredient> {
        let key = fold(name);
        let several = Some(self.has.meant(&key, &self.own)).filter(|meant| meant.len() > 1);
        let several = several.filter(|_| !self.index.contains_key(&key)).unwrap_or_default();
        several.into_iter().filter_map(|place| self.own.get(place)).map(Arc::as_ref).collect()
    }

    /// What is poured where a line measures a solid by volume: of a citrus fruit its juice; of what nobody measures by spoons its
    /// extract: of vanilla, and not of almonds, of which the larder knows a cup.
    pub(crate) fn poured_of(&self, name: &str) -> Option<String> {
        let heaped = |portion: &PortionWeight| portion.ml.is_some();
        let solid = self.find(name).filter(|known| known.form == Form::Solid && known.bulk_density.is_none())?;
        let is_liquid = |name: &String| self.find(name).is_some_and(|known| known.form == Form::Liquid);
        let made = |of: &'static str| {
            solid.all_names().map(move |name| format!("{} {of}", words(name).join(" "))).find(is_liquid)
        };
        let is_citrus = solid.kind == Some(Kind::Fruit) && solid.tags.contains(&Open::Known(Tag::Citrus));
        let juice = is_citrus.then(|| made("juice")).flatten();
        juice.or_else(|| made("extract").filter(|_| !solid.portions.iter().any(heaped)))
    }

    /// The other ingredients that a name might mean, where it is not the very name of one: things of the same kind of
    /// which a name has all of its words and more ("ceylon cinnamon" of "cinnamon").
    pub(crate) fn others_called(&self, name: &str) -> impl Iterator<Item = &Ingredient> {
        let folded = fold(name);
        let meant = self.find(name).filter(|own| [&own.id, &own.name].iter().all(|n| fold(n) != folded));
        let others = meant.map(|_| self.with_all_words(&folded)).unwrap_or_default();
        others.into_iter().filter(move |other| meant.is_some_and(|own| own.id != other.id && own.kind == other.kind))
    }

    /// The shortest name, of each ingredient that has one with all words of what is written, for "which of these".
    pub(crate) fn with_the_words_of(&self, name: &str) -> impl Iterator<Item = &str> {
        let folded = fold(name);
        let words: Vec<String> = folded.split(' ').map(str::to_owned).collect();
        let shortest = move |one: &'_ Ingredient| -> Option<usize> {
            let has_all = |other: &str| words.iter().all(|word| fold(other).split(' ').any(|w| w == word));
            let named = one.written_names().enumerate().filter(|(_, other)| has_all(other));
            named.min_by_key(|(_, other)| other.len()).map(|(place, _)| place)
        };
        let meant = if folded.is_empty() { Vec::new() } else { self.with_all_words(&folded) };
        meant.into_iter().filter_map(move |one| one.written_names().nth(shortest(one)?))
    }

    /// What has a name with all of these words, in the order of the larder.
    fn with_all_words(&self, folded: &str) -> Vec<&Ingredient> {
        let words: Vec<&str> = folded.split(' ').collect();
        let has_all = |other: &str| words.iter().all(|word| other.split(' ').any(|of_other| of_other == *word));
        let embedded: BTreeSet<usize> =
            built_in::with_words(&words).filter(|(key, _)| !self.index.contains_key(*key)).map(|(_, at)| at).collect();
        let own = self.index.iter().filter(|(key, _)| has_all(key)).filter_map(|(_, place)| *place);
        let own: BTreeSet<usize> = own.collect();
        let embedded = embedded.into_iter().filter_map(|at| -> Option<&Ingredient> { built_in::at(at) });
        embedded.chain(own.into_iter().filter_map(|place| self.own.get(place)).map(Arc::as_ref)).collect()
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
            larder.index.insert(fold(&entry.name), None);
        }
        larder.suggested = Arc::default();
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
    pub fn suggest(&self, name: &str) -> Option<String> {
        self.meant_by(name).near.clone()
    }

    /// What a name that nothing has may mean; looked for once.
    pub(crate) fn meant_by(&self, name: &str) -> Arc<Suggestion> {
        self.suggested.of(name, |name| {
            if let Some(which) = which_of(name) {
                return Suggestion { near: None, which };
            }
            let near = self.look_for_near(name).map(str::to_owned);
            let others =
                near.is_none().then(|| self.with_the_words_of(name).take(MOST_MEANT).map(str::to_owned).collect());
            Suggestion { near, which: others.unwrap_or_default() }
        })
    }

    /// Of the things that an everyday name may mean the one that is a plant, where it is one alone.
    pub(crate) fn plant_of(&self, name: &str) -> Option<String> {
        let meant = which_of(name)?;
        let mut plants = meant.iter().filter(|one| self.find(one).is_some_and(Ingredient::is_plant_matter));
        let first = plants.next()?;
        let id = |name: &String| self.find(name).map(|known| &known.id);
        plants.all(|other| id(other) == id(first)).then(|| first.clone())
    }

    fn look_for_near(&self, name: &str) -> Option<&str> {
        let kind = self.kind_said(name);
        // Where things of several kinds have all of its words (`cream`), nobody knows which is meant.
        let kinds: BTreeSet<Option<Kind>> = self.with_all_words(&fold(name)).into_iter().map(|i| i.kind).collect();
        if kind.is_none() && kinds.len() > 1 {
            return None;
        }
        let near = |i: &&Ingredient| kind.is_none() || i.kind.is_none() || i.kind == kind;
        let near = nearest_name(name, self.iter().filter(near).flat_map(Ingredient::all_names))?;
        // what feeds yeast is no yeast: an aid is called by what it is for
        let is_for = fold(near).strip_prefix(&fold(name)).is_some_and(|rest| rest.starts_with(' '));
        if is_for && self.find(near).is_some_and(|known| known.kind == Some(Kind::ProcessAid)) {
            return None;
        }
        let by_id = self.iter().find(|ingredient| ingredient.id == near);
        Some(by_id.map_or(near, |ingredient| &ingredient.name))
    }

    /// The kind of thing that a name says it is by its last word: that of a kind, or the name of something.
    fn kind_said(&self, name: &str) -> Option<Kind> {
        let folded = fold(name);
        let (_, last) = folded.rsplit_once(' ')?;
        Kind::parse(last).or_else(|| self.find(last)?.kind)
    }

    /// The entries of the house itself.
    pub(crate) fn of_house(&self) -> impl Iterator<Item = &Ingredient> {
        self.own.iter().map(Arc::as_ref)
    }

    /// Every ingredient that can still be named, the embedded ones first.
    pub fn iter(&self) -> impl Iterator<Item = &Ingredient> {
        let mut names = built_in::names_of_each();
        for place in self.index.keys().filter_map(|own| built_in::place_of(own)) {
            names[place] -= 1;
        }
        let of_own: BTreeSet<usize> = self.index.values().filter_map(|place| *place).collect();
        let named = names.into_iter().enumerate().filter(|(_, names)| *names > 0);
        let embedded = named.filter_map(|(at, _)| -> Option<&Ingredient> { built_in::at(at) });
        embedded.chain(of_own.into_iter().filter_map(|place| self.own.get(place)).map(Arc::as_ref))
    }

    /// With these ingredients over it: where a name is taken, theirs is meant. A name goes before an alias.
    #[must_use]
    pub fn overlay(mut self, house: Vec<Ingredient>) -> Self {
        self.suggested = Arc::default();
        let first = self.own.len();
        self.own.extend(house.into_iter().map(Arc::new));
        let numbered = || self.own.iter().enumerate().skip(first);
        for (i, ingredient) in numbered() {
            for alias in &ingredient.aliases {
                self.index.insert(fold(alias), Some(i));
            }
        }
        for (i, ingredient) in numbered() {
            self.index.insert(fold(&ingredient.id), Some(i));
            self.index.insert(fold(&ingredient.name), Some(i));
        }
        let has = house_has::HouseHas::of(&self.own, |name, place| self.index.get(name) == Some(&Some(place)));
        Self { has, ..self }
    }
}
