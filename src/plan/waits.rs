//! Which batches wait for an ingredient that comes too late for them: the plan says when they are wanted, the order list
//! when they can be.

use std::collections::BTreeMap;

use super::calendar::{Calendar, Day};
use super::orders::{Order, Timing};
use super::planned::Plan;

/// An ingredient that is not there on the day on which it should go in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wait<'a> {
    /// Its name.
    pub of: &'a str,
    /// The day on which it comes, if that is in sight.
    pub comes: Option<Day>,
}

/// A batch: the place of its product in the plan, and the day on which it is finished.
pub(crate) type BatchKey = (usize, Day);

/// What each batch waits for; nothing of one that can be made as planned.
pub(crate) fn waits<'a>(plan: &Plan, orders: &'a [Order]) -> BTreeMap<BatchKey, Vec<Wait<'a>>> {
    let mut waits: BTreeMap<BatchKey, Vec<Wait<'a>>> = BTreeMap::new();
    for order in orders {
        let Timing::Late { comes, .. } = order.timing else { continue };
        let missing = |day: Day| day >= order.needed && comes.is_none_or(|comes| day < comes);
        for (place, planned) in plan.products.iter().enumerate() {
            let takes: Vec<_> = planned.product.takes.iter().filter(|take| take.of == order.of.name).collect();
            for ready in planned.lots.iter().filter_map(|lot| lot.ready) {
                if takes.iter().any(|take| missing(ready - take.days_before)) {
                    wait(&mut waits, (place, ready), Wait { of: &order.of.name, comes });
                }
            }
        }
    }
    // What goes into another product makes that one wait too, however deep.
    let inside = inside(plan);
    loop {
        let more = inside.iter().flat_map(|(inner, outer)| {
            let of_inner = waits.get(inner).into_iter().flatten();
            of_inner.map(|w| (*outer, *w)).filter(|(outer, w)| waits.get(outer).is_none_or(|all| !all.contains(w)))
        });
        let more: Vec<_> = more.collect();
        if more.is_empty() {
            return waits;
        }
        for (outer, w) in more {
            wait(&mut waits, outer, w);
        }
    }
}

fn wait<'a>(waits: &mut BTreeMap<BatchKey, Vec<Wait<'a>>>, batch: BatchKey, wait: Wait<'a>) {
    let all = waits.entry(batch).or_default();
    if !all.contains(&wait) {
        all.push(wait);
    }
}

/// Which batch goes into which.
fn inside(plan: &Plan) -> Vec<(BatchKey, BatchKey)> {
    let of_product = |(place, planned): (usize, &super::planned::Planned)| -> Vec<(BatchKey, BatchKey)> {
        let taken = planned.run.taken.iter();
        taken
            .filter_map(|(draw, lot, _)| {
                Some(((place, planned.lots.get(*lot)?.ready?), planned.draws.get(*draw)?.into?))
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
