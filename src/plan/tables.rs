//! A plan as rows: the work day by day.

use std::collections::BTreeMap;

use super::calendar::{Calendar, Day};
use super::model::{PrepLot, PrepUnit};
use super::orders::Order;
use super::planned::{Plan, Planned};
use super::waits::{BatchKey, Wait, waits};

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
    /// How many batches of the same day are made before it, each from the one before: they go into it.
    pub(crate) after: usize,
}

/// What is done with a product.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PrepStep<'a> {
    /// It is past its date: its last day.
    ThrowAway(Day),
    /// There is more than one date of it: the one that goes first.
    UseFirst(Day),
    /// It ends before what it would go into is used up, so that takes a newer one.
    Leave {
        /// Its last day.
        last: Day,
        /// What it would go into.
        outer: &'a str,
    },
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

/// The prep list, day by day; within a day: throw away, use first, leave, start, take, make. What is made on a day stands before
/// everything that is done with it on that day.
pub fn tasks<'a>(plan: &'a Plan, orders: &'a [Order]) -> Vec<Task<'a>> {
    let waits = waits(plan, orders);
    let made_before = made_before(plan);
    let all = plan.products.iter().enumerate();
    let mut tasks: Vec<Task<'_>> =
        all.flat_map(|(place, p)| of_product(plan, place, p, &waits, &made_before)).collect();
    tasks.sort_by(|a, b| (a.day, a.after, &a.what, a.product).cmp(&(b.day, b.after, &b.what, b.product)));
    tasks
}

/// For each batch and day on which something goes into it that is made on that day: how deep that goes.
type MadeBefore = BTreeMap<(BatchKey, Day), usize>;

fn made_before(plan: &Plan) -> MadeBefore {
    let of_product = |(place, planned): (usize, &Planned)| -> Vec<((BatchKey, Day), (BatchKey, Day))> {
        let of_taken = |(draw, lot, _): &(usize, usize, u64)| {
            let (draw, lot) = (planned.draws.get(*draw)?, planned.lots.get(*lot)?);
            let inner = ((place, draw.day), draw.day);
            (lot.ready == Some(draw.day)).then_some((inner, (draw.into?, draw.day)))
        };
        planned.run.taken.iter().filter_map(of_taken).collect()
    };
    let goes: Vec<_> = plan.products.iter().enumerate().flat_map(of_product).collect();
    let mut before = MadeBefore::new();
    // Products do not go into each other in a ring: this comes to an end.
    loop {
        let mut is_changed = false;
        for (inner, outer) in &goes {
            let deep = before.get(inner).map_or(1, |deep| deep + 1);
            let known = before.entry(*outer).or_default();
            is_changed |= *known < deep;
            *known = (*known).max(deep);
        }
        if !is_changed {
            return before;
        }
    }
}

fn of_product<'a>(
    plan: &'a Plan,
    place: usize,
    planned: &'a Planned,
    waits: &BTreeMap<BatchKey, Vec<Wait<'a>>>,
    made_before: &MadeBefore,
) -> Vec<Task<'a>> {
    let days = plan.calendar.days;
    let product = &planned.product;
    let task = |day, what, amount| {
        let waits = Vec::new();
        Task { day, what, product: &product.name, amount, unit: product.unit, waits, after: 0 }
    };
    let of_batch = |batch: BatchKey, task: Task<'a>| {
        let waits = waits.get(&batch).cloned().unwrap_or_default();
        Task { waits, after: made_before.get(&(batch, task.day)).copied().unwrap_or(0), ..task }
    };
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
            // what is begun for later is finished by another plan
            let day = ready - work.days_before;
            tasks.extend((day < days).then(|| of_batch((place, ready), task(day, what, lot.amount))));
        }
    }
    for (draw, short) in planned.draws.iter().zip(&planned.run.short) {
        let Some(batch) = draw.into else { continue };
        // what was not there is not taken
        let is_task = draw.amount > *short;
        if let Some(outer) = plan.products.get(batch.0).filter(|_| is_task) {
            let taken = task(draw.day, PrepStep::GoesInto(&outer.product.name), draw.amount - short);
            tasks.push(of_batch(batch, taken));
        }
    }
    tasks.extend(
        use_first(&plan.calendar, planned)
            .into_iter()
            .map(|(day, lot)| task(day, PrepStep::UseFirst(lot.use_by), lot.amount)),
    );
    let left = too_old(planned).into_iter().filter(|old| old.day < days).filter_map(|old| {
        let outer = &plan.products.get(old.outer)?.product.name;
        Some(task(old.day, PrepStep::Leave { last: old.lot.use_by, outer }, old.lot.amount))
    });
    tasks.extend(left);
    tasks
}

/// What is passed by.
struct TooOld {
    day: Day,
    /// With what is left of it on that day.
    lot: PrepLot,
    outer: usize,
}

/// The lots that were in date on a day and did not go into a product that is used for longer: once for each product.
fn too_old(planned: &Planned) -> Vec<TooOld> {
    let mut passed: Vec<TooOld> = Vec::new();
    let taken_by = |d: usize, l: usize| planned.run.taken.iter().filter(move |(draw, lot, _)| *draw <= d && *lot == l);
    for (d, draw) in planned.draws.iter().enumerate() {
        let Some((outer, _)) = draw.into else { continue };
        for (l, lot) in planned.lots.iter().enumerate() {
            let is_there = lot.ready.is_none_or(|ready| ready <= draw.day) && lot.use_by >= draw.day;
            let taken: u64 = taken_by(d, l).map(|(_, _, amount)| amount).sum();
            let is_said = passed.iter().any(|old| (old.outer, old.lot.use_by) == (outer, lot.use_by));
            if is_there && lot.use_by < draw.until && taken < lot.amount && !is_said {
                passed.push(TooOld { day: draw.day, lot: PrepLot { amount: lot.amount - taken, ..*lot }, outer });
            }
        }
    }
    passed
}

/// The days on which something is taken of the date that goes first of several: the first of them, once for each date.
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
        let of_day = |(draw, _, _): &&(usize, usize, u64)| planned.draws.get(*draw).is_some_and(|d| d.day <= day);
        let mut used = taken.clone().take_while(of_day);
        if let Some((place, lot)) = next
            .filter(|(place, _)| calendar.is_open(day) && several && said != Some(*place))
            .filter(|(place, _)| used.any(|(_, lot, _)| lot == place))
        {
            said = Some(place);
            first.push((day, lot));
        }
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
