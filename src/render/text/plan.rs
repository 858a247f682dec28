//! The prep list, day by day, and the order list.

use crate::cost::Bill;
use crate::plan::calendar::{Calendar, Day};
use crate::plan::findings::amount_text;
use crate::plan::model::Unit;
use crate::plan::orders::{Order, Timing};
use crate::plan::schedule::Plan;
use crate::plan::tables::{Task, What, tasks, thousandths, unit_word};
use crate::plan::waits::words;
use crate::units::display::{grouped, volume_text};
use crate::units::millilitres;

use super::table;

/// The whole plan.
pub fn plan(house: Option<&str>, plan: &Plan, orders: &[Order], bill: Option<&Bill>) -> String {
    let calendar = &plan.calendar;
    let last = calendar.date(calendar.days - 1);
    let name = house.map_or_else(String::new, |name| format!("{name} · "));
    let mut out = format!("\n{name}plan from {} to {}\n", full(calendar, 0), last.format("%a %-d %b %Y"));
    let all = tasks(plan, orders);
    for day in 0..calendar.days {
        let of_day: Vec<&Task<'_>> = all.iter().filter(|t| t.day == day).collect();
        if !calendar.is_open(day) {
            out.push_str(&format!("\n{}: closed\n", short(calendar, day)));
        } else if !of_day.is_empty() {
            out.push_str(&format!("\n{}\n", short(calendar, day)));
            let rows: Vec<_> = of_day.iter().map(|t| row(calendar, t)).collect();
            out.push_str(&table::listed(&rows));
        }
    }
    out.push_str(&order_list(calendar, orders, bill));
    out
}

fn short(calendar: &Calendar, day: Day) -> String {
    calendar.date(day).format("%a %-d %b").to_string()
}

fn full(calendar: &Calendar, day: Day) -> String {
    calendar.date(day).format("%a %-d %b %Y").to_string()
}

fn row(calendar: &Calendar, task: &Task<'_>) -> [String; 4] {
    let note = match task.what {
        What::ThrowAway(last) => format!("past its date, {}", full(calendar, last)),
        What::UseFirst(last) => format!("use by {}", full(calendar, last)),
        What::Make(last) if last == task.day => "use at once: today only".to_owned(),
        What::Make(last) => format!("use by {}", full(calendar, last)),
        What::GoesInto(outer) => format!("for {outer}"),
        What::Start { stage, takes, ready } => {
            let said: Vec<&str> = stage.into_iter().chain(takes).collect();
            format!("{}; ready {}", said.join(", "), short(calendar, ready))
        }
    };
    let waits = words(calendar, &task.waits);
    let note = if waits.is_empty() { note } else { format!("{waits}; {note}") };
    [task.what.word().to_owned(), task.product.to_owned(), amount_text(task.amount, task.unit), note]
}

fn order_list(calendar: &Calendar, orders: &[Order], bill: Option<&Bill>) -> String {
    if orders.is_empty() {
        return "\nNothing has to be ordered.\n".to_owned();
    }
    let cost = |place: usize| bill.map_or_else(String::new, |b| b.text_of(place).unwrap_or_else(|| "?".to_owned()));
    let rows: Vec<_> = orders
        .iter()
        .enumerate()
        .map(|(place, order)| {
            let [by, name, amount, note] = order_row(calendar, order);
            [by, name, amount, cost(place), note]
        })
        .collect();
    let total = bill.map_or_else(String::new, |bill| {
        let missing = if bill.complete { "" } else { ", INCOMPLETE" };
        format!("  in all {} {} before tax{missing}\n", bill.currency.text(bill.total), bill.currency.code())
    });
    format!("\nOrder\n{}{total}", table::listed(&rows))
}

fn order_row(calendar: &Calendar, order: &Order) -> [String; 4] {
    let by = match order.timing {
        Timing::By(day, _) => format!("by {}", short(calendar, day)),
        Timing::Late { .. } => "LATE".to_owned(),
    };
    let amount = match order.of.pack {
        Some(1000) | None => text_of(order.amount(), order.of.unit),
        Some(pack) => format!("{} x {}", order.packs, text_of(pack, order.of.unit)),
    };
    // A juice that is bought by the piece is bought as its fruit.
    let fruit = order.of.name.strip_suffix(" juice").filter(|_| order.of.unit == Unit::Pieces);
    let amount = fruit.map_or(amount.clone(), |fruit| format!("{amount} of {fruit}"));
    let there = match order.of.on_hand {
        0 => String::new(),
        there => format!(", {} on hand", text_of(there, order.of.unit)),
    };
    let note = match order.timing {
        Timing::Late { comes: Some(day), .. } => {
            format!("needed {}, comes {}", short(calendar, order.needed), short(calendar, day))
        }
        _ => format!("needed {}", short(calendar, order.needed)),
    };
    [by, order.of.name.clone(), amount, format!("{note}: {} in all{there}", text_of(order.need, order.of.unit))]
}

fn text_of(amount: u64, unit: Unit) -> String {
    let whole = || grouped((amount as f64 / 1000.0).ceil(), 0);
    match (unit, amount) {
        (Unit::Ml, 1_000_000..) => volume_text(millilitres(amount as f64 / 1000.0)),
        (Unit::Pieces, ..=1000) => "1 piece".to_owned(),
        (Unit::Pieces, _) => format!("{} pieces", whole()),
        (_, 10_000..) => format!("{} {}", whole(), unit_word(unit)),
        _ => format!("{} {}", thousandths(amount.div_ceil(100) * 100), unit_word(unit)),
    }
}
