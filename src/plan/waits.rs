//! Which batches wait for an ingredient that comes too late for them: the plan says when they are wanted, the order list
//! when they can be.

use std::collections::BTreeMap;

use super::calendar::{Calendar, Day};
use super::orders::{Order, Timing};
use super::planned::{Plan, Planned};
use super::poured::poured_on;

/// A batch: the place of its product in the plan, and the day on which it is finished.
pub(crate) type BatchKey = (usize, Day);

/// An ingredient that is not there on the day on which it should go in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wait<'a> {
    /// Its name.
    pub of: &'a str,
    /// The day on which it comes, if that is in sight.
    pub comes: Option<Day>,
    /// The first day on which a batch of this product that waits for it would be finished.
    pub(crate) from: Day,
    /// The first day on which it can be finished, once that has come.
    pub(crate) until: Option<Day>,
}

/// What each batch waits for; nothing of one that can be made as planned.
pub(crate) fn waits<'a>(plan: &Plan, orders: &'a [Order]) -> BTreeMap<BatchKey, Vec<Wait<'a>>> {
    let mut waits: BTreeMap<BatchKey, Vec<Wait<'a>>> = BTreeMap::new();
    for order in orders {
        let Timing::Late { comes, .. } = order.timing else { continue };
        for (batch, days_before) in without(plan, order, comes) {
            let (from, until) = (order.needed + days_before, comes.map(|day| day + days_before));
            wait(&mut waits, batch, Wait { of: &order.of.name, comes, from, until });
        }
    }
    // What goes into another product makes that one wait too, however deep.
    let inside = inside(plan);
    loop {
        let mut is_changed = false;
        for (inner, outer, days_before) in &inside {
            for of_inner in waits.get(inner).cloned().unwrap_or_default() {
                let until = of_inner.until.map(|day| day + days_before);
                is_changed |= wait(&mut waits, *outer, Wait { from: outer.1, until, ..of_inner });
            }
        }
        if !is_changed {
            return waits;
        }
    }
}

/// The batches for which there is not enough of an ingredient before it comes, and how many days before the end it goes in.
/// What is on hand goes to the glasses and to the batches in the order of their days, to each as a whole.
fn without(plan: &Plan, order: &Order, comes: Option<Day>) -> Vec<(BatchKey, Day)> {
    let of_product = |(place, planned): (usize, &Planned)| -> Vec<(Day, BatchKey, Day, f64)> {
        let takes = planned.product.takes.iter().filter(|take| take.of == order.of.name);
        let of_take = takes.flat_map(|take| {
            let made = planned.lots.iter().filter_map(|lot| Some((lot.ready?, lot.amount)));
            made.map(|(ready, amount)| {
                let grams = amount as f64 * take.grams_per_unit;
                (ready - take.days_before, (place, ready), take.days_before, grams)
            })
        });
        of_take.collect()
    };
    let mut takes: Vec<_> = plan.products.iter().enumerate().flat_map(of_product).collect();
    takes.sort_by_key(|(day, batch, ..)| (*day, *batch));
    let mut grams_there = order.of.on_hand as f64 / 1000.0 * order.of.grams_per_unit;
    let mut poured_until = 0;
    let mut without = Vec::new();
    for (day, batch, days_before, grams) in takes.into_iter().take_while(|(day, ..)| comes.is_none_or(|c| *day < c)) {
        while poured_until <= day {
            grams_there -= poured_on(&order.of.poured, &plan.calendar, poured_until);
            poured_until += 1;
        }
        // as exact as the order list counts
        if grams <= grams_there + 1e-6 {
            grams_there -= grams;
        } else {
            without.push((batch, days_before));
        }
    }
    without
}

/// Whether that is new.
fn wait<'a>(waits: &mut BTreeMap<BatchKey, Vec<Wait<'a>>>, batch: BatchKey, wait: Wait<'a>) -> bool {
    let all = waits.entry(batch).or_default();
    // what is never there is later than any day
    let later = |a: Option<Day>, b: Option<Day>| b.is_some_and(|b| a.is_none_or(|a| a > b));
    match all.iter_mut().find(|known| known.of == wait.of) {
        None => all.push(wait),
        Some(known) if later(wait.until, known.until) => *known = wait,
        Some(_) => return false,
    }
    true
}

/// Which batch goes into which, and how many days before that one is finished.
fn inside(plan: &Plan) -> Vec<(BatchKey, BatchKey, Day)> {
    let of_product = |(place, planned): (usize, &Planned)| -> Vec<_> {
        let taken = planned.run.taken.iter();
        taken
            .filter_map(|(draw, lot, _)| {
                let draw = planned.draws.get(*draw)?;
                let outer = draw.into?;
                Some(((place, planned.lots.get(*lot)?.ready?), outer, outer.1 - draw.day))
            })
            .collect()
    };
    plan.products.iter().enumerate().flat_map(of_product).collect()
}

/// "waits for kiln rum, which comes Sat 5 Dec"; nothing where nothing is waited for.
pub(crate) fn words(calendar: &Calendar, waits: &[Wait<'_>]) -> String {
    let of = |wait: &Wait<'_>| match wait.comes {
        Some(day) => format!("{}, which comes {}", wait.of, calendar.date(day).format("%a %-d %b")),
        None => format!("{}, of which no delivery is in sight", wait.of),
    };
    let all: Vec<String> = waits.iter().map(of).collect();
    if all.is_empty() { String::new() } else { format!("waits for {}", all.join(" and ")) }
}
