//! What a board says of an ingredient that is bought.

use crate::diagnostic::{Code, Diagnostic};
use crate::input::{FieldKind, Laid, Layout, layout};
use crate::units::readers;

use super::amounts::bought;
use super::days::{MOST_DAYS, WEEKDAYS};
use super::model::{Quantity, Shelf};

impl Laid for Shelf {
    const LAYOUT: &'static Layout<Self> = layout!(
        "an ingredient of the plan",
        ("pack", PACK, "\"1 kg\"", "what a pack holds", pack),
        ("lead", LEAD, "\"2 days\"", "the time from the order to the delivery", lead),
        ("deliver", WEEKDAYS, "[\"Tue\", \"Fri\"]", "weekdays of delivery", |shelf, days| {
            shelf.deliver = Some(days.value).filter(|days| days.contains(&true))
        }),
        ("on_hand", FieldKind::amount(bought), "\"3 kg\"", "what is there", on_hand),
    );
}

const PACK: FieldKind<Quantity> = FieldKind::new(FieldKind::amount(bought).shape, |given, reader| {
    let pack = given.amount(reader, bought)?;
    if pack.amount <= 0.0 {
        let nothing = Diagnostic::error(Code::OutOfRange, "a pack of nothing");
        reader.found.push(nothing.at(given.value.span, "more than 0 was expected"));
    }
    Some(pack).filter(|pack| pack.amount > 0.0)
});

const LEAD: FieldKind<i32> = FieldKind::new(FieldKind::amount(readers::duration).shape, |given, reader| {
    Some(days_up(given.amount(reader, readers::duration)?.value))
});

/// Whole days that a time in seconds takes up.
fn days_up(seconds: f64) -> i32 {
    (seconds / 86_400.0 - 1e-9).ceil().clamp(0.0, MOST_DAYS) as i32
}
