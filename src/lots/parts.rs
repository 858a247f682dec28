//! Where the parts of a lot are from: told, read off the book where that leaves no choice, or not told.

use std::collections::BTreeSet;

use chrono::NaiveDate;

use crate::assessment;
use crate::diagnostic::{Code, Diagnostic, listed};
use crate::house::House;
use crate::properties::{TargetKind, value_of};
use crate::solver::resolve::Material;
use crate::solver::{PouredPart, Solved, SolvedPart, poured_out};
use crate::spelling::{fold, meant_or, nearest};
use crate::units::display::grouped;

use super::ahead::bottled_as;
use super::book::{LotBook, LotStanding, LotState};
use super::due::{Soon, soon};
use super::event::{PartFrom, PartUsed};
use super::request::RecordRequest;
use super::told_lot::{STRONGER_BY, strengths};
use super::untold::is_on_book;

/// Whether the date of a lot hangs on the day of a part.
fn is_dated(part: &SolvedPart) -> bool {
    match &part.found.what {
        Material::Card(_) => true,
        Material::Ingredient(ingredient) => assessment::product::is_raw_juice(part, ingredient),
        Material::Stage(_) => false,
    }
}

/// A part of a lot, and what its lots may be called in the book, folded: of a drink, what it is bottled as.
struct WeighedPart<'a> {
    poured: PouredPart<'a>,
    called: BTreeSet<String>,
    is_drink: bool,
}

impl WeighedPart<'_> {
    fn is_of(&self, lot: &LotState) -> bool {
        self.called.contains(&fold(&lot.recorded.product))
    }
}

/// What is told of a part by what the card calls it, or what it is.
fn told<'r>(request: &'r RecordRequest, part: &SolvedPart) -> Option<&'r PartFrom> {
    let is_it = |name: &str| fold(name) == fold(&part.label) || fold(name) == fold(&part.of);
    request.parts.iter().find(|(name, _)| is_it(name)).map(|(_, from)| from)
}

pub(super) fn parts_used(
    solved: &Solved,
    house: &House,
    book: &LotBook,
    request: &RecordRequest,
    found: &mut Vec<Diagnostic>,
) -> Vec<PartUsed> {
    let weighed = weighed(solved, house, book, request);
    let inside = weighed.iter().map(|of| of.poured.part);
    let own = solved.parts().filter(|part| part.mass_g > 0.0 && part.stage().is_none());
    let pressed = request.pressed.iter().map(|pressed| &pressed.of);
    for name in request.parts.iter().map(|(name, _)| name).chain(pressed) {
        let is_it = |part: &SolvedPart| [&part.label, &part.of].into_iter().any(|called| fold(called) == fold(name));
        if !inside.clone().chain(own.clone()).any(is_it) {
            let all: Vec<&str> = inside.clone().map(|p| p.label.as_str()).collect();
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
        let bottled = match &from {
            PartFrom::Lot(code) => book.lot(code),
            _ => lots.first().copied(),
        };
        let bottled = bottled.filter(|_| of.is_drink).map(|lot| lot.recorded.product.clone());
        let product = bottled.or_else(|| (part.of != part.label).then(|| part.of.clone()));
        let made_of = made_of(part, within);
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

/// What went into a lot, each thing once: a drink by its own parts, with the water of its ice, but for one that may be poured of a
/// bottle of it.
fn weighed<'a>(solved: &'a Solved, house: &House, book: &LotBook, request: &RecordRequest) -> Vec<WeighedPart<'a>> {
    let mut all: Vec<WeighedPart<'a>> = Vec::new();
    for part in solved.parts().filter(|part| part.mass_g > 0.0 && part.stage().is_none()) {
        let whole = PouredPart { part, mass_g: part.mass_g, within: solved };
        let bottle = drink_of(part, solved).map(|drink| WeighedPart {
            poured: whole,
            called: bottled_as(drink, house),
            is_drink: true,
        });
        let bottle = bottle.filter(|bottle| match told(request, part) {
            Some(PartFrom::Lot(_) | PartFrom::Batch(_)) => true,
            Some(PartFrom::Day(_) | PartFrom::NotTold) => false,
            None => !in_date(bottle, book, request.made).is_empty(),
        });
        let inside = match bottle {
            Some(bottle) => vec![bottle],
            None => {
                let of = |poured: PouredPart<'a>| WeighedPart {
                    called: BTreeSet::from([fold(&poured.part.of)]),
                    poured,
                    is_drink: false,
                };
                poured_out(part, part.mass_g, solved).into_iter().map(of).collect()
            }
        };
        for of in inside {
            let is_it = |other: &&mut WeighedPart<'_>| {
                let (other, of) = (other.poured.part, of.poured.part);
                other.label == of.label && other.of == of.of
            };
            match all.iter_mut().find(is_it) {
                Some(other) => other.poured.mass_g += of.poured.mass_g,
                None => all.push(of),
            }
        }
    }
    all
}

/// The drink that a part is.
fn drink_of<'a>(part: &SolvedPart, within: &'a Solved) -> Option<&'a str> {
    let Material::Card(place) = part.found.what else { return None };
    let inner = &within.inner.get(place)?.card;
    inner.card.is_drink().then_some(&*inner.name)
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
fn in_date<'b>(part: &WeighedPart<'_>, book: &'b LotBook, made: NaiveDate) -> Vec<&'b LotState> {
    let may_be_used = |lot: &LotState| {
        soon(lot, made).is_some_and(|soon| soon > Soon::NoDate && soon != Soon::Frozen)
            && lot.left_g().is_none_or(|left| left.round() > 0.0)
    };
    let was_there = |lot: &LotState| lot.standing == LotStanding::UsedUp && lot.since >= made && lot.pulled.is_none();
    let may_be_it =
        |lot: &&LotState| part.is_of(lot) && lot.recorded.made <= made && (may_be_used(lot) || was_there(lot));
    book.lots().filter(may_be_it).collect()
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

/// A bottle without the water of its ice is no drink as the card counts it: what it is filled into would be stronger than it says.
fn stronger_than_poured(of: &WeighedPart<'_>, lot: &LotState) -> Option<String> {
    let PouredPart { part, within, .. } = of.poured;
    let Material::Card(place) = part.found.what else { return None };
    let drink = &within.inner.get(place)?.card;
    let counted = value_of(TargetKind::Abv, drink.bottled())?;
    let (_, most) = strengths(drink)?;
    let is = lot.recorded.abv_pct.filter(|is| *is > most + STRONGER_BY)?;
    let (product, label) = (&lot.recorded.product, &part.label);
    let [is, counted] = [is, counted].map(|abv| grouped(abv, 1));
    Some(format!("{product}, lot {}, is {is} % vol, and the card counts {label} with {counted} %", lot.lot))
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
