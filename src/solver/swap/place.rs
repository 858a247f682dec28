//! Where the parts of a swap stand: the old one, the water, and what carries the new one into the last stage.

use std::collections::BTreeSet;

use crate::card::Card;
use crate::house::House;
use crate::spelling::fold;

use super::super::error::{NotOnCard, SwapError};
use super::super::resolve::{FoundPart, Material};
use super::super::{Solved, SolvedPart, card};

/// The place of a part: its stage, and where it stands in it.
pub(super) type PartPlace = (usize, usize);

pub(super) fn part_at(solved: &Solved, (stage, part): PartPlace) -> &SolvedPart {
    &solved.stages[stage].parts[part]
}

/// Where the old part stands: by its name on the card or in the larder, the last stage first.
pub(super) fn place_of(house: &House, solved: &Solved, old: &str) -> Result<PartPlace, SwapError> {
    let id = house.larder.find(old).map(|i| i.id.as_str());
    let means = |part: &SolvedPart| {
        let same_id = matches!(&part.found.what, Material::Ingredient(i) if Some(i.id.as_str()) == id);
        same_id || [&part.label, &part.of].iter().any(|name| fold(name) == fold(old))
    };
    let places = || {
        let stages = solved.stages.iter().enumerate().rev();
        stages.flat_map(|(s, stage)| stage.parts.iter().enumerate().map(move |(p, part)| ((s, p), part)))
    };
    places().find(|(_, part)| means(part)).map(|(place, _)| place).ok_or_else(|| {
        let parts = places().map(|(_, p)| p.label.clone()).collect();
        SwapError::NotOnCard(NotOnCard { name: old.to_owned(), parts })
    })
}

/// Puts the new part where the old one stood and runs the earlier stages forward.
pub(super) fn put_new(after: &mut Solved, place: PartPlace, new: &str, found: FoundPart, mass_g: f64) {
    let part = after.stages.get_mut(place.0).and_then(|s| s.parts.get_mut(place.1));
    if let Some(part) = part {
        *part = SolvedPart::added(new, found, mass_g);
    }
    *after = after.weighed(|_, mass_g| mass_g);
}

/// The water of the last stage; none of it is put there if the card has not got any.
pub(super) fn water_place(card: &Card, house: &House, after: &mut Solved) -> Result<usize, SwapError> {
    let water = card::find(card, house, "water", after).map_err(SwapError::LookUp)?;
    let Some(last) = after.stages.last_mut() else { return Ok(0) };
    let is_water = |part: &SolvedPart| part.found.per_gram == water.per_gram && part.feed.holds.is_none();
    if let Some(place) = last.parts.iter().position(is_water) {
        return Ok(place);
    }
    last.parts.push(SolvedPart::added("water", water, 0.0));
    Ok(last.parts.len() - 1)
}

/// The part of the last stage that has the new part in it: itself, or the stage that it went into.
pub(super) fn carrier(after: &Solved, place: PartPlace) -> Option<usize> {
    let last = after.stages.len().checked_sub(1)?;
    if place.0 == last {
        return Some(place.1);
    }
    let mut holding = BTreeSet::from([place.0]);
    for (i, stage) in after.stages.iter().enumerate().take(last) {
        if stage.parts.iter().any(|p| p.stage().is_some_and(|s| holding.contains(&s))) {
            holding.insert(i);
        }
    }
    after.stages.get(last)?.parts.iter().position(|p| p.stage().is_some_and(|s| holding.contains(&s)))
}
