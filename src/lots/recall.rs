//! What went into a lot, and what it went into: the whole chain both ways. And which lots were pulled.

use std::collections::{BTreeSet, VecDeque};

use chrono::NaiveDate;

use super::book::{LotBook, LotStanding, LotState};
use super::event::{PartFrom, Taste};
use crate::spelling::fold;

/// The chain of one lot.
#[derive(Clone, Debug)]
pub struct Chain<'a> {
    /// The lot itself.
    pub lot: &'a LotState,
    /// The lots that went into it, near ones first.
    pub from: Vec<&'a LotState>,
    /// The lots that it went into, near ones first.
    pub into: Vec<&'a LotState>,
    /// The lots that its parts name and that the book does not have.
    pub unknown: Vec<String>,
}

/// The chain of the lot with this code.
pub fn chain<'a>(book: &'a LotBook, code: &str) -> Option<Chain<'a>> {
    let lot = book.lot(code)?;
    let uses = book.uses();
    let mut unknown = Vec::new();
    let from = walk(book, code, |state| {
        let lots = state.recorded.parts.iter().filter_map(|part| match &part.from {
            PartFrom::Lot(of) => Some(of.as_str()),
            _ => None,
        });
        lots.collect()
    });
    for part in [lot].into_iter().chain(from.iter().copied()).flat_map(|state| &state.recorded.parts) {
        if let PartFrom::Lot(of) = &part.from
            && book.lot(of).is_none()
        {
            unknown.push(of.clone());
        }
    }
    let into = walk(book, code, |state| uses.get(state.lot.as_str()).cloned().unwrap_or_default());
    Some(Chain { lot, from, into, unknown })
}

/// Everything that is reached from a lot, itself left out, each once.
fn walk<'a>(book: &'a LotBook, code: &str, next: impl Fn(&'a LotState) -> Vec<&'a str>) -> Vec<&'a LotState> {
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    let mut queue: VecDeque<&'a LotState> = book.lot(code).into_iter().collect();
    let mut reached = Vec::new();
    while let Some(state) = queue.pop_front() {
        for of in next(state) {
            if let Some(other) = book.lot(of).filter(|other| other.lot != code && seen.insert(other.lot.as_str())) {
                reached.push(other);
                queue.push_back(other);
            }
        }
    }
    reached
}

/// A lot that nobody is to use any more, or that leaves what stood beside it in doubt.
#[derive(Clone, Debug)]
pub struct PulledLot<'a> {
    /// The lot.
    pub lot: &'a LotState,
    /// Why it was pulled.
    pub why: PulledFor,
}

/// Why a lot was pulled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PulledFor {
    /// Something grew in it; the day on which that was seen.
    Growth(NaiveDate),
    /// It was found off.
    Off(NaiveDate),
    /// An off lot is in it.
    Holds(String),
    /// It was thrown away before its date, and not because it was going: for what, its maker knows.
    ThrownAway(NaiveDate),
}

/// The lots that were pulled, as long as that is of anybody's concern: they are there themselves, or another lot of their
/// product is that was there on that day.
pub fn pulled(book: &LotBook) -> Vec<PulledLot<'_>> {
    let stood_beside = |lot: &LotState, seen: NaiveDate| {
        let product = fold(&lot.recorded.product);
        let is_there = |other: &&LotState| other.standing == LotStanding::InUse && other.recorded.made <= seen;
        book.lots().filter(is_there).any(|other| fold(&other.recorded.product) == product)
    };
    let one = |lot| {
        let why = pulled_for(lot)?;
        let counts = match &why {
            _ if lot.standing == LotStanding::InUse => true,
            PulledFor::Growth(seen) | PulledFor::Off(seen) | PulledFor::ThrownAway(seen) => stood_beside(lot, *seen),
            PulledFor::Holds(_) => false,
        };
        counts.then_some(PulledLot { lot, why })
    };
    book.lots().filter_map(one).collect()
}

fn pulled_for(lot: &LotState) -> Option<PulledFor> {
    let is_early = lot.standing == LotStanding::Discarded && lot.use_by.day.is_some_and(|last| lot.since < last);
    match (lot.growth, &lot.tainted_by, lot.tasted) {
        (Some(seen), _, _) => Some(PulledFor::Growth(seen)),
        (None, Some(off), _) => Some(PulledFor::Holds(off.clone())),
        (None, None, Some((seen, Taste::Off))) => Some(PulledFor::Off(seen)),
        (None, None, Some((_, Taste::Going))) => None,
        (None, None, _) => is_early.then_some(PulledFor::ThrownAway(lot.since)),
    }
}
