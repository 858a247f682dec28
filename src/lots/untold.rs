//! Which lots may hold another one, for all that the book says: of a part nobody has said the lot, and it was there.

use std::collections::{BTreeMap, HashMap, HashSet};

use chrono::NaiveDate;

use super::book::{LotBook, LotStanding, LotState};
use super::cause::PulledFor;
use super::event::PartFrom;
use crate::diagnostic::{Code, Diagnostic};
use crate::spelling::fold;

/// A part of which nobody has said the lot.
struct UntoldPart<'a> {
    lot: &'a LotState,
    /// The day that it was made on, where that is told.
    made: Option<NaiveDate>,
    /// Whether it went in inside another part, which was made at any time before.
    inside: bool,
}

impl UntoldPart<'_> {
    /// Whether it may be of a lot that was there from its day to its last.
    fn may_be_of(&self, made: NaiveDate, last: NaiveDate) -> bool {
        let went_in = self.lot.recorded.made;
        if self.inside {
            return made <= self.made.unwrap_or(went_in);
        }
        (made..=last).contains(&went_in) && self.made.is_none_or(|day| day == made)
    }
}

/// Whether the book has a lot of a product that was made on a day; `None` where it has none of the product at all.
pub(super) fn is_on_book(product: &str, made: NaiveDate, book: &LotBook) -> Option<bool> {
    let mut lots = book.lots().filter(|lot| fold(&lot.recorded.product) == fold(product)).peekable();
    lots.peek()?;
    Some(lots.any(|lot| lot.recorded.made == made))
}

/// What a book leaves open of what went where.
pub(super) struct Untold<'a> {
    book: &'a LotBook,
    uses: BTreeMap<&'a str, Vec<&'a str>>,
    /// By the folded name of the part.
    parts: HashMap<String, Vec<UntoldPart<'a>>>,
}

impl<'a> Untold<'a> {
    pub(super) fn of(book: &'a LotBook) -> Self {
        let mut parts: HashMap<String, Vec<UntoldPart<'a>>> = HashMap::new();
        for lot in book.lots() {
            for part in &lot.recorded.parts {
                let made = match &part.from {
                    PartFrom::NotTold => None,
                    // a day of which the book has no lot, though it has lots of the product, may be a slip of the pen
                    PartFrom::Day(day) => {
                        Some(*day).filter(|day| is_on_book(part.product(), *day, book) != Some(false))
                    }
                    PartFrom::Lot(of) if book.lot(of).is_some_and(LotState::is_overdrawn) => None,
                    PartFrom::Lot(_) | PartFrom::Batch(_) => continue,
                };
                let is_on_book = |lot: &LotState| {
                    Some(lot.recorded.made) == made && fold(&lot.recorded.product) == fold(part.product())
                };
                // of a lot that is on the book the book says what is in it
                let inside = part.made_of.iter().filter(|_| !book.lots().any(is_on_book));
                let names = [(part.product(), false)].into_iter().chain(inside.map(|of| (of.as_str(), true)));
                for (of, inside) in names {
                    parts.entry(fold(of)).or_default().push(UntoldPart { lot, made, inside });
                }
            }
        }
        Self { book, uses: book.uses(), parts }
    }

    /// The lots that may hold this one or one of those that it went into, by the day they were made.
    pub(super) fn perhaps(&self, lot: &'a LotState, into: &[&'a LotState]) -> Vec<&'a LotState> {
        let mut open: Vec<&LotState> = [lot].into_iter().chain(into.iter().copied()).collect();
        let mut seen: HashSet<&str> = open.iter().map(|lot| lot.lot.as_str()).collect();
        let mut perhaps = Vec::new();
        while let Some(of) = open.pop() {
            let made = of.recorded.made;
            let last = if of.standing == LotStanding::InUse { NaiveDate::MAX } else { of.since };
            let told = self.uses.get(of.lot.as_str()).into_iter().flatten().filter_map(|code| self.book.lot(code));
            let parts = self.parts.get(&fold(&of.recorded.product)).into_iter().flatten();
            let was_there = |part: &&UntoldPart<'_>| part.may_be_of(made, last);
            for other in told.chain(parts.filter(was_there).map(|part| part.lot)) {
                if seen.insert(&other.lot) {
                    perhaps.push(other);
                    open.push(other);
                }
            }
        }
        perhaps.sort_by_key(|lot| (lot.recorded.made, &lot.lot));
        perhaps
    }
}

/// A lot that is there and may hold one that was pulled.
#[derive(Clone, Debug)]
pub struct InDoubt<'a> {
    /// The lot that was pulled.
    pub pulled: &'a LotState,
    /// Why.
    pub why: &'a PulledFor,
}

impl InDoubt<'_> {
    /// Nothing is printed for a lot that may hold one that was pulled.
    pub fn no_label(&self, lot: &LotState) -> Diagnostic {
        let (product, code) = (&self.pulled.recorded.product, &self.pulled.lot);
        let title = format!("no label: it may hold {product}, lot {code}, which was pulled: {}", self.why.short());
        let open = lot.recorded.parts.iter().find(|part| {
            let is_it = |of: &str| fold(of) == fold(product);
            let inside = part.made_of.iter().any(|of| is_it(of));
            !matches!(part.from, PartFrom::Lot(_)) && (is_it(part.product()) || inside)
        });
        let help = match open {
            Some(part) => format!("stillroom tell {} \"{}=LOT\" says which lot of it went in", lot.lot, part.of),
            None => format!("stillroom recall {code} says what it went into; tell those lots first"),
        };
        Diagnostic::error(Code::NoLabel, title).help(help)
    }
}

/// The lots that are there, not pulled themselves, and may hold one that was, by their codes; of several that a lot may hold, the first
/// of the book.
pub fn in_doubt(book: &LotBook) -> HashMap<&str, InDoubt<'_>> {
    let mut found = HashMap::new();
    let pulled: Vec<_> = book.lots().filter_map(|lot| Some((lot, lot.pulled.as_ref()?))).collect();
    if pulled.is_empty() {
        return found;
    }
    let untold = Untold::of(book);
    // what a pulled lot surely went into was pulled with it, and is asked for itself
    for (lot, why) in pulled {
        let doubtful = |of: &&LotState| of.standing == LotStanding::InUse && of.pulled.is_none();
        for of in untold.perhaps(lot, &[]).into_iter().filter(doubtful) {
            found.entry(of.lot.as_str()).or_insert(InDoubt { pulled: lot, why });
        }
    }
    found
}
