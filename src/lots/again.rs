//! A lot judged again from the texts that it was made with, for what its line in the book does not hold.

use crate::aim;
use crate::assessment::{self, Assessment, Lot, LotsCounted, Which};
use crate::card;
use crate::house::House;
use crate::shelf_life::Draws;
use crate::solver::{Options, Solved, solve};

use super::book::LotState;
use super::sheet::FrozenSheet;

/// The allergens of a product as its card and the larder stand now; none where it has no card any more.
pub fn brings_now(product: &str, house: &House) -> Vec<String> {
    let card =
        house.card(product).and_then(|card| card::read_by(card.file.clone(), card.text.clone(), &house.customs()).0);
    let made = card.as_ref().and_then(|card| aim::chosen(card, house, &Options::default(), &mut Vec::new()));
    let solved = made.and_then(|made| solve(&made.card, &made.house, &Options::default()).solved);
    // other lots of its parts are no matter of what is recorded
    let lot = Lot { counted: LotsCounted::None, ..Lot::default() };
    let judged = |solved: Solved| assessment::assess(&solved, house, lot, Which::Planned, Draws::FEW).0;
    solved.map(|solved| judged(solved).allergens).unwrap_or_default()
}

/// What is known now of the allergens of a lot that were not stated when it was recorded: its own cards, by the larder of a house as it
/// stands. `None` of a lot of which all was stated, where that larder is the one that it was recorded with, and where its sheet cannot be
/// solved with it.
pub fn stated_since(lot: &LotState, sheet: &FrozenSheet, house: &House) -> Option<Assessment> {
    let now = sheet.with_larder_of(house);
    // the same larder states no more than it did
    if lot.recorded.allergens_not_stated.is_empty() || now.texts == sheet.texts {
        return None;
    }
    judged_again(lot, &now).map(|(_, judged)| judged)
}

/// The lot where it now is, solved and judged. Its date is that of the book, never one of these.
///
/// `None` where the kept sheet cannot be solved any more.
pub fn judged_again(lot: &LotState, sheet: &FrozenSheet) -> Option<(Solved, Assessment)> {
    let (house, solved) = sheet.solved(lot)?;
    let store = house.settings.stores.iter().find(|store| store.name == lot.store);
    let which = store.map_or(Which::Planned, Which::Only);
    let (judged, _) = assessment::assess(&solved, &house, Lot::from(lot.recorded.made), which, Draws::FEW);
    Some((solved, judged))
}
