//! The names that are known as food, and those known not to be used: one sorted table, in which a name is looked for
//! without the rest being read.
//!
//! What is not here is not known, which says nothing against it; what is here is not cleared of allergens or of
//! hazards: those are read from names by [`super::names`], whatever stands here.

use std::collections::{BTreeSet, HashSet};
use std::sync::{Arc, LazyLock};

use serde::Deserialize;

use crate::spelling::{Memo, NameWord, fold, name_words};
use crate::vocabulary::table::{self, List, LongTable};
use crate::vocabulary::{Allergen, is_qualifier};

/// Sorted by the folded names, so that one is found by halving.
static FOODS: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("foods-known.csv", include_str!("data/foods-known.csv")));

/// What is known of a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum KnownAs {
    /// Food; where somebody restricts it, why.
    Food { restricted: Option<String> },
    /// Not to be used, and why.
    NotUsed { reason: String },
}

/// What the table says of the use of a name.
#[derive(Clone, Copy, Deserialize)]
enum UseStatus {
    /// Nothing: it is food.
    #[serde(rename = "")]
    Unsaid,
    #[serde(rename = "permitted")]
    Permitted,
    /// By itself, or by the rules of some markets: those that bar it are cautions.
    #[serde(
        rename = "restricted",
        alias = "not to be used (US)",
        alias = "not to be used (US); restricted (EU)",
        alias = "not to be used (many markets)"
    )]
    Restricted,
    #[serde(rename = "not to be used")]
    NotUsed,
}

/// The kinds of food that come with an allergen; what stands beside another kind is a key word of a description.
#[derive(Clone, Copy, PartialEq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum FoodKind {
    Dairy,
    #[serde(rename = "dairy or egg")]
    DairyOrEgg,
    Egg,
    Fish,
    Nut,
    #[serde(rename = "plant_milk")]
    PlantMilk,
    Cereal,
    Beer,
    Wine,
    Fortified,
    Fruit,
    Vegetable,
    Juice,
    Puree,
    Legume,
    Herb,
    Flower,
    Tea,
    Meat,
    Drink,
    #[serde(other)]
    Other,
}

impl FoodKind {
    /// The allergen that a food of the kind has where none is listed.
    fn usual(self) -> Option<Allergen> {
        match self {
            Self::Dairy => Some(Allergen::Milk),
            Self::Egg => Some(Allergen::Egg),
            Self::Fish => Some(Allergen::Fish),
            _ => None,
        }
    }

    /// Whether what the list says of the allergens of such foods is read.
    fn lists_allergens(self) -> bool {
        !self.is_of_plants() && !matches!(self, Self::Meat | Self::Other)
    }

    fn is_of_plants(self) -> bool {
        matches!(
            self,
            Self::Fruit
                | Self::Vegetable
                | Self::Juice
                | Self::Puree
                | Self::Legume
                | Self::Herb
                | Self::Flower
                | Self::Tea
                | Self::Drink
        )
    }

    /// Whether a food of the kind spoils as it is: nothing in it keeps it.
    fn spoils(self) -> bool {
        self.is_of_plants()
            || matches!(self, Self::Dairy | Self::DairyOrEgg | Self::Egg | Self::Fish | Self::PlantMilk | Self::Meat)
    }
}

#[derive(Deserialize)]
struct FoodRow {
    kind: FoodKind,
    allergen: List<Allergen>,
    status: UseStatus,
    reason: String,
}

/// The allergens that a name of the list brings, and those that a food of its kind usually does.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Brings {
    pub(crate) surely: BTreeSet<Allergen>,
    pub(crate) perhaps: BTreeSet<Allergen>,
}

/// What the list says of the allergens of a name as it is written. Blank: none was noticed, which is not none.
pub(crate) fn allergens_of(name: &str) -> Arc<Brings> {
    static BRINGS: Memo<Brings> = Memo::new();
    BRINGS.of(name, |name| {
        let mut brings = Brings::default();
        // "rohes Eiklar" brings what Eiklar does
        let rows = keys_of(name).into_iter().find(|key| rows_of(key).next().is_some());
        let rows = rows.iter().flat_map(|key| rows_of(key).map(read));
        for row in rows.filter(|row| row.kind.lists_allergens()) {
            match row.allergen.is_empty() {
                true => brings.perhaps.extend(row.kind.usual()),
                false => brings.surely.extend(row.allergen.iter()),
            }
        }
        brings
    })
}

#[derive(Deserialize)]
struct VagueRow {
    word: String,
}

/// Names that by themselves name no one thing.
static VAGUE: LazyLock<HashSet<String>> = LazyLock::new(|| {
    let rows: Vec<VagueRow> = table::rows("vague-names.csv", include_str!("data/vague-names.csv"));
    rows.iter().map(|row| fold(&row.word)).collect()
});

/// What a name is known as: by itself, or without the words that change nothing of what a thing is ("fresh", "45 %").
/// What it denies or leaves in doubt is no such word.
pub(crate) fn known_as(name: &str) -> Option<KnownAs> {
    static KNOWN: Memo<Option<KnownAs>> = Memo::new();
    KNOWN.of(name, look_for).as_ref().clone()
}

fn look_for(name: &str) -> Option<KnownAs> {
    keys_of(name).iter().find_map(|key| look_up(key))
}

/// Whether the list knows it as a beer or a wine.
pub(crate) fn is_beer_or_wine(name: &str) -> bool {
    let rows = keys_of(name).into_iter().flat_map(|key| rows_of(&key).collect::<Vec<_>>());
    rows.map(read).any(|row| matches!(row.kind, FoodKind::Beer | FoodKind::Wine))
}

/// Whether the list knows this name for a food that nothing keeps: a juice, a milk, a broth.
pub(crate) fn is_perishable(name: &str) -> bool {
    let rows = keys_of(name).into_iter().flat_map(|key| rows_of(&key).collect::<Vec<_>>());
    rows.map(read).any(|row| row.kind.spoils())
}

/// Whether the list knows this name for a plant, or for what was pressed of one.
pub(crate) fn is_of_plant(name: &str) -> bool {
    let rows = keys_of(name).into_iter().flat_map(|key| rows_of(&key).collect::<Vec<_>>());
    rows.map(read).any(|row| row.kind.is_of_plants())
}

/// A name folded, and without the words that change nothing of what a thing is, where it has any.
fn keys_of(name: &str) -> Vec<String> {
    let whole = fold(name);
    let words = name_words(name);
    let plain: Vec<&str> = words.iter().filter(|word| !changes_nothing(word)).map(|w| w.text.as_str()).collect();
    let plain = plain.join(" ");
    if plain == whole { vec![whole] } else { vec![whole, plain] }
}

/// A strength, or a word of the list; not where it is denied.
fn changes_nothing(word: &NameWord) -> bool {
    let is_number = word.text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '%'));
    !word.denied && (is_number || is_qualifier(&word.text))
}

/// What the rows of one folded name say: the gravest of them counts.
fn look_up(key: &str) -> Option<KnownAs> {
    if key.is_empty() || VAGUE.contains(key) {
        return None;
    }
    let mut gravest = None;
    for row in rows_of(key).map(read) {
        let known = match row.status {
            UseStatus::NotUsed => KnownAs::NotUsed { reason: row.reason },
            UseStatus::Unsaid | UseStatus::Permitted => KnownAs::Food { restricted: None },
            UseStatus::Restricted => KnownAs::Food { restricted: Some(row.reason).filter(|r| !r.is_empty()) },
        };
        let graver = match (&gravest, &known) {
            (None, _) | (Some(KnownAs::Food { restricted: None }), _) => true,
            (Some(_), KnownAs::NotUsed { .. }) => true,
            (Some(_), KnownAs::Food { .. }) => false,
        };
        if graver {
            gravest = Some(known);
        }
    }
    gravest
}

fn read(line: &'static str) -> FoodRow {
    FOODS.read_line(line)
}

/// The lines with this key.
fn rows_of(key: &str) -> impl Iterator<Item = &'static str> + use<> {
    FOODS.lines_of(key)
}
