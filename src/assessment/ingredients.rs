//! The ingredients of a solved card by what they are.

use std::collections::BTreeSet;

use crate::larder::Ingredient;
use crate::safety;
use crate::solver::Solved;
use crate::vocabulary::{Open, Tag};

/// The ingredients that carry one of these tags, by their larder entry or by what they are called, with their grams.
pub(super) fn tagged<'a>(solved: &'a Solved, tags: &[Tag]) -> Vec<(&'a Ingredient, f64)> {
    let tags: BTreeSet<Tag> = tags.iter().copied().collect();
    let by_name = |i: &Ingredient| i.own_names().any(|name| !safety::names::find(name).tags.is_disjoint(&tags));
    let is = |i: &Ingredient| i.tags.iter().filter_map(Open::known).any(|tag| tags.contains(&tag)) || by_name(i);
    solved.ingredients().into_iter().filter(|(i, _)| is(i)).collect()
}

pub(super) fn grams_tagged(solved: &Solved, tags: &[Tag]) -> f64 {
    tagged(solved, tags).iter().map(|(_, grams)| grams).sum()
}
