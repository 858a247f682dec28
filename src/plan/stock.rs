//! Stock, first-expired-first-out: which lot each draw takes from.

use super::calendar::Day;
use super::model::{Draw, PrepLot};

/// What became of lots and draws.
#[derive(Clone, Debug, Default)]
pub struct Run {
    /// What is left of each lot.
    pub left: Vec<u64>,
    /// What each draw did not get.
    pub short: Vec<u64>,
    /// What is usable when the doors open, for each day of the plan: before anything is taken.
    pub opening: Vec<u64>,
    /// What was taken: draw, lot, amount.
    pub taken: Vec<(usize, usize, u64)>,
}

/// Takes every draw from the stock. `lots` in the order of their dates, `draws` in the order of their days.
pub fn run(lots: &[PrepLot], draws: &[Draw], days: Day) -> Run {
    let mut run = Run {
        left: lots.iter().map(|lot| lot.amount).collect(),
        short: Vec::with_capacity(draws.len()),
        ..Run::default()
    };
    // Lots before this one are used up or past their date: days only go forward.
    let mut first = 0;
    let mut opened = 0;
    for (d, draw) in draws.iter().enumerate() {
        while opened <= draw.day.min(days - 1) {
            run.opening.push(usable(lots, &run.left, opened));
            opened += 1;
        }
        while let (Some(lot), Some(left)) = (lots.get(first), run.left.get(first)) {
            if *left > 0 && lot.use_by >= draw.day {
                break;
            }
            first += 1;
        }
        let mut wanted = draw.amount;
        for (l, (lot, left)) in lots.iter().zip(&mut run.left).enumerate().skip(first) {
            if wanted == 0 {
                break;
            }
            let there = lot.ready.is_none_or(|ready| ready <= draw.day);
            let taken = wanted.min(*left);
            if there && lot.use_by >= draw.day.max(draw.until) && taken > 0 {
                *left -= taken;
                wanted -= taken;
                run.taken.push((d, l, taken));
            }
        }
        run.short.push(wanted);
    }
    while opened < days {
        run.opening.push(usable(lots, &run.left, opened));
        opened += 1;
    }
    run
}

fn usable(lots: &[PrepLot], left: &[u64], day: Day) -> u64 {
    let there = |lot: &PrepLot| lot.ready.is_none_or(|ready| ready <= day) && lot.use_by >= day;
    lots.iter().zip(left).filter(|(lot, _)| there(lot)).map(|(_, left)| *left).sum()
}

/// Puts a lot where it belongs by its date; of the same date what is older goes first.
pub fn put(lots: &mut Vec<PrepLot>, lot: PrepLot) -> usize {
    let order = |l: &PrepLot| (l.use_by, l.ready, l.amount);
    let at = lots.partition_point(|l| order(l) <= order(&lot));
    lots.insert(at, lot);
    at
}
