//! What is struck out of the book: a line that was wrong. Nothing is removed; a later line takes it back, with who says so and
//! why, and whatever follows from the book follows from the rest.

use super::book::{LotBook, LotState};
use super::event::{Event, Happened};

/// A line of a lot, as it is numbered where its history is shown: from 1.
#[derive(Clone, Debug)]
pub struct LotLine<'a> {
    /// What it says.
    pub event: &'a Event,
    /// The line that took it back.
    pub struck_by: Option<&'a Event>,
}

/// Why a line cannot be struck.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotStruck {
    /// There are so many lines.
    NoSuchLine(usize),
    /// It is struck already.
    Already,
    /// It is itself such a line, or tells of a label that was printed.
    Stays,
    /// It says that the lot was made, and these were made with it.
    WentInto(Vec<String>),
}

/// All lines of a lot, those that were taken back among them.
pub fn lines<'a>(book: &'a LotBook, lot: &LotState) -> Vec<LotLine<'a>> {
    let event = |place: usize| book.events.get(place);
    let kept = lot.events.iter().map(|place| (*place, None));
    let struck = lot.struck.iter().map(|(place, by)| (*place, event(*by)));
    let mut all: Vec<(usize, Option<&Event>)> = kept.chain(struck).collect();
    all.sort_by_key(|(place, _)| *place);
    all.into_iter().filter_map(|(place, struck_by)| Some(LotLine { event: event(place)?, struck_by })).collect()
}

/// The line of this number, if it may be struck; without a number the last that may be.
///
/// # Errors
/// Where it may not be.
pub fn to_strike<'a>(book: &'a LotBook, lot: &LotState, number: Option<usize>) -> Result<&'a Event, NotStruck> {
    let all = lines(book, lot);
    let may = |line: &LotLine<'_>| {
        if line.struck_by.is_some() {
            return Err(NotStruck::Already);
        }
        match line.event.happened {
            Happened::Withdrawn { .. } | Happened::Labelled(_) => Err(NotStruck::Stays),
            Happened::Recorded(_) => {
                let uses = book.uses();
                let into = uses.get(lot.lot.as_str()).cloned().unwrap_or_default();
                let into: Vec<String> = into.into_iter().map(str::to_owned).collect();
                if into.is_empty() { Ok(()) } else { Err(NotStruck::WentInto(into)) }
            }
            _ => Ok(()),
        }
    };
    let line = match number {
        Some(number) => number.checked_sub(1).and_then(|at| all.get(at)),
        None => {
            let is_open = |line: &&LotLine<'_>| !matches!(may(line), Err(NotStruck::Already | NotStruck::Stays));
            all.iter().rev().find(is_open)
        }
    };
    let line = line.ok_or(NotStruck::NoSuchLine(all.len()))?;
    may(line).map(|()| line.event)
}
