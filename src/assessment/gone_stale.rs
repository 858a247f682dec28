//! What air does to a part goes on in the bottle that it goes into, and in the next: of the life of that bottle as great a share is gone as
//! of the part's.

use chrono::{NaiveDate, TimeDelta};

use crate::shelf_life::calendar::{self, DayOne};
use crate::shelf_life::reason::DateRule;
use crate::shelf_life::staling::Stale;

use super::lot::Lot;
use super::part_kept::PartKept;
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

/// The parts of a lot by their cards, each as it keeps in its own store.
type Kept<'a> = [(&'a str, &'a DatedStore)];

/// How much of the life of a part was gone on the day that it went in, from 0 to 1: what was old in it as it was made, and of the rest
/// what went by since.
fn share_gone(part: &PartKept, went_in: NaiveDate, kept: &Kept<'_>, what: Stale, day_one: DayOne) -> f64 {
    let inside = part.holds.iter().map(|of| share_gone(of, part.made, kept, what, day_one));
    let before = inside.fold(0.0, f64::max);
    let own = kept.iter().find(|(name, _)| part.is_called(name)).map(|(_, own)| *own);
    // the book knows more of a lot than its card does: what was moved, opened, or accepted; and all there is of a card that has changed
    let by_book = own.is_none_or(|own| own.decided_by == Some(DateRule::Stale(what)));
    let last = part.of_lot.as_ref().and_then(|lot| lot.last).filter(|_| by_book);
    let age = (went_in - part.since()).num_days().max(0) as f64;
    let fresh = || length(part.since(), days_of(own?, what)?, day_one);
    let since = match last {
        Some(last) => (1.0 - before) * age / (last - part.since()).num_days().max(1) as f64,
        None => fresh().map_or(0.0, |days| age / days.max(1) as f64),
    };
    (before + since).min(1.0)
}

/// The same of the oldest part, where nothing but its day is told: it may be any.
fn share_of_oldest(lot: &Lot, kept: &DatedStore, what: Stale, day_one: DayOne) -> Option<f64> {
    let since = lot.oldest_part.filter(|_| lot.parts.is_empty())?;
    let days = length(since, days_of(kept, what)?, day_one)?;
    Some(((lot.made - since).num_days().max(0) as f64 / days.max(1) as f64).min(1.0))
}

/// Shortens a date by what went stale before the part went in.
pub(super) fn shorten(dated: &mut DatedStore, lot: &Lot, kept: &Kept<'_>, day_one: DayOne) {
    for what in [Stale::Nut, Stale::FatWashed, Stale::Wine] {
        let Some(days) = days_of(dated, what) else { continue };
        let told = lot.parts.iter().map(|part| share_gone(part, lot.made, kept, what, day_one));
        let oldest = kept.iter().filter_map(|(_, kept)| share_of_oldest(lot, kept, what, day_one));
        let gone = told.chain(oldest).fold(0.0, f64::max);
        let Some(fresh) = length(lot.made, days, day_one).filter(|_| gone > 0.0) else { continue };
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
