//! Tells a house what its lots bring that stand there: a glass may be poured of any of them, whatever the card of the product says
//! by now.

use std::collections::HashMap;

use chrono::NaiveDate;

use crate::house::{House, LotBrings};
use crate::vocabulary::Open;

use super::again::stated_since;
use super::ahead::poured_as;
use super::book::{LotBook, LotState};
use super::due::{Soon, due};
use super::reprint::allergens;
use super::sheet::FrozenSheet;

/// What is known of the allergens of a lot, and of what in it nobody has stated any.
type BroughtNow = (Vec<String>, Vec<String>);

/// The lots that are there on a day and need not go. `sheet` reads what a lot was made from: asked once for lots of one sheet, and only
/// where something of it was not stated.
pub fn tell_standing(
    book: &LotBook,
    on: NaiveDate,
    house: &mut House,
    sheet: impl Fn(&LotState) -> Option<FrozenSheet>,
) {
    let mut of_sheets: HashMap<&str, Option<BroughtNow>> = HashMap::new();
    for (_, lot) in due(book, on).into_iter().filter(|(soon, _)| *soon != Soon::MustGo) {
        let of = &lot.recorded;
        let since = match of.allergens_not_stated.as_slice() {
            [] => &None,
            _ => of_sheets.entry(&of.sheet).or_insert_with(|| since(lot, &sheet(lot)?, house)),
        };
        let (allergens, not_stated) = match since {
            Some((now, open)) => (allergens(&of.allergens, now), open.clone()),
            None => (of.allergens.clone(), of.allergens_not_stated.clone()),
        };
        let allergens = allergens.iter().map(|one| Open::read(one)).collect();
        let brings = LotBrings { lot: lot.lot.clone(), allergens, not_stated };
        // a bottle of a drink is poured for it
        if let Some(drink) = poured_as(&of.product, house) {
            house.of_book.saw_standing(&drink, brings.clone());
        }
        house.of_book.saw_standing(&of.product, brings);
    }
}

/// What is known of it by the larder as it stands now.
fn since(lot: &LotState, sheet: &FrozenSheet, house: &House) -> Option<BroughtNow> {
    let judged = stated_since(lot, sheet, house)?;
    Some((judged.allergens, [judged.allergens_open, judged.allergens_doubted].concat()))
}
