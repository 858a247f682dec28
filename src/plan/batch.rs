//! How large a batch is.

use super::calendar::{Calendar, Day};
use super::model::{BatchCost, PrepLot};
use super::planned::Planned;
use super::stock;

const ENDLESS: u64 = 1 << 50;

/// The size of a batch, and what limits it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct BatchAmount {
    pub(super) amount: u64,
    /// What is used of it in its life, also beyond the plan.
    pub(super) used_in_life: u64,
}

/// The size of the batch that is finished on a day, given what is planned of it so far: its use and the par until the end
/// of the plan or of its life. What is left at the end of the plan is used within its life, if the weeks go on alike. More
/// than is used is only made where it keeps the par for so long that what is thrown away costs less than the work of the
/// batches that are saved.
pub(super) fn batch_amount(calendar: &Calendar, made: &Planned, ready: Day, use_by: Day) -> BatchAmount {
    let Planned { product, draws, .. } = made;
    let mut lots = made.lots.clone();
    let place = stock::put(&mut lots, PrepLot { ready: Some(ready), amount: ENDLESS, use_by });
    let run = stock::run(&lots, draws, calendar.days);
    // An older part can give it an earlier date than an earlier batch has: what that one would then have left is not
    // wanted of this one.
    let others = run.left.iter().zip(&lots).enumerate().filter(|(at, _)| *at != place).map(|(_, left)| left);
    let displaced: u64 = others
        .zip(&made.run.left)
        .filter(|((_, lot), _)| lot.ready.is_some())
        .map(|((after, _), before)| after.saturating_sub(*before))
        .sum();
    let end = use_by.min(calendar.days - 1);
    let mut taken_on: Vec<u64> = vec![0; usize::try_from(end + 1).unwrap_or(0)];
    let mut used_in_life: u64 = 0;
    for (draw, lot, amount) in run.taken {
        if lot == place {
            used_in_life += amount;
            let day = draws.get(draw).and_then(|d| usize::try_from(d.day).ok());
            if let Some(on) = day.and_then(|d| taken_on.get_mut(d)) {
                *on += amount;
            }
        }
    }
    let used_in_life = used_in_life.saturating_sub(displaced);
    let mut before = 0;
    let mut wanted = 0;
    // What it takes to keep the par until each day, that day counted.
    let mut until: Vec<(Day, u64)> = Vec::new();
    for (day, (taken, opening)) in (0..).zip(taken_on.iter().zip(&run.opening)) {
        if day >= ready && calendar.is_open(day) {
            let others = opening.saturating_sub(ENDLESS - before);
            wanted = wanted.max(before + product.par.saturating_sub(others));
        }
        before += taken;
        if day >= ready {
            until.push((day, wanted.max(before)));
        }
    }
    let wanted = rounded_up(wanted.max(before).max(product.smallest));
    if let Some(step) = product.step {
        // Whole steps, and no more of them than is used; of less than one the board says that it is too small.
        let steps = wanted.div_ceil(step).min((used_in_life / step).max(1));
        return BatchAmount { amount: (steps * step).min(used_in_life), used_in_life };
    }
    let used = wanted.min(used_in_life);
    let worth = product.cost.and_then(|cost| worth_throwing_away(cost, ready, &until, used_in_life));
    let amount = worth.map_or(used, |amount| used.max(rounded_up(amount)));
    BatchAmount { amount: amount.min(product.largest.unwrap_or(u64::MAX)), used_in_life }
}

/// The amount with which a day of the par costs least, where that is more than is used: `until` says what it takes to keep
/// the par until each day.
fn worth_throwing_away(cost: BatchCost, ready: Day, until: &[(Day, u64)], used_in_life: u64) -> Option<u64> {
    let a_day = |(day, amount): &(Day, u64)| {
        let thrown = amount.saturating_sub(used_in_life) as f64;
        (cost.each_batch + cost.each_unit * thrown) / f64::from(day - ready + 1)
    };
    // A par that its life does not allow is said, and not kept with what is made to be thrown away.
    let without = until.iter().rev().find(|(_, amount)| *amount <= used_in_life)?;
    let best = until.iter().min_by(|a, b| a_day(a).total_cmp(&a_day(b)))?;
    (best.1 > used_in_life && a_day(best) < a_day(without)).then_some(best.1)
}

/// An amount that one would write on a board: the next 10, or 50 from half a litre up (common practice, no source).
fn rounded_up(amount: u64) -> u64 {
    let step = if amount < 500 { 10 } else { 50 };
    amount.div_ceil(step) * step
}
