//! What of the house's own a name means that is none of its names: `white rum` where the house has `white rum 40 %`.

use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

use crate::mixture::{Component, alcohol};
use crate::spelling::fold;

use super::built_in;
use super::ingredient::Ingredient;
use super::strengths;

/// A bottle of the house that is stronger than what the larder has under a name by more than so much, % vol, is not what is meant by
/// that name alone (ours): an overproof rum is named as one.
const STRONGER: f64 = 5.0;
/// What tells two strengths of labels apart, % vol (ours).
const ONE_STRENGTH: f64 = 0.05;
/// From so much alcohol on, grams in a gram, one row of the larder stands for bottles that no maker would call the same (ours).
const ALCOHOLIC: f64 = 0.01;

/// A folded name as one of a row of the embedded larder.
struct RowName<'k> {
    row: usize,
    /// Without its strength.
    bare: String,
    /// The strength that it tells, % vol.
    strength: Option<f64>,
    key: &'k str,
}

impl<'k> RowName<'k> {
    fn of(key: &'k str) -> Option<Self> {
        let (bare, strength) = without_strength(key);
        let row = built_in::place_of(&bare).or_else(|| built_in::place_of(key))?;
        Some(Self { row, bare, strength, key })
    }

    /// Whether it is what the larder calls this row: the words of a food, all words of a bottle.
    fn is_main(&self, row: &Ingredient, is_bottle: bool) -> bool {
        let own: BTreeSet<&str> = self.bare.split(' ').collect();
        let (name, _) = without_strength(&fold(&row.name));
        let name: BTreeSet<&str> = name.split(' ').collect();
        if is_bottle { own == name } else { own.is_subset(&name) }
    }

    fn has_words_of(&self, other: &Self) -> bool {
        let own: Vec<&str> = self.bare.split(' ').collect();
        other.bare.split(' ').all(|word| own.contains(&word))
    }

    /// Whether both are one thing: one is the other with a word more, or what the larder calls them. Scotch and Irish whiskey have a row
    /// in common, and neither is the other.
    fn is_same(&self, house: &Self, row: &Ingredient) -> bool {
        let is_bottle = row.per_gram.grams_of(Component::Ethanol) > ALCOHOLIC;
        let english = || "en".to_owned();
        let language = |name: &Self| built_in::language_of(name.row, name.key).unwrap_or_else(english);
        let is_translated = || language(self) != language(house);
        self.has_words_of(house)
            || house.has_words_of(self)
            || house.is_main(row, is_bottle)
            || self.is_main(row, is_bottle) && is_translated()
    }
}

/// A folded name without the strength of a label, and that: of `40 %` the sign is lost where a space parts it from its number.
fn without_strength(key: &str) -> (String, Option<f64>) {
    let ends_in_number = key.rsplit(' ').next().is_some_and(|last| last.parse::<f64>().is_ok());
    let signed = if ends_in_number { format!("{key}%") } else { key.to_owned() };
    let parted = signed.contains('%').then(|| strengths::parted(&signed)).flatten();
    parted.map_or_else(|| (key.to_owned(), None), |(bare, told)| (bare, Some(told)))
}

/// The strength of a bottle without what is dissolved in it, % vol: nearly that of its label, where there is little.
fn abv(of: &Ingredient) -> f64 {
    of.per_gram.abv().map_or_else(|_| alcohol::solvent_abv(&of.per_gram).get(), |abv| abv.value.get())
}

fn has_name(entry: &Ingredient, is: impl Fn(&RowName<'_>) -> bool) -> bool {
    let names: Vec<String> = entry.written_names().map(fold).collect();
    names.iter().filter_map(|name| RowName::of(name)).any(|name| is(&name))
}

/// The entries of a house that bear a name of an embedded ingredient, by the place of that.
#[derive(Clone, Debug, Default)]
pub(super) struct HouseHas(HashMap<usize, BTreeSet<usize>>);

impl HouseHas {
    pub(super) fn of(own: &[Arc<Ingredient>], is_found: impl Fn(&str, usize) -> bool) -> Self {
        let mut by_row: HashMap<usize, BTreeSet<usize>> = HashMap::new();
        for (place, entry) in own.iter().enumerate() {
            let names = entry.written_names().map(fold).filter(|name| is_found(name, place));
            for name in names.collect::<Vec<_>>() {
                if let Some(named) = RowName::of(&name) {
                    by_row.entry(named.row).or_default().insert(place);
                }
            }
        }
        Self(by_row)
    }

    /// The places of those that a folded name may mean.
    pub(super) fn meant(&self, key: &str, own: &[Arc<Ingredient>]) -> Vec<usize> {
        let Some(asked) = (!self.0.is_empty()).then(|| RowName::of(key)).flatten() else { return Vec::new() };
        let places = self.0.get(&asked.row).into_iter().flatten().copied();
        let Some(row) = built_in::at(asked.row) else { return Vec::new() };
        let is_meant = |place: &usize| {
            let Some(entry) = own.get(*place) else { return false };
            let own = abv(entry);
            let is_so_strong = match asked.strength {
                Some(told) => (own - told).abs() < ONE_STRENGTH,
                None => own < abv(row) + STRONGER,
            };
            is_so_strong && has_name(entry, |name| asked.is_same(name, row))
        };
        let meant: Vec<usize> = places.filter(is_meant).collect();
        // of white rum and gold rum the one that is called white rum
        let is_called =
            |place: &&usize| own.get(**place).is_some_and(|of| has_name(of, |name| name.bare == asked.bare));
        let called: Vec<usize> = meant.iter().filter(is_called).copied().collect();
        if called.is_empty() { meant } else { called }
    }
}
