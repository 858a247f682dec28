//! Where the parts of a lot are from: told, read off the book where that leaves no choice, or not told.

use chrono::NaiveDate;

use crate::assessment;
use crate::diagnostic::{Code, Diagnostic, listed};
use crate::solver::resolve::Material;
use crate::solver::{PouredPart, Solved, SolvedPart, poured_out};
use crate::spelling::{fold, meant_or, nearest};

use super::book::{LotBook, LotStanding, LotState};
use super::due::{Soon, soon};
use super::event::{PartFrom, PartUsed};
use super::request::RecordRequest;

/// Whether the date of a lot hangs on the day of a part.
fn is_dated(part: &SolvedPart) -> bool {
    match &part.found.what {
        Material::Card(_) => true,
        Material::Ingredient(ingredient) => assessment::product::is_raw_juice(part, ingredient),
        Material::Stage(_) => false,
    }
}

pub(super) fn parts_used(
    solved: &Solved,
    book: &LotBook,
    request: &RecordRequest,
    found: &mut Vec<Diagnostic>,
) -> Vec<PartUsed> {
    let weighed = weighed(solved);
    let parts = || weighed.iter().map(|of| of.part);
    let names = |part: &SolvedPart| [fold(&part.label), fold(&part.of)];
    let pressed = request.pressed.iter().map(|pressed| &pressed.of);
    for name in request.parts.iter().map(|(name, _)| name).chain(pressed) {
        if !parts().any(|part| names(part).contains(&fold(name))) {
            let all: Vec<&str> = parts().map(|p| p.label.as_str()).collect();
            let near = nearest(name, all.iter().copied());
            found.push(
                Diagnostic::error(Code::BadArgument, format!("nothing called `{name}` went into it"))
                    .help(meant_or(near, format!("its parts are: {}", all.join(", ")))),
            );
        }
    }
    let mut used: Vec<PartUsed> = Vec::new();
    for &PouredPart { part, mass_g, within } in &weighed {
        let told = request.parts.iter().find(|(name, _)| names(part).contains(&fold(name))).map(|(_, from)| from);
        let dated = is_dated(part);
        let lots = match (told, &part.found.what) {
            (None, Material::Card(_)) => in_date(part, book, request.made),
            _ => Vec::new(),
        };
        let only = match lots.as_slice() {
            [only] if only.standing == LotStanding::InUse => Some(*only),
            _ => None,
        };
        let from = match (told, only) {
            (Some(from), _) => from.clone(),
            (None, Some(only)) => PartFrom::Lot(only.lot.clone()),
            (None, None) if matches!(&part.found.what, Material::Card(_)) => PartFrom::NotTold,
            (None, _) if dated && request.fresh => PartFrom::Day(request.made),
            (None, _) => PartFrom::NotTold,
        };
        found.extend(only.map(|only| is_assumed(part, only)));
        found.extend(wrong_part(part, &from, book, request.made));
        found.extend(more_than_is_left(&part.label, mass_g, &from, book));
        if dated && !matches!(from, PartFrom::Lot(_) | PartFrom::Day(_)) {
            let codes: Vec<&str> = lots.iter().map(|lot| lot.lot.as_str()).collect();
            let open = match codes.as_slice() {
                [] => "nobody has said of which day it is".to_owned(),
                [one] => format!("it may be of lot {one}, which is used up now: nobody has said"),
                several => format!("nobody has said which of its lots it is, {}", listed(several)),
            };
            let title = format!("`{}`: {open}: this lot has no date until it is told", part.label);
            let fresh = match &part.found.what {
                Material::Card(_) => "with its lot or the day it was made",
                _ => "or --fresh where it was pressed or opened the day this was made",
            };
            let from = codes.first().map_or_else(|| request.made.to_string(), |code| (*code).to_owned());
            let help = format!("--part \"{}={from}\", {fresh}", part.label);
            found.push(Diagnostic::warning(Code::NotStated, title).help(help));
        }
        let product = (part.of != part.label).then(|| part.of.clone());
        let made_of = made_of(part, within);
        let of = part.label.clone();
        used.push(PartUsed { of, mass_g, from, dated, assumed: only.is_some(), product, made_of });
    }
    used
}

/// What went into a lot, each thing once: a drink by its own parts, with the water of its ice.
fn weighed(solved: &Solved) -> Vec<PouredPart<'_>> {
    let mut all: Vec<PouredPart<'_>> = Vec::new();
    let own = solved.parts().filter(|part| part.mass_g > 0.0 && part.stage().is_none());
    for of in own.flat_map(|part| poured_out(part, part.mass_g, solved)) {
        let is_it = |other: &&mut PouredPart<'_>| other.part.label == of.part.label && other.part.of == of.part.of;
        match all.iter_mut().find(is_it) {
            Some(other) => other.mass_g += of.mass_g,
            None => all.push(of),
        }
    }
    all
}

/// The products of the house inside a part that is one.
fn made_of(part: &SolvedPart, within: &Solved) -> Vec<String> {
    let Material::Card(place) = part.found.what else { return Vec::new() };
    let inner = within.inner.get(place).map(|inner| inner.card.with_inner()).unwrap_or_default();
    // the first is the part itself
    inner.iter().skip(1).map(|(of, _)| of.name.clone()).collect()
}

/// The lots of a product of the house that may have gone in on a day: those that may be used, and those that were used up
/// on that day or since.
fn in_date<'b>(part: &SolvedPart, book: &'b LotBook, made: NaiveDate) -> Vec<&'b LotState> {
    let may_be_used = |lot: &LotState| {
        soon(lot, made).is_some_and(|soon| soon > Soon::NoDate && soon != Soon::Frozen)
            && lot.left_g().is_none_or(|left| left.round() > 0.0)
    };
    let was_there = |lot: &LotState| lot.standing == LotStanding::UsedUp && lot.since >= made && lot.pulled.is_none();
    let may_be_it = |lot: &&LotState| {
        fold(&lot.recorded.product) == fold(&part.of)
            && lot.recorded.made <= made
            && (may_be_used(lot) || was_there(lot))
    };
    book.lots().filter(may_be_it).collect()
}

/// The only lot that it can be is taken, and said to be.
fn is_assumed(part: &SolvedPart, only: &LotState) -> Diagnostic {
    let (label, code) = (&part.label, &only.lot);
    let title = format!("`{label}` is taken as lot {code}, the only one of it in date");
    Diagnostic::note(Code::Assumed, title).help(format!("--part \"{label}=LOT\" says another"))
}

/// A lot that the book does not have, of another product, gone, off or past its date does not go in.
fn wrong_part(part: &SolvedPart, from: &PartFrom, book: &LotBook, made: NaiveDate) -> Option<Diagnostic> {
    let refused = |title: String, help: &str| Some(Diagnostic::error(Code::BadArgument, title).help(help.to_owned()));
    match from {
        PartFrom::Lot(code) => {
            let Some(lot) = book.lot(code) else {
                return refused(format!("the book has no lot {code}"), "stillroom due shows the lots that are there");
            };
            let (product, label) = (&lot.recorded.product, &part.label);
            if fold(product) != fold(&part.of) {
                return refused(format!("lot {code} is {product}, not {label}"), "name a lot of it");
            }
            if lot.standing == LotStanding::Discarded {
                return refused(format!("lot {code} of {product} was thrown away"), "take another lot");
            }
            if let Some(why) = &lot.pulled {
                return refused(format!("{product}, lot {code}, was pulled: {why}"), "throw it away");
            }
            match (soon(lot, made), lot.use_by.day) {
                (Some(Soon::MustGo), Some(day)) if day < made => refused(
                    format!("{product}, lot {code}, was past its date on the day it went in: {day}"),
                    "throw it away, and what it went into",
                ),
                (Some(Soon::MustGo), _) => {
                    let why = lot.use_by.refused.as_deref().unwrap_or("it stood in the freezer too long");
                    refused(format!("{product}, lot {code}, must go: {why}"), "throw it away")
                }
                (Some(Soon::NoDate), _) => {
                    let why = lot.use_by.refused.clone().unwrap_or_default();
                    refused(format!("{product}, lot {code}, has no date: {why}"), "tell what is missing first")
                }
                _ => None,
            }
        }
        PartFrom::Day(day) if *day > made => refused(
            format!("`{}` cannot be younger than the lot, made on {made}", part.label),
            "write the day on which it was made",
        ),
        _ => None,
    }
}

/// More than the book knows to be left, in whole grams, is asked about: another lot may have been meant.
pub(crate) fn more_than_is_left(label: &str, used_g: f64, from: &PartFrom, book: &LotBook) -> Option<Diagnostic> {
    let PartFrom::Lot(code) = from else { return None };
    let lot = book.lot(code).filter(|lot| lot.standing == LotStanding::InUse)?;
    let (used, left) = (used_g.round(), lot.left_g()?.round());
    let title = format!("`{label}`: {used} g are more than lot {code} has left by the book: {left} g");
    let help =
        "was another lot in it as well, or in its place? As long as nobody says, any lot of it that was there may be";
    (used > left).then(|| Diagnostic::warning(Code::MoreThanLeft, title).help(help))
}

/// The days that were told of the parts that a date hangs on; of a lot the book knows whether it was past its date.
pub(super) fn part_days(parts: &[PartUsed]) -> Vec<(String, NaiveDate)> {
    let day = |part: &PartUsed| match &part.from {
        PartFrom::Day(day) => Some((part.of.clone(), *day)),
        _ => None,
    };
    parts.iter().filter(|part| part.dated).filter_map(day).collect()
}

/// The day of the oldest lot that passes its age on: one that is kept cold for safety.
pub(super) fn oldest_lot(parts: &[PartUsed], book: &LotBook) -> Option<NaiveDate> {
    let day = |part: &PartUsed| match &part.from {
        PartFrom::Lot(code) => book.lot(code).filter(|lot| !lot.use_by.best_before).map(|lot| lot.recorded.made),
        PartFrom::Day(_) | PartFrom::Batch(_) | PartFrom::NotTold => None,
    };
    parts.iter().filter(|part| part.dated).filter_map(day).min()
}
