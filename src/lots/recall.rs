//! What went into a lot, and what it went into: the whole chain both ways. And which lots were pulled.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use chrono::NaiveDate;

use super::FOLDER;
use super::ahead::poured_as;
use super::book::{LotBook, LotStanding, LotState};
use super::cause::PulledFor;
use super::untold::Untold;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
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
    /// Lots with a part of the same product of which nobody has said the lot, made while it was there, and what they went into: they
    /// may hold it.
    pub perhaps: Vec<&'a LotState>,
}

/// The chain of the lot with this code.
pub fn chain<'a>(book: &'a LotBook, code: &str) -> Option<Chain<'a>> {
    let lot = book.lot(code)?;
    let uses = book.uses();
    let parts = |state: &'a LotState| state.recorded.parts.iter().filter_map(|part| part.from.lot());
    let from = walk(book, code, |state| parts(state).collect());
    let named = [lot].into_iter().chain(from.iter().copied()).flat_map(parts);
    let unknown = named.filter(|of| book.lot(of).is_none()).map(str::to_owned).collect();
    let into = walk(book, code, |state| uses.get(state.lot.as_str()).cloned().unwrap_or_default());
    let perhaps = Untold::of(book).perhaps(lot, &into);
    Some(Chain { lot, from, into, unknown, perhaps })
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
    pub why: &'a PulledFor,
}

/// The lots that were pulled, as long as that is of anybody's concern: they are there themselves, or another lot of their
/// product is that was there on that day, or no lot of it is newer. Bottles of it may stand on a shelf that is on no book.
pub fn pulled<'a>(book: &'a LotBook) -> Vec<PulledLot<'a>> {
    let concerns = |lot: &LotState, seen: NaiveDate| {
        let product = fold(&lot.recorded.product);
        let others = book.lots().filter(|other| fold(&other.recorded.product) == product && other.lot != lot.lot);
        let (newer, older): (Vec<&LotState>, Vec<&LotState>) =
            others.partition(|other| book.is_made_after(other, lot, seen));
        let is_there = |other: &&LotState| other.standing == LotStanding::InUse;
        older.iter().any(is_there) || newer.iter().all(|other| other.pulled.is_some())
    };
    let counts = |of: &PulledLot<'_>| match of.why {
        _ if of.lot.standing == LotStanding::InUse => true,
        PulledFor::Holds { .. } => false,
        own => concerns(of.lot, own.on()),
    };
    let of = |lot: &'a LotState| Some(PulledLot { lot, why: lot.pulled.as_ref()? });
    book.lots().filter_map(of).filter(counts).collect()
}

/// Tells a house of which of its products a lot was pulled: who makes or serves what they go into is told so. What is only
/// past its date `due` says, and no day is asked here: a card says the same tomorrow.
pub fn tell_pulled(book: &LotBook, house: &mut House) {
    let mut of_product: BTreeMap<String, Vec<PulledLot<'_>>> = BTreeMap::new();
    for of in pulled(book) {
        of_product.entry(fold(&of.lot.recorded.product)).or_default().push(of);
    }
    // it is the book that says so, whichever card is looked at
    let book_file = FOLDER.into();
    for (key, lots) in &of_product {
        let is_pulled = |lot: &LotState| lots.iter().any(|of| of.lot.lot == lot.lot);
        let there = book.lots().filter(|lot| lot.standing == LotStanding::InUse && fold(&lot.recorded.product) == *key);
        let none_left = there.into_iter().all(is_pulled);
        if let [first, ..] = lots.as_slice() {
            let product = &first.lot.recorded.product;
            let said = was_pulled(product, lots, none_left).in_file(&book_file);
            // who is asked for the drink pours what was bottled of it
            for name in poured_as(product, house).iter().chain([key]) {
                house.say_of(name, said.clone());
            }
        }
    }
}

fn was_pulled(product: &str, lots: &[PulledLot<'_>], none_left: bool) -> Diagnostic {
    let one = |of: &PulledLot<'_>| format!("lot {} was pulled on {}: {}", of.lot.lot, of.why.on(), of.why.short());
    let all: Vec<String> = lots.iter().map(one).collect();
    let none = if none_left { "; no other lot of it on the book may be used" } else { "" };
    let asked: Vec<String> = lots.iter().map(|of| format!("stillroom recall {}", of.lot.lot)).collect();
    Diagnostic::warning(Code::LotPulled, format!("{product}: {}{none}", all.join("; ")))
        .help(format!("use nothing of it; what is in it, and what it is in: {}", asked.join(", ")))
}
