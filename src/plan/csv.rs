//! A plan for people with spreadsheets.

use crate::cost::Bill;

use super::calendar::Day;
use super::orders::{Order, Thousandths, Timing};
use super::schedule::Plan;
use super::tables::{What, tasks, thousandths, unit_word};
use super::waits::words;

/// What a spreadsheet would run as a formula if a cell began with it.
pub(super) const RUN_BY_SPREADSHEETS: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// A cell that no spreadsheet runs.
pub fn cell(text: &str) -> String {
    if text.starts_with(RUN_BY_SPREADSHEETS) { format!("'{text}") } else { text.to_owned() }
}

/// The prep list as CSV.
pub fn prep_csv(plan: &Plan, orders: &[Order]) -> String {
    let date = |day: Day| plan.calendar.date(day).to_string();
    let rows = tasks(plan, orders).into_iter().map(|task| {
        let (detail, other) = match task.what {
            What::ThrowAway(last) | What::UseFirst(last) | What::Make(last) => (String::new(), date(last)),
            What::Start { stage, takes, ready } => {
                let stage: Vec<_> = stage.into_iter().chain(takes).collect();
                (format!("{}; ready {}", stage.join(", "), date(ready)), String::new())
            }
            What::GoesInto(outer) => (format!("for {outer}"), String::new()),
        };
        [
            date(task.day),
            task.what.word().into(),
            task.product.into(),
            task.amount.to_string(),
            unit_word(task.unit).into(),
            other,
            detail,
            words(&plan.calendar, &task.waits),
        ]
    });
    csv(["date", "what", "product", "amount", "unit", "use_by", "detail", "note"], rows)
}

/// The order list as CSV: whole grams, millilitres or pieces, rounded so that there is enough.
pub fn order_csv(plan: &Plan, orders: &[Order], bill: Option<&Bill>) -> String {
    let date = |day: Day| plan.calendar.date(day).to_string();
    let rows = orders.iter().enumerate().map(|(place, order)| {
        let late = match order.timing {
            Timing::By(..) => String::new(),
            Timing::Late { comes, .. } => comes.map_or("late".to_owned(), |day| format!("late: comes {}", date(day))),
        };
        // what is bought loose has no packs
        let of_pack =
            |text: fn(&Order, Thousandths) -> String| order.of.pack.map_or_else(String::new, |pack| text(order, pack));
        [
            date(order.day()),
            order.of.name.clone(),
            of_pack(|order, _| order.packs.to_string()),
            of_pack(|_, pack| thousandths(pack)),
            order.amount().div_ceil(1000).to_string(),
            unit_word(order.of.unit).into(),
            order.need.div_ceil(1000).to_string(),
            (order.of.on_hand / 1000).to_string(),
            date(order.needed),
            bill.and_then(|bill| bill.text_of(place)).unwrap_or_default(),
            bill.map_or_else(String::new, |bill| bill.currency.code().to_owned()),
            late,
        ]
    });
    csv(
        [
            "order_by",
            "ingredient",
            "packs",
            "pack",
            "amount",
            "unit",
            "need",
            "on_hand",
            "needed",
            "cost",
            "currency",
            "late",
        ],
        rows,
    )
}

fn csv<const N: usize>(heads: [&str; N], rows: impl Iterator<Item = [String; N]>) -> String {
    let mut writer = ::csv::Writer::from_writer(Vec::new());
    // Writing to memory does not fail; a row that did would be missing, which the tests would see.
    let _ = writer.write_record(heads);
    for row in rows {
        let _ = writer.write_record(row.map(|text| cell(&text)));
    }
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}
