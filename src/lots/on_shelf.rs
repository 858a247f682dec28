//! What the book has left of the products of a house, as a plan counts it.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::ahead::poured_as;
use super::book::{LotBook, LotStanding, LotState};
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

/// The lots that may be used on a day, with what went into no other lot and is not kept back. What is served by the glass is not on the book, so
/// there is no more of any than this.
pub fn on_shelf(book: &LotBook, on: NaiveDate) -> Vec<CountedRow> {
    let may_be_used = |lot: &&LotState| lot.standing == LotStanding::InUse && lot.pulled.is_none();
    let row = |lot: &LotState| {
        let last = lot.use_by.day.filter(|day| *day >= on)?;
        let left_g = lot.left_g().map(|g| g - kept_back_g(lot)).filter(|g| *g > 0.0)?;
        let ml = lot.recorded.volume_ml.map(|ml| ml * left_g / lot.recorded.mass_g);
        let quantity = match ml {
            Some(ml) => Quantity { amount: ml, unit: PrepUnit::Ml },
            None => Quantity { amount: left_g, unit: PrepUnit::G },
        };
        let of_book = Span::default();
        Some(CountedRow {
            product: Spanned { value: lot.recorded.product.clone(), span: of_book },
            held: Held { amount: Spanned { value: quantity, span: of_book }, dated: HeldDate::UseBy(last) },
        })
    };
    book.lots().filter(may_be_used).filter_map(row).collect()
}

/// What was bottled ahead of drinks that are sold, where nobody counts it: a plan makes those glasses again.
pub(crate) fn bottled_ahead<'a>(
    rows: &[CountedRow],
    sold: impl Iterator<Item = &'a str>,
    house: &House,
) -> Option<Diagnostic> {
    let sold: BTreeSet<String> = sold.map(fold).collect();
    let is_sold = |row: &&CountedRow| poured_as(&row.product.value, house).is_some_and(|drink| sold.contains(&drink));
    let bottled = left(rows.iter().filter(is_sold));
    let title = format!("bottled ahead, and not counted: {}", bottled.join(", "));
    let help = "the plan makes those glasses again: --by-book pours the bottles first";
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
