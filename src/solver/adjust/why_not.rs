//! Why nothing on the shelf brings a batch to what it shall be, and what would.

use crate::card::Card;
use crate::house::House;
use crate::mixture::{Component, Mixture};
use crate::properties::value_of;

use super::super::balance::MassBalance;
use super::super::card;
use super::super::error::AdjustError;
use super::super::resolve::Material;
use super::super::target::TargetValue;
use super::super::{Solved, SolvedPart};
use super::least::{self, is_met};
use super::shelf::{MOST_PARTS, ShelfChoice, put};

/// Why nothing on the shelf does it, and what would.
pub(super) fn no_answer(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    shelf: &[ShelfChoice],
    targets: &[TargetValue],
) -> AdjustError {
    let has = |&(kind, asked): &TargetValue| value_of(kind, batch).filter(|has| !is_met(asked, *has));
    let on_shelf = |part: &SolvedPart| shelf.iter().flatten().any(|p| p.found.per_gram == part.found.per_gram);
    AdjustError::OutOfReach {
        shelf: shelf.iter().flatten().map(|part| part.label.clone()).collect(),
        targets: targets.iter().map(|target| (*target, has(target))).collect(),
        would: with_everything(card, house, solved, batch, shelf, targets)
            .map(|add| add.into_iter().map(|p| (p.label.clone(), p.mass_g, on_shelf(&p))).collect()),
        boil_off: water_to_boil_off(card, house, solved, batch, targets)
            .map(|water_g| (water_g, batch.total_grams() - water_g)),
    }
}

/// What would do it if every part of the card that can be stirred in, a sugar and water were at hand.
fn with_everything(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    shelf: &[ShelfChoice],
    targets: &[TargetValue],
) -> Option<Vec<SolvedPart>> {
    let mut all = shelf.to_vec();
    let soluble: Vec<SolvedPart> = solved
        .stages
        .iter()
        .flat_map(|s| &s.parts)
        .filter(|p| p.feed.holds.is_none() && !matches!(p.found.what, Material::Stage(_)))
        .map(|p| SolvedPart::added(&p.label, p.found.clone(), 1.0))
        .collect();
    for part in soluble {
        put(&mut all, vec![part]);
    }
    for name in ["water", "white sugar"] {
        if let Ok(found) = card::find(card, house, name, solved) {
            put(&mut all, vec![SolvedPart::added(name, found, 1.0)]);
        }
    }
    all.truncate(MOST_PARTS);
    least::least(batch, &all, targets).ok()
}

/// Water whose loss alone would do it: for one property of a batch without spirit.
fn water_to_boil_off(
    card: &Card,
    house: &House,
    solved: &mut Solved,
    batch: &Mixture,
    targets: &[TargetValue],
) -> Option<f64> {
    if targets.len() != 1 || batch.grams_of(Component::Ethanol) > 0.0 {
        return None;
    }
    let water = vec![SolvedPart::added("water", card::find(card, house, "water", solved).ok()?, 1.0)];
    let lines = least::lines(batch, &[&water]);
    let masses = MassBalance { lines: &lines, targets, yields: None, left_behind: 0.0 }.solve_signed().ok()?;
    let gone = -masses.last()?;
    (gone > 0.0 && gone < batch.grams_of(Component::Water)).then_some(gone)
}
