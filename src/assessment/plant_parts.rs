//! What a step points at of a listed plant without its name: "leave the stones in", "leaf and stalk", "use bitter ones". With the name
//! of the line it may name a danger, as a line of it would.

use std::sync::LazyLock;

use crate::larder::Ingredient;
use crate::safety::names::{self, Found};
use crate::safety::steps;
use crate::solver::Solved;
use crate::vocabulary::Kind;
use crate::vocabulary::table::lists;

crate::vocabulary::words! {
    /// A list of `plant-parts.csv`, which says what each is of.
    PlantWord, "list of parts of plants":
    Stone = "stone",
    Seed = "seed",
    Leaf = "leaf",
    Bitter = "bitter",
    Japanese = "japanese",
    The = "the",
    GoesOut = "goes_out",
    OtherKind = "other_kind",
}

static LISTS: LazyLock<Vec<(PlantWord, &str)>> =
    LazyLock::new(|| lists("plant-parts.csv", include_str!("plant-parts.csv")));

impl PlantWord {
    fn has(self, word: &str) -> bool {
        LISTS.iter().any(|(list, own)| *list == self && *own == word)
    }
}

/// So many words at the most stand between what is forbidden and its thing.
const FORBIDDEN_WITHIN: usize = 3;

/// What a step gives away together with what the card lists.
pub(super) fn pointed_at(step: &str, solved: &Solved) -> Found {
    let mut found = Found::default();
    let plants: Vec<&Ingredient> = solved.ingredients().into_iter().map(|(plant, _)| plant).collect();
    let has_kind = |kinds: &[Kind]| plants.iter().any(|plant| plant.kind.is_some_and(|kind| kinds.contains(&kind)));
    for words in steps::told_clauses(step) {
        let any = |list: PlantWord| words.iter().any(|word| list.has(word));
        if any(PlantWord::GoesOut) {
            continue;
        }
        // "the stones", "with their stones", "leaf and stalk"; never "a stone", "mint leaves", nor "without breaking the stones", of which
        // what is forbidden is a gap
        let is_meant = |at: usize, alone: bool| {
            let front = words.get(..at).unwrap_or_default();
            let is_forbidden = front.iter().rev().take(FORBIDDEN_WITHIN).any(String::is_empty);
            !is_forbidden && front.last().map_or(alone, |before| PlantWord::The.has(before))
        };
        let part =
            |list: PlantWord, alone: bool| (0..words.len()).any(|at| list.has(&words[at]) && is_meant(at, alone));
        // "pit, crush": the verb of it stands alone. Leaves may be those of the herb that the card has.
        let has_stone = part(PlantWord::Stone, false);
        let has_seed = (part(PlantWord::Seed, false) || has_stone) && !has_kind(&[Kind::Seed, Kind::Spice]);
        let has_leaf = part(PlantWord::Leaf, true) && !has_kind(&[Kind::Herb, Kind::Leaf, Kind::Tea, Kind::Flower]);
        let is_kind = any(PlantWord::OtherKind);
        for plant in &plants {
            let own = names::find(&plant.name);
            let mut add = |named: String| {
                let of = names::find(&named);
                if of.tags.difference(&own.tags).next().is_some() {
                    found.add(Found::clone(&of));
                }
            };
            let parts = [(has_stone, "stone"), (has_seed, "seed"), (has_leaf, "leaf")];
            parts.iter().filter(|(has, _)| *has).for_each(|(_, part)| add(format!("{} {part}", plant.name)));
            let kinds = [(PlantWord::Bitter, "bitter"), (PlantWord::Japanese, "japanese")];
            kinds
                .iter()
                .filter(|(list, _)| is_kind && any(*list))
                .for_each(|(_, kind)| add(format!("{kind} {}", plant.name)));
        }
    }
    found
}
