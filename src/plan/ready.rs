//! On which days a product can be finished, and how long what is finished then may be used.

use std::collections::BTreeSet;

use super::calendar::{Calendar, Day};
use super::model::PrepProduct;

/// For each product and day: the last day of use of what is finished on that day, if it can be.
#[derive(Clone, Debug)]
pub(crate) struct Ready {
    use_by: Vec<Vec<Option<Day>>>,
}

/// A part of a product: its place among the products, and how many days before the end it goes in.
pub(crate) type InnerPart = (usize, Day);

impl Ready {
    /// Looks at every product, inner ones first (`order`). `barred` are days on which a product cannot be finished
    /// because what goes into it is not there.
    pub(crate) fn ahead(
        calendar: &Calendar,
        products: &[PrepProduct],
        inner: &[Vec<InnerPart>],
        order: &[usize],
        barred: &BTreeSet<(usize, Day)>,
    ) -> Self {
        let days = calendar.days.saturating_add(look_ahead(products, inner, order));
        let open: Vec<bool> = (0..days).map(|day| calendar.is_open(day)).collect();
        let is_open = |day: Day| usize::try_from(day).is_ok_and(|d| open.get(d) == Some(&true));
        let mut use_by = vec![Vec::new(); products.len()];
        // The best date that a part can have on a day: made by then, or on the shelf if it cannot be made.
        let mut freshest: Vec<Vec<Option<Day>>> = vec![Vec::new(); products.len()];
        for &place in order {
            let (Some(product), Some(parts)) = (products.get(place), inner.get(place)) else { continue };
            let of_part = |(part, before): &InnerPart, day: Day| -> Option<Day> {
                let day = day - before;
                freshest.get(*part)?.get(usize::try_from(day).ok()?).copied().flatten()
            };
            let finished = |day: Day| -> Option<Day> {
                let workable = product.works.iter().all(|w| is_open(day - w.days_before));
                if !workable || !is_open(day) || barred.contains(&(place, day)) {
                    return None;
                }
                let own = day.saturating_add(product.life);
                let with = |last: Day, part: Day| if product.own_clock { last } else { last.min(part) };
                let last = parts.iter().try_fold(own, |last, part| Some(with(last, of_part(part, day)?)))?;
                (last >= day).then_some(last)
            };
            let own: Vec<Option<Day>> = (0..days).map(finished).collect();
            let mut best = None;
            let by_then = own.iter().zip(0..).map(|(last, day)| {
                best = best.max(*last);
                let shelf = || product.on_hand.iter().map(|lot| lot.use_by).filter(|last| *last >= day).max();
                best.filter(|last| *last >= day).or_else(shelf)
            });
            let by_then = by_then.collect();
            if let (Some(a), Some(b)) = (use_by.get_mut(place), freshest.get_mut(place)) {
                (*a, *b) = (own, by_then);
            }
        }
        Self { use_by }
    }

    pub(crate) fn use_by(&self, place: usize, day: Day) -> Option<Day> {
        self.use_by.get(place)?.get(usize::try_from(day).ok()?).copied().flatten()
    }

    /// The latest day, not after `by`, on which something can be finished that keeps until `until`.
    pub(crate) fn latest(&self, place: usize, by: Day, until: Day) -> Option<Day> {
        (0..=by).rev().find(|day| self.use_by(place, *day).is_some_and(|last| last >= until))
    }

    /// The first day after this one on which it can be finished.
    pub(crate) fn first_after(&self, place: usize, day: Day) -> Option<Day> {
        let days = self.use_by.get(place).map_or(0, Vec::len) as Day;
        (day + 1..days).find(|d| self.use_by(place, *d).is_some())
    }
}

/// Beyond the end of the plan: as far as the longest work reaches, and two weeks for closed days. What is further is
/// said to be beyond sight.
fn look_ahead(products: &[PrepProduct], inner: &[Vec<InnerPart>], order: &[usize]) -> Day {
    let mut work: Vec<Day> = vec![0; products.len()];
    for &place in order {
        let (Some(product), Some(parts)) = (products.get(place), inner.get(place)) else { continue };
        let of_parts = parts.iter().filter_map(|(part, before)| Some(work.get(*part)? + before)).max();
        if let Some(own) = work.get_mut(place) {
            *own = product.lead().max(of_parts.unwrap_or(0)).min(MOST_LOOK_AHEAD);
        }
    }
    14 + work.into_iter().max().unwrap_or(0)
}

/// A year and a month, days.
const MOST_LOOK_AHEAD: Day = 400;
