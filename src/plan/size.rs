//! How large a batch is: what is used of it in its life, no more.

use super::calendar::{Calendar, Day};
use super::model::{Draw, Lot, Product};
use super::stock;

/// More than anyone makes.
const ENDLESS: u64 = 1 << 50;

/// The size of a batch, and what limits it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Size {
    /// What is made.
    pub amount: u64,
    /// What is used of it in its life, also beyond the plan.
    pub used_in_life: u64,
}

/// The size of the batch that is finished on a day, given the lots that there are: its use and the par until the end
/// of the plan or of its life. What is left at the end of the plan is used within its life, if the weeks go on alike.
pub fn of(calendar: &Calendar, product: &Product, lots: &[Lot], draws: &[Draw], ready: Day, use_by: Day) -> Size {
    let mut lots = lots.to_vec();
    let place = stock::put(&mut lots, Lot { ready: Some(ready), amount: ENDLESS, use_by });
    let run = stock::run(&lots, draws, calendar.days);
    let end = use_by.min(calendar.days - 1);
    let mut taken_on: Vec<u64> = vec![0; usize::try_from(end + 1).unwrap_or(0)];
    let mut used_in_life = 0;
    for (draw, lot, amount) in run.taken {
        if lot == place {
            used_in_life += amount;
            let day = draws.get(draw).and_then(|d| usize::try_from(d.day).ok());
            if let Some(on) = day.and_then(|d| taken_on.get_mut(d)) {
                *on += amount;
            }
        }
    }
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
    Size { amount: wanted.min(used_in_life).min(product.largest.unwrap_or(u64::MAX)), used_in_life }
}

/// An amount that one would write on a board: the next 10, or 50 from half a litre up (common practice, no source).
fn rounded_up(amount: u64) -> u64 {
    let step = if amount < 500 { 10 } else { 50 };
    amount.div_ceil(step) * step
}
