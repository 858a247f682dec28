//! What the book has left of the products of a house, as a plan counts it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use chrono::NaiveDate;

use super::ahead::poured_as;
use super::book::{LotBook, LotStanding, LotState};
use super::due::{Soon, soon};
use super::sheet::FrozenSheet;
use crate::diagnostic::{Code, Diagnostic, Span, Spanned};
use crate::house::House;
use crate::plan::PrepUnit;
use crate::plan::board::{Held, HeldDate, Quantity};
use crate::plan::on_hand::CountedRow;
use crate::spelling::fold;
use crate::units::display::grouped;

/// What stands in the containers that are kept back to be tasted, grams.
fn kept_back_g(lot: &LotState) -> f64 {
    let share = |(count, _): (u32, f64)| f64::from(lot.recorded.kept_back.min(count)) / f64::from(count.max(1));
    lot.recorded.mass_g * lot.recorded.filled.map_or(0.0, share)
}

/// What is left of a lot beside what is kept back; none where all of it is gone.
fn left_of(lot: &LotState) -> Option<Quantity> {
    let left_g = lot.left_g().map(|g| g - kept_back_g(lot)).filter(|g| *g > 0.0)?;
    Some(match lot.recorded.volume_ml.map(|ml| ml * left_g / lot.recorded.mass_g) {
        Some(ml) => Quantity { amount: ml, unit: PrepUnit::Ml },
        None => Quantity { amount: left_g, unit: PrepUnit::G },
    })
}

/// The lots that may be used on a day, with what went into no other lot and is not kept back. What is served by the glass is not on the book, so
/// there is no more of any than this.
///
/// `sheet` reads what a lot was made from: asked of the bottles of a drink alone, which are poured as they were filled.
pub fn on_shelf(
    book: &LotBook,
    on: NaiveDate,
    house: &House,
    sheet: impl Fn(&LotState) -> Option<FrozenSheet>,
) -> Vec<CountedRow> {
    let made_by = |lot: &LotState| {
        poured_as(&lot.recorded.product, house)?;
        let sheet = sheet(lot)?;
        let now = house.card(&lot.recorded.product)?;
        let has_changed = sheet.card_text()? != &*now.text;
        has_changed.then(|| sheet.solved(lot)).flatten().map(|(_, solved)| Arc::new(solved))
    };
    let may_be_used = |lot: &&LotState| lot.standing == LotStanding::InUse && lot.pulled.is_none();
    let row = |lot: &LotState| {
        let last = lot.use_by.day.filter(|day| *day >= on)?;
        let quantity = left_of(lot)?;
        let of_book = Span::default();
        Some(CountedRow {
            product: Spanned { value: lot.recorded.product.clone(), span: of_book },
            held: Held {
                amount: Spanned { value: quantity, span: of_book },
                dated: HeldDate::UseBy(last),
                made_by: made_by(lot),
                best_before: Some(lot.use_by.best_before),
            },
        })
    };
    book.lots().filter(may_be_used).filter_map(row).collect()
}

/// What of the book is there and not counted because it has no date: each with why, and with what to do. What must go is none of it.
pub(crate) fn undated(book: &LotBook, on: NaiveDate) -> Vec<Diagnostic> {
    let of = |lot: &LotState| {
        let code = &lot.lot;
        let (why, help) = match soon(lot, on)? {
            Soon::NoDate => (
                lot.use_by.refused.clone().unwrap_or_else(|| "nobody has told its parts".to_owned()),
                format!(
                    "stillroom tell {code} \"PART=LOT\" says which lot or day that part was of: then it is counted"
                ),
            ),
            Soon::Frozen => (
                "it is in the freezer, where its count stops".to_owned(),
                format!("take it out for the week: stillroom move {code} STORE"),
            ),
            Soon::MustGo | Soon::Today | Soon::ThisWeek | Soon::Later => return None,
        };
        let Quantity { amount, unit } = left_of(lot)?;
        let (amount, product) = (grouped(amount, 0), &lot.recorded.product);
        let title = format!("not counted: {amount} {} of {product}, lot {code}, which has no date: {why}", unit.word());
        Some(Diagnostic::warning(Code::NoDate, title).help(help))
    };
    book.lots().filter_map(of).collect()
}

/// What was bottled ahead of drinks that are sold, where nobody counts it: a plan makes those glasses again. `help` says what to do.
pub(crate) fn bottled_ahead<'a>(
    rows: &[CountedRow],
    sold: impl Iterator<Item = &'a str>,
    house: &House,
    help: &str,
) -> Option<Diagnostic> {
    let sold: BTreeSet<String> = sold.map(fold).collect();
    let is_sold = |row: &&CountedRow| poured_as(&row.product.value, house).is_some_and(|drink| sold.contains(&drink));
    let bottled = left(rows.iter().filter(is_sold));
    let title = format!("bottled ahead, and not counted: {}", bottled.join(", "));
    (!bottled.is_empty()).then(|| Diagnostic::warning(Code::Understood, title).help(help))
}

/// So much of each product, in words.
fn left<'r>(rows: impl Iterator<Item = &'r CountedRow>) -> Vec<String> {
    let mut left: BTreeMap<(&str, &str), f64> = BTreeMap::new();
    for row in rows {
        let Quantity { amount, unit } = row.held.amount.value;
        *left.entry((&row.product.value, unit.word())).or_default() += amount;
    }
    left.iter().map(|((of, unit), amount)| format!("{of} {} {unit}", grouped(*amount, 0))).collect()
}

/// What the book has of products that are planned, where nobody counts it.
pub(crate) fn not_counted<'a>(rows: &[CountedRow], planned: impl Iterator<Item = &'a str>) -> Option<Diagnostic> {
    let planned: BTreeSet<String> = planned.map(fold).collect();
    let all = left(rows.iter().filter(|row| planned.contains(&fold(&row.product.value))));
    let title = format!("nothing is counted of what the book has in date: {}", all.join(", "));
    let help =
        "--by-book counts it; what is served by the glass is not on the book: count the shelf, and give --on-hand FILE";
    (!all.is_empty()).then(|| Diagnostic::warning(Code::Understood, title).help(help))
}
