//! The parts of a lot as its date sees them: how old each was, by the book, and what was old in it.

use chrono::NaiveDate;

use crate::assessment::{PartKept, PartLot};
use crate::vocabulary::Open;

use super::book::{LotBook, LotState};
use super::event::{PartFrom, PartUsed};

/// The parts of what was made on a day of which a lot is told, or a day that the date hangs on; and of those lots the same.
pub(super) fn parts_kept(parts: &[PartUsed], book: &LotBook, made: NaiveDate) -> Vec<PartKept> {
    kept(parts, book, made, &mut Vec::new())
}

/// `around` are the codes of the lots that it is inside of: a lot that is written to be in itself is not followed for ever.
fn kept<'b>(parts: &[PartUsed], book: &'b LotBook, made: NaiveDate, around: &mut Vec<&'b str>) -> Vec<PartKept> {
    let mut all = Vec::new();
    for part in parts {
        let called: Vec<String> = [Some(&part.of), part.product.as_ref()].into_iter().flatten().cloned().collect();
        match &part.from {
            PartFrom::Lot(code) => {
                let Some(lot) = book.lot(code).filter(|lot| !around.contains(&lot.lot.as_str())) else { continue };
                around.push(&lot.lot);
                let holds = kept(&lot.recorded.parts, book, lot.recorded.made, around);
                around.pop();
                all.push(PartKept {
                    called,
                    made: lot.recorded.made,
                    frozen_days: frozen_before(lot, made),
                    of_lot: Some(of_lot(lot)),
                    holds,
                });
            }
            PartFrom::Day(day) if part.dated => {
                all.push(PartKept { called, made: *day, frozen_days: 0, of_lot: None, holds: Vec::new() });
            }
            PartFrom::Day(_) | PartFrom::Batch(_) | PartFrom::NotTold => {}
        }
    }
    all
}

/// The days that a lot lay in the freezer before it went in.
fn frozen_before(lot: &LotState, went_in: NaiveDate) -> i64 {
    let stays = lot.frozen.iter().map(|(from, to)| (to.unwrap_or(went_in).min(went_in) - *from).num_days().max(0));
    stays.sum()
}

fn of_lot(lot: &LotState) -> PartLot {
    PartLot {
        lot: lot.lot.clone(),
        allergens: lot.recorded.allergens.iter().map(|one| Open::read(one)).collect(),
        last: lot.use_by.day,
        // a line of an old book does not say it: what is only better before a day needs none
        needs_cold: lot.recorded.needs_cold.unwrap_or(!lot.use_by.best_before),
    }
}
