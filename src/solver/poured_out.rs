//! A drink that goes into something is poured out into what it is made of, for no lot is kept of a drink.

use super::resolve::Material;
use super::solved::{Solved, SolvedPart};

/// A part as it was weighed, with the card that it stands on.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PouredPart<'a> {
    pub(crate) part: &'a SolvedPart,
    /// What of it goes in here, grams.
    pub(crate) mass_g: f64,
    pub(crate) within: &'a Solved,
}

/// The drink that a part of a card is.
pub(crate) fn inner_drink<'a>(card: &'a Solved, part: &SolvedPart) -> Option<&'a Solved> {
    let Material::Card(place) = part.found.what else { return None };
    card.inner.get(place).map(|inner| &*inner.card).filter(|inner| inner.card.is_drink())
}

/// So much of a part of a card: itself, or, of a drink, what is in it. What is made in a stage of a drink has no name outside it, and
/// such a drink stays what it is.
pub(crate) fn poured_out<'a>(part: &'a SolvedPart, mass_g: f64, within: &'a Solved) -> Vec<PouredPart<'a>> {
    match parts_of_drink(part, mass_g, within) {
        Some(parts) => parts.into_iter().flat_map(|own| poured_out(own.part, own.mass_g, own.within)).collect(),
        None => vec![PouredPart { part, mass_g, within }],
    }
}

/// So much of a part that is a drink by the parts on its own card; `None` where it is none, or has stages.
pub(crate) fn parts_of_drink<'a>(part: &'a SolvedPart, mass_g: f64, within: &'a Solved) -> Option<Vec<PouredPart<'a>>> {
    let inner = inner_drink(within, part).filter(|inner| inner.card.stages.is_empty())?;
    let share = mass_g / inner.bottled().total_grams();
    let own = inner.last().parts.iter().filter(|own| own.mass_g > 0.0);
    Some(own.map(|own| PouredPart { part: own, mass_g: own.mass_g * share, within: inner }).collect())
}
