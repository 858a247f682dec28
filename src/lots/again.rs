//! A lot judged again from the texts that it was made with, for what its line in the book does not hold.

use crate::assessment::{self, Assessment, Lot, Which};
use crate::shelf_life::Draws;
use crate::solver::Solved;

use super::book::LotState;
use super::sheet::FrozenSheet;

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
