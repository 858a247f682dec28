//! What air does to a part goes on in the bottle that it goes into: of the life of that bottle as great a share is gone as of the part's.

use chrono::{NaiveDate, TimeDelta};

use crate::shelf_life::calendar::{self, DayOne};
use crate::shelf_life::reason::DateRule;
use crate::shelf_life::staling::Stale;

use super::lot::Lot;
use super::store::DatedStore;

/// The days that something takes to go stale in a store.
fn days_of(dated: &DatedStore, what: Stale) -> Option<f64> {
    let terms = dated.verdict.iter().flat_map(|verdict| &verdict.terms);
    terms.filter(|term| term.rule == DateRule::Stale(what)).map(|term| term.days).reduce(f64::min)
}

/// The days from one on which something begins to its last.
fn length(from: NaiveDate, days: f64, day_one: DayOne) -> Option<i64> {
    Some((calendar::last_day(from, days.floor() as u32, None, day_one)? - from).num_days())
}

/// How much of the life of a part was gone when it went in, from 0 to 1. `kept` is the part in its own store.
fn share_gone(lot: &Lot, name: &str, kept: &DatedStore, what: Stale, day_one: DayOne) -> Option<f64> {
    let days = days_of(kept, what)?;
    let (since, last) = lot.kept_since(name)?;
    // the book knows more of a lot than its card does: what was moved, opened, or accepted
    let decides = kept.decided_by == Some(DateRule::Stale(what));
    let life = match last.filter(|_| decides) {
        Some(last) => (last - since).num_days(),
        None => length(since, days, day_one)?,
    };
    let age = (lot.made - since).num_days();
    Some(if age <= 0 { 0.0 } else { (age as f64 / life.max(1) as f64).min(1.0) })
}

/// Shortens a date by what went stale before the part went in. Each part by its name, as it keeps in its own store.
pub(super) fn shorten(dated: &mut DatedStore, lot: &Lot, parts: &[(&str, &DatedStore)], day_one: DayOne) {
    for what in [Stale::Nut, Stale::FatWashed, Stale::Wine] {
        let Some(days) = days_of(dated, what) else { continue };
        let shares = parts.iter().filter_map(|(name, kept)| share_gone(lot, name, kept, what, day_one));
        let Some(gone) = shares.reduce(f64::max).filter(|gone| *gone > 0.0) else { continue };
        let Some(fresh) = length(lot.made, days, day_one) else { continue };
        let left = (fresh as f64 * (1.0 - gone) + 1e-6).floor().max(0.0) as i64;
        let last = lot.made + TimeDelta::days(left);
        if dated.date.is_some_and(|own| last < own) {
            let rule = DateRule::Stale(what);
            let days = days.floor() as i64 - (fresh - left);
            (dated.date, dated.days, dated.tier) = (Some(last), u32::try_from(days).ok(), Some(rule.tier()));
            dated.decided_by = Some(rule);
        }
    }
}
