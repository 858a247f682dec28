//! Where the parts of a lot are from: told, read off the book where that leaves no choice, or not told.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::assessment;
use crate::diagnostic::{Code, Diagnostic, listed};
use crate::house::House;
use crate::solver::resolve::Material;
use crate::solver::{PouredPart, Solved, SolvedPart};
use crate::spelling::{fold, meant_or, nearest};
use crate::units::display::grouped;

use super::book::{LotBook, LotStanding, LotState};
use super::due::{Soon, soon};
use super::event::{PartFrom, PartUsed};
use super::request::RecordRequest;
use super::untold::is_on_book;
use super::weighed::{Weighed, WeighedPart, in_date, poured_drink, told, weighed};

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
    house: &House,
    book: &LotBook,
    request: &RecordRequest,
    found: &mut Vec<Diagnostic>,
) -> Vec<PartUsed> {
    let batch_of = poured_drink(solved, house);
    let Weighed { parts: weighed, drinks } = weighed(solved, batch_of.as_ref(), house, book, request);
    let inside = weighed.iter().map(|of| of.poured.part);
    let own = solved.parts().filter(|part| part.mass_g > 0.0 && part.stage().is_none());
    let pressed = request.pressed.iter().map(|pressed| &pressed.of);
    for name in request.parts.iter().map(|(name, _)| name).chain(pressed) {
        let is_it = |part: &SolvedPart| [&part.label, &part.of].into_iter().any(|called| fold(called) == fold(name));
        if !inside.clone().chain(own.clone()).chain(drinks.iter().copied()).any(is_it) {
            let mut all: Vec<&str> = inside.clone().chain(drinks.iter().copied()).map(|p| p.label.as_str()).collect();
            let mut seen = BTreeSet::new();
            all.retain(|label| seen.insert(*label));
            let near = nearest(name, all.iter().copied());
            found.push(
                Diagnostic::error(Code::BadArgument, format!("nothing called `{name}` went into it"))
                    .help(meant_or(near, format!("its parts are: {}", all.join(", ")))),
            );
        }
    }
    let mut used: Vec<PartUsed> = Vec::new();
    for of in &weighed {
        let PouredPart { part, mass_g, within } = of.poured;
        let dated = is_dated(part);
        // what was pressed or opened for a drink is of its day; a product of the house in it is of a lot, which was there that day
        let of_drink = request.parts.iter().find(|(name, _)| fold(name) == fold(&within.name)).map(|(_, from)| from);
        let is_product = matches!(part.found.what, Material::Card(_));
        let told = told(request, part).or_else(|| of_drink.filter(|_| dated && !is_product));
        let went_in = match of_drink {
            Some(PartFrom::Day(day)) => *day,
            _ => request.made,
        };
        let lots = match (told, &part.found.what) {
            (None, Material::Card(_)) => in_date(of, book, went_in),
            _ => Vec::new(),
        };
        let only = match lots.as_slice() {
            // a drink may be made for it as well
            [only] if only.standing == LotStanding::InUse && !of.is_drink => Some(*only),
            _ => None,
        };
        let from = match (told, only) {
            (Some(from), _) => from.clone(),
            (None, Some(only)) => PartFrom::Lot(only.lot.clone()),
            (None, None) if is_product => PartFrom::NotTold,
            (None, _) if dated && request.fresh => PartFrom::Day(request.made),
            (None, _) => PartFrom::NotTold,
        };
        found.extend(only.map(|only| is_assumed(part, only)));
        found.extend(wrong_part(of, &from, book, request.made));
        found.extend(more_than_is_left(&part.label, mass_g, &from, book));
        found.extend(no_such_day(&part.of, &part.label, &from, book).filter(|_| is_product));
        if dated && !matches!(from, PartFrom::Lot(_) | PartFrom::Day(_)) {
            found.push(is_open(of, &lots, request.made));
        }
        let bottles: Vec<&LotState> = match &from {
            PartFrom::Lot(code) => book.lot(code).into_iter().collect(),
            _ => lots.clone(),
        };
        let mut bottled = bottles.iter().filter(|_| of.is_drink).map(|lot| lot.recorded.product.clone());
        let product = bottled.next().or_else(|| (part.of != part.label).then(|| part.of.clone()));
        // a drink may stand there in bottles of two names
        let others: BTreeSet<String> = bottled.filter(|other| Some(other) != product.as_ref()).collect();
        let made_of = others.into_iter().chain(made_of(part, within)).collect();
        let of = part.label.clone();
        used.push(PartUsed { of, mass_g, from, dated, assumed: only.is_some(), product, made_of });
    }
    used
}

/// A part of which nobody has said where it is from, though the date hangs on it.
fn is_open(of: &WeighedPart<'_>, lots: &[&LotState], made: NaiveDate) -> Diagnostic {
    let part = of.poured.part;
    let codes: Vec<&str> = lots.iter().map(|lot| lot.lot.as_str()).collect();
    let open = match codes.as_slice() {
        [] => "nobody has said of which day it is".to_owned(),
        all if of.is_drink => format!("it may be poured of {}, or made for this: nobody has said", listed(all)),
        [one] => format!("it may be of lot {one}, which is used up now: nobody has said"),
        several => format!("nobody has said which of its lots it is, {}", listed(several)),
    };
    let title = format!("`{}`: {open}: this lot has no date until it is told", part.label);
    let fresh = match &part.found.what {
        Material::Card(_) => "with its lot or the day it was made",
        _ => "or --fresh where it was pressed or opened the day this was made",
    };
    let from = codes.first().map_or_else(|| made.to_string(), |code| (*code).to_owned());
    let help = format!("--part \"{}={from}\", {fresh}", part.label);
    Diagnostic::warning(Code::NotStated, title).help(help)
}

/// The products of the house inside a part that is one.
fn made_of(part: &SolvedPart, within: &Solved) -> Vec<String> {
    let Material::Card(place) = part.found.what else { return Vec::new() };
    let inner = within.inner.get(place).map(|inner| inner.card.with_inner()).unwrap_or_default();
    // the first is the part itself
    inner.iter().skip(1).map(|(of, _)| of.name.clone()).collect()
}

/// The only lot that it can be is taken, and said to be.
fn is_assumed(part: &SolvedPart, only: &LotState) -> Diagnostic {
    let (label, code) = (&part.label, &only.lot);
    let title = format!("`{label}` is taken as lot {code}, the only one of it in date");
    Diagnostic::note(Code::Assumed, title).help(format!("--part \"{label}=LOT\" says another"))
}

/// A lot that the book does not have, of another product, gone, off or past its date does not go in.
fn wrong_part(of: &WeighedPart<'_>, from: &PartFrom, book: &LotBook, made: NaiveDate) -> Option<Diagnostic> {
    let refused = |title: String, help: &str| Some(Diagnostic::error(Code::BadArgument, title).help(help.to_owned()));
    let part = of.poured.part;
    match from {
        PartFrom::Lot(code) => {
            let Some(lot) = book.lot(code) else {
                return refused(format!("the book has no lot {code}"), "stillroom due shows the lots that are there");
            };
            let (product, label) = (&lot.recorded.product, &part.label);
            if !of.is_of(lot) {
                return refused(format!("lot {code} is {product}, not {label}"), "name a lot of it");
            }
            if let Some(why) = of.is_drink.then(|| stronger_than_poured(of, lot)).flatten() {
                let help =
                    format!("take a bottle that has the water in it, or write this one on the card: \"{product}\" = …");
                return refused(why, &help);
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

/// A bottle without the water of its ice is no drink as the card counts it: what it is filled into would be stronger than it says. Where
/// that water is weighed in beside it, it is.
fn stronger_than_poured(of: &WeighedPart<'_>, lot: &LotState) -> Option<String> {
    let [is, counted] = [lot.recorded.abv_pct?, of.counted_pct()?].map(|abv| grouped(abv, 1));
    let (product, label) = (&lot.recorded.product, &of.poured.part.label);
    let why = || format!("{product}, lot {}, is {is} % vol, and the card counts {label} with {counted} %", lot.lot);
    of.is_stronger_than(lot, of.may_lack_water).then(why)
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

/// A day on which no lot of the book was made that this part can be of: it is asked, for a recall goes by it.
pub(crate) fn no_such_day(product: &str, label: &str, from: &PartFrom, book: &LotBook) -> Option<Diagnostic> {
    let PartFrom::Day(day) = from else { return None };
    if is_on_book(product, *day, book) != Some(false) {
        return None;
    }
    let lots = book.lots().filter(|lot| fold(&lot.recorded.product) == fold(product));
    let all: Vec<String> = lots.map(|lot| format!("{} of {}", lot.lot, lot.recorded.made)).collect();
    let title = format!("`{label}`: the book has no lot of it that was made on {day}; it has {}", listed(&all));
    let help = format!(
        "write its lot: \"{label}=LOT\"; record one that was forgotten. As long as the day stands, any lot of it that was there may be in this"
    );
    Some(Diagnostic::warning(Code::NotStated, title).help(help))
}
