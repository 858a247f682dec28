//! How large a batch is: what is used of it in its life, no more.

use super::calendar::{Calendar, Day};
use super::model::PrepLot;
use super::planned::Planned;
use super::stock;

const ENDLESS: u64 = 1 << 50;

/// The size of a batch, and what limits it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct BatchAmount {
    pub amount: u64,
    /// What is used of it in its life, also beyond the plan.
    pub used_in_life: u64,
}

/// The size of the batch that is finished on a day, given what is planned of it so far: its use and the par until the end
/// of the plan or of its life. What is left at the end of the plan is used within its life, if the weeks go on alike.
pub(crate) fn batch_amount(calendar: &Calendar, made: &Planned, ready: Day, use_by: Day) -> BatchAmount {
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
    for (day, (taken, opening)) in (0..).zip(taken_on.iter().zip(&run.opening)) {
        if day >= ready && calendar.is_open(day) {
            let others = opening.saturating_sub(ENDLESS - before);
            wanted = wanted.max(before + product.par.saturating_sub(others));
        }
        before += taken;
    }
    let wanted = rounded_up(wanted.max(before).max(product.smallest));
    BatchAmount { amount: wanted.min(used_in_life).min(product.largest.unwrap_or(u64::MAX)), used_in_life }
}

/// An amount that one would write on a board: the next 10, or 50 from half a litre up (common practice, no source).
fn rounded_up(amount: u64) -> u64 {
    let step = if amount < 500 { 10 } else { 50 };
    amount.div_ceil(step) * step
}
