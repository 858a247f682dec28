//! What went into a lot, and what it went into: the whole chain both ways.

use std::collections::{BTreeSet, VecDeque};

use super::book::{LotBook, LotState};
use super::event::PartFrom;

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
