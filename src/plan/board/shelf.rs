//! What a board says of an ingredient that is bought.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::Table;
use crate::larder::amounts::amount;
use crate::units::readers;

use super::Shelf;
use super::amounts::bought;
use super::days::{MOST_DAYS, weekday};

const INGREDIENT: &[&str] = &["pack", "lead", "deliver", "on_hand"];

pub(super) fn shelf(name: &Spanned<String>, table: &Table, found: &mut Vec<Diagnostic>) -> Shelf {
    table.check_keys("an ingredient of the plan", INGREDIENT, found);
    let pack = amount(table, "pack", bought, found);
    if let Some(pack) = pack.filter(|p| p.value.amount <= 0.0) {
        found.push(Diagnostic::error(Code::OutOfRange, "a pack of nothing").at(pack.span, "more than 0 was expected"));
    }
    let lead = amount(table, "lead", readers::duration, found).map_or(0, |lead| days_up(lead.value.value));
    let deliver = table.get("deliver").map(|_| {
        let mut days = [false; 7];
        for day in table.texts("deliver", found) {
            if let Some(day) = weekday("deliver", &day.value, day.span, found) {
                days[day] = true;
            }
        }
        days
    });
    Shelf {
        name: name.clone(),
        pack: pack.filter(|p| p.value.amount > 0.0),
        on_hand: amount(table, "on_hand", bought, found),
        lead,
        deliver: deliver.filter(|days| days.contains(&true)),
    }
}

/// Whole days that a time in seconds takes up.
fn days_up(seconds: f64) -> i32 {
    (seconds / 86_400.0 - 1e-9).ceil().clamp(0.0, MOST_DAYS) as i32
}
