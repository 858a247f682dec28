//! A plan as rows: the work day by day. Which batches wait for an ingredient that comes too late for them: the plan
//! says when they are wanted, the order list when they can be.

use std::collections::BTreeMap;

use super::calendar::{Calendar, Day};
use super::model::{PrepLot, PrepUnit};
use super::orders::{Order, Timing};
use super::planned::{Plan, Planned};

/// One line of the prep list.
#[derive(Clone, Debug, PartialEq)]
pub struct Task<'a> {
    /// The day.
    pub day: Day,
    /// What is done.
    pub what: PrepStep<'a>,
    /// With which product.
    pub product: &'a str,
    /// How much of it.
    pub amount: u64,
    /// Which unit that is.
    pub unit: PrepUnit,
    /// What the batch waits for that it is done for.
    pub waits: Vec<Wait<'a>>,
}

/// What is done with a product.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PrepStep<'a> {
    /// It is past its date: its last day.
    ThrowAway(Day),
    /// There is more than one date of it: the one that goes first.
    UseFirst(Day),
    /// A stage begins.
    Start {
        /// The stage; none for the product itself.
        stage: Option<&'a str>,
        /// How long it takes, as the card says.
        takes: Option<&'a str>,
        /// The day that the product is finished.
        ready: Day,
    },
    /// It goes into another product.
    GoesInto(&'a str),
    /// It is finished: its last day.
    Make(Day),
}

/// The prep list, day by day; within a day: throw away, use first, start, take, make.
pub fn tasks<'a>(plan: &'a Plan, orders: &'a [Order]) -> Vec<Task<'a>> {
    let waits = waits(plan, orders);
    let all = plan.products.iter().enumerate();
    let mut tasks: Vec<Task<'_>> = all.flat_map(|(place, p)| of_product(plan, place, p, &waits)).collect();
    tasks.sort_by(|a, b| (a.day, &a.what, a.product).cmp(&(b.day, &b.what, b.product)));
    tasks
}

fn of_product<'a>(
    plan: &'a Plan,
    place: usize,
    planned: &'a Planned,
    waits: &BTreeMap<BatchKey, Vec<Wait<'a>>>,
) -> Vec<Task<'a>> {
    let days = plan.calendar.days;
    let product = &planned.product;
    let task =
        |day, what, amount| Task { day, what, product: &product.name, amount, unit: product.unit, waits: Vec::new() };
    let waiting = |batch: BatchKey| waits.get(&batch).cloned().unwrap_or_default();
    let mut tasks = Vec::new();
    for (lot, left) in planned.lots.iter().zip(&planned.run.left) {
        // on the first open day on which it is past its date
        let past = (lot.use_by.saturating_add(1).max(0)..days).find(|day| plan.calendar.is_open(*day));
        if let (Some(day), true) = (past, *left > 0) {
            tasks.push(task(day, PrepStep::ThrowAway(lot.use_by), *left));
        }
        let Some(ready) = lot.ready else { continue };
        for work in &product.works {
            let what = match work.days_before {
                0 => PrepStep::Make(lot.use_by),
                _ => PrepStep::Start { stage: work.stage.as_deref(), takes: work.takes.as_deref(), ready },
            };
            tasks.push(Task { waits: waiting((place, ready)), ..task(ready - work.days_before, what, lot.amount) });
        }
    }
    for (draw, short) in planned.draws.iter().zip(&planned.run.short) {
        let Some(batch) = draw.into else { continue };
        if let Some(outer) = plan.products.get(batch.0) {
            let taken = task(draw.day, PrepStep::GoesInto(&outer.product.name), draw.amount - short);
            tasks.push(Task { waits: waiting(batch), ..taken });
        }
    }
    tasks.extend(
        use_first(&plan.calendar, planned)
            .into_iter()
            .map(|(day, lot)| task(day, PrepStep::UseFirst(lot.use_by), lot.amount)),
    );
    tasks
}

/// The days on which the date that goes first changes or is one of several: the first of them, once for each date.
/// The amount is what is left of it when the doors open.
fn use_first(calendar: &Calendar, planned: &Planned) -> Vec<(Day, PrepLot)> {
    let mut left: Vec<u64> = planned.lots.iter().map(|l| l.amount).collect();
    let mut said = None;
    let mut first = Vec::new();
    let mut taken = planned.run.taken.iter().peekable();
    for day in 0..calendar.days {
        let there = |lot: &PrepLot| lot.ready.is_none_or(|r| r <= day) && lot.use_by >= day;
        let usable = || planned.lots.iter().zip(&left).enumerate().filter(|(_, (lot, left))| there(lot) && **left > 0);
        let next = usable().next().map(|(place, (lot, left))| (place, PrepLot { amount: *left, ..*lot }));
        let several = usable().any(|(place, (lot, _))| next.is_some_and(|(p, n)| p != place && n.use_by != lot.use_by));
        if let Some((place, lot)) = next.filter(|(place, _)| calendar.is_open(day) && several && said != Some(*place)) {
            said = Some(place);
            first.push((day, lot));
        }
        let of_day = |(draw, _, _): &&(usize, usize, u64)| planned.draws.get(*draw).is_some_and(|d| d.day <= day);
        while let Some((_, lot, amount)) = taken.next_if(of_day) {
            if let Some(left) = left.get_mut(*lot) {
                *left -= (*amount).min(*left);
            }
        }
    }
    first
}

/// Thousandths as a plain number: "12.5".
pub(crate) fn thousandths(amount: u64) -> String {
    let text = format!("{}.{:03}", amount / 1000, amount % 1000);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// An ingredient that is not there on the day on which it should go in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wait<'a> {
    /// Its name.
    pub of: &'a str,
    /// The day on which it comes, if that is in sight.
    pub comes: Option<Day>,
}

/// A batch: the place of its product in the plan, and the day on which it is finished.
type BatchKey = (usize, Day);

/// What each batch waits for; nothing of one that can be made as planned.
fn waits<'a>(plan: &Plan, orders: &'a [Order]) -> BTreeMap<BatchKey, Vec<Wait<'a>>> {
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

fn inside(plan: &Plan) -> Vec<(BatchKey, BatchKey)> {
    let of_product = |(place, planned): (usize, &Planned)| -> Vec<(BatchKey, BatchKey)> {
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
