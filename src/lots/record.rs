//! From a solved card to a line of the book: what went in, what was read, and by when it is to be used.

use chrono::{Days, NaiveDate};

use crate::assessment::{self, Assessment, Lot, Which};
use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::{House, Store};
use crate::properties::value_of;
use crate::safety::Storage;
use crate::shelf_life::calendar::Frozen;
use crate::shelf_life::reason::Mark;
use crate::shelf_life::{Draws, HouseQuality};
use crate::solver::resolve::Material;
use crate::solver::target::volume_ml;
use crate::solver::{Options, Solved, SolvedPart, solve};
use crate::spelling::{fold, meant_or, nearest};
use crate::units::degrees_celsius;

use super::book::{LotBook, LotStanding, LotState};
use super::due::{Soon, soon};
use super::event::{BatchReading, PartFrom, PartUsed, Pressed, Recorded, UseBy};
use super::frozen::into_the_freezer;
use super::learn::{Accepted, accepted};
use super::sheet::{FrozenSheet, content_hash, with_readings};

/// What is said of a batch that was made.
#[derive(Clone, Debug, Default)]
pub struct RecordRequest {
    /// How the card is solved.
    pub options: Options,
    /// The day on which it was finished.
    pub made: NaiveDate,
    /// Who made it.
    pub maker: Option<String>,
    /// Where it is kept; `None`: where the card says.
    pub store: Option<String>,
    /// Where its parts are from, by what the card calls them.
    pub parts: Vec<(String, PartFrom)>,
    /// Whether everything that has to be fresh was pressed or opened on the day it was made.
    pub fresh: bool,
    /// What was read of it.
    pub readings: Vec<BatchReading>,
    /// How many fruits gave its juices.
    pub pressed: Vec<Pressed>,
    /// Grams that it came to on the scale.
    pub weighed_g: Option<f64>,
    /// How many containers, and millilitres in each.
    pub filled: Option<(u32, f64)>,
    /// Of them, those that are kept to be tasted.
    pub kept_back: u32,
}

/// What the book says of a batch that was made, the sheet that is kept with it, and what is found on the way. `None` where
/// something has to be mended first: nothing that is wrong gets into the book.
pub fn record(
    card: &Card,
    house: &House,
    book: &LotBook,
    request: &RecordRequest,
) -> (Option<(Recorded, FrozenSheet)>, Vec<Diagnostic>) {
    let mut card = card.clone();
    with_readings(&mut card, &request.readings, request.made);
    let outcome = solve(&card, house, &request.options);
    let mut found = outcome.diagnostics;
    let Some(solved) = outcome.solved.filter(|_| !any_error(&found)) else { return (None, found) };
    let parts = parts_used(&solved, book, request, &mut found);
    let store = store_of(&solved, house, request.store.as_deref(), &mut found);
    let (Some(store), false) = (store, any_error(&found)) else { return (None, found) };
    let sheet = FrozenSheet::of(&card, &solved, house);
    let lot = Lot {
        made: request.made,
        oldest_part: oldest(&parts, book),
        part_days: part_days(&parts),
        ..taught(book, &solved.name, &sheet.recipe(), house)
    };
    let (judged, of_judgement) = assessment::assess(&solved, house, lot, Which::Only(&store), Draws::default());
    found.extend(of_judgement);
    found.extend(judged.unidentified.iter().map(assessment::IdentityQuestion::diagnostic));
    let frozen = into_the_freezer(&solved, house, &judged);
    let made = solved.bottled();
    let recorded = Recorded {
        product: solved.name.clone(),
        sheet: content_hash(&sheet.text()),
        recipe: sheet.recipe(),
        made: request.made,
        weighed: request.weighed_g.is_some(),
        mass_g: request.weighed_g.unwrap_or(made.total_grams()),
        volume_ml: volume_ml(made).map(|ml| request.weighed_g.map_or(ml, |g| ml * g / made.total_grams())),
        filled: request.filled,
        kept_back: request.kept_back,
        maker: request.maker.clone(),
        store: store.name.clone(),
        use_by: first_date(frozen.as_ref().unwrap_or(&judged), &parts),
        parts,
        pressed: request.pressed.clone(),
        readings: request.readings.clone(),
        allergens: judged.allergens.clone(),
        allergens_not_stated: judged.allergens_open.iter().chain(&judged.allergens_doubted).cloned().collect(),
        abv_pct: value_of(TargetKind::Abv, made),
    };
    let wrong = recorded.below_zero().join(", ");
    if !wrong.is_empty() {
        let wrong = Diagnostic::error(Code::OutOfRange, format!("an amount cannot be below zero: {wrong}"));
        found.push(wrong.help("write what was weighed, measured or read"));
        return (None, found);
    }
    (Some((recorded, sheet)), found)
}

fn store_of(solved: &Solved, house: &House, wanted: Option<&str>, found: &mut Vec<Diagnostic>) -> Option<Store> {
    let stores = &house.settings.stores;
    let Some(wanted) = wanted else {
        return assessment::planned(solved, stores).and_then(|place| stores.get(place)).cloned();
    };
    let there = stores.iter().find(|store| fold(&store.name) == fold(wanted)).cloned();
    if there.is_none() {
        let names: Vec<&str> = stores.iter().map(|store| store.name.as_str()).collect();
        let near = nearest(wanted, names.iter().copied());
        found.push(
            Diagnostic::error(Code::UnknownWord, format!("the house has no store `{wanted}`"))
                .help(meant_or(near, format!("its stores are: {}", names.join(", ")))),
        );
    }
    there
}

/// Whether the date of a lot hangs on the day of a part.
fn is_dated(part: &SolvedPart) -> bool {
    match &part.found.what {
        Material::Card(_) => true,
        Material::Ingredient(ingredient) => assessment::product::is_raw_juice(part, ingredient),
        Material::Stage(_) => false,
    }
}

fn parts_used(solved: &Solved, book: &LotBook, request: &RecordRequest, found: &mut Vec<Diagnostic>) -> Vec<PartUsed> {
    let parts = || solved.parts().filter(|p| p.mass_g > 0.0 && p.stage().is_none());
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
    for part in parts() {
        let told = request.parts.iter().find(|(name, _)| names(part).contains(&fold(name))).map(|(_, from)| from);
        let dated = is_dated(part);
        let from = match (told, &part.found.what) {
            (Some(from), _) => from.clone(),
            (None, Material::Card(_)) => of_book(part, book, request.made, found),
            (None, _) if dated && request.fresh => PartFrom::Day(request.made),
            (None, _) => PartFrom::NotTold,
        };
        found.extend(wrong_part(part, &from, book, request.made));
        found.extend(more_than_is_left(part, &from, book));
        if dated && !matches!(from, PartFrom::Lot(_) | PartFrom::Day(_)) {
            let title =
                format!("`{}`: nobody has said of which day it is: this lot has no date until it is told", part.label);
            let fresh = match &part.found.what {
                Material::Card(_) => "with its lot or the day it was made",
                _ => "or --fresh where it was pressed or opened the day this was made",
            };
            let help = format!("--part \"{}={}\", {fresh}", part.label, request.made);
            found.push(Diagnostic::warning(Code::NotStated, title).help(help));
        }
        used.push(PartUsed { of: part.label.clone(), mass_g: part.mass_g, from, dated });
    }
    used
}

/// The lot of a product of the house that goes first, of those that may still be used.
fn of_book(part: &SolvedPart, book: &LotBook, made: NaiveDate, found: &mut Vec<Diagnostic>) -> PartFrom {
    let good = |lot: &&LotState| {
        let soon = soon(lot, made);
        fold(&lot.recorded.product) == fold(&part.of)
            && lot.recorded.made <= made
            && soon.is_some_and(|soon| soon > Soon::NoDate && soon != Soon::Frozen)
            && lot.left_g().is_none_or(|left| left.round() > 0.0)
    };
    match book.lots().filter(good).min_by_key(|lot| (lot.use_by.day, &lot.lot)) {
        Some(lot) => {
            let title = format!("`{}` is taken as lot {}, which ends first", part.label, lot.lot);
            found.push(Diagnostic::note(Code::Assumed, title));
            PartFrom::Lot(lot.lot.clone())
        }
        None => PartFrom::NotTold,
    }
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
fn more_than_is_left(part: &SolvedPart, from: &PartFrom, book: &LotBook) -> Option<Diagnostic> {
    let PartFrom::Lot(code) = from else { return None };
    let lot = book.lot(code).filter(|lot| lot.standing == LotStanding::InUse)?;
    let (used, left, label) = (part.mass_g.round(), lot.left_g()?.round(), &part.label);
    let title = format!("`{label}`: {used} g are more than lot {code} has left by the book: {left} g");
    let help = format!("was another lot in it as well, or in its place? --part \"{label}=LOT\" names it");
    (used > left).then(|| Diagnostic::warning(Code::MoreThanLeft, title).help(help))
}

/// The days that were told of parts; of a lot the book knows whether it was past its date.
fn part_days(parts: &[PartUsed]) -> Vec<(String, NaiveDate)> {
    let day = |part: &PartUsed| match &part.from {
        PartFrom::Day(day) => Some((part.of.clone(), *day)),
        _ => None,
    };
    parts.iter().filter_map(day).collect()
}

/// The day of the oldest part that passes its age on: fresh juice, and a lot that is kept cold for safety.
fn oldest(parts: &[PartUsed], book: &LotBook) -> Option<NaiveDate> {
    let day = |part: &PartUsed| match &part.from {
        PartFrom::Day(day) => Some(*day),
        PartFrom::Lot(code) => book.lot(code).filter(|lot| !lot.use_by.best_before).map(|lot| lot.recorded.made),
        PartFrom::Batch(_) | PartFrom::NotTold => None,
    };
    parts.iter().filter(|part| part.dated).filter_map(day).min()
}

/// Tells a house at what ages something grew in its lots: it pulls every later one of the product below that at once.
pub fn tell_growth(book: &LotBook, house: &mut House) {
    for lot in book.lots() {
        if let Some(days) = lot.growth_days() {
            house.saw_growth(&lot.recorded.product, days as f64);
        }
    }
}

/// The earliest age in days at which something grew in a lot of this product.
fn spoiled(book: &LotBook, product: &str) -> Option<f64> {
    let grew = book.lots().filter(|lot| lot.growth.is_some() && fold(&lot.recorded.product) == fold(product));
    grew.filter_map(LotState::growth_days).min().map(|days| days as f64)
}

/// What the lots of a product teach of the date of another: what grew pulls it down at once; how long it stays good as the
/// house has accepted it, of this recipe alone.
pub fn taught(book: &LotBook, product: &str, recipe: &str, house: &House) -> Lot {
    let store = |name: &str| house.settings.stores.iter().find(|store| store.name == name);
    let own = |accepted: Accepted| {
        let t_c = degrees_celsius(store(&accepted.store)?.temperature);
        Some(HouseQuality { t_c, store: accepted.store, days: accepted.days, lots: accepted.lots })
    };
    let of_lots = accepted(book, product, recipe).into_iter().filter_map(own).collect();
    Lot { spoiled_days: spoiled(book, product), of_lots, ..Lot::default() }
}

/// The date in the one store that was judged; none while a day that it hangs on is not told.
fn first_date(judged: &Assessment, parts: &[PartUsed]) -> UseBy {
    let open: Vec<&str> = parts.iter().filter(|p| p.is_open()).map(|p| p.of.as_str()).collect();
    let use_by = date_in(judged);
    match open.as_slice() {
        [] => use_by,
        open => UseBy {
            refused: Some(format!("the day of {} is not told", open.join(", "))),
            not_told: true,
            ..UseBy::default()
        },
    }
}

/// The date in the first store that was judged.
pub(crate) fn date_in(judged: &Assessment) -> UseBy {
    let Some(store) = judged.stores.first() else { return UseBy::default() };
    UseBy {
        day: store.date,
        best_before: store.mark == Mark::BestBefore,
        because: store.decided_by.as_ref().map(ToString::to_string),
        refused: store.refused.first().map(ToString::to_string),
        days_left_when_thawed: store.left_when_thawed,
        not_told: false,
        thaw_by: judged.lot.frozen.iter().find(|stay| stay.to.is_none()).and_then(|stay| {
            stay.from.checked_add_days(Days::new(u64::try_from(store.freezer_days).unwrap_or_default()))
        }),
    }
}

/// What changes about a lot that is there already.
#[derive(Clone, Debug)]
pub enum LotChange {
    /// It is opened on a day.
    Opened(NaiveDate),
    /// It is put into another store on a day.
    Moved(NaiveDate, Store),
    /// A part is told.
    Told(String, PartFrom),
}

/// The date of a lot after a change, by the rules and the texts that it was made with. A move never lengthens it: the
/// shortest date of the stores that it has been in counts, and of the freezer only whole days are given back.
///
/// `None` where the kept sheet cannot be solved any more.
pub fn date_after(lot: &LotState, sheet: &FrozenSheet, book: &LotBook, change: &LotChange) -> Option<UseBy> {
    let (house, solved) = sheet.solved(lot)?;
    let mut parts = lot.recorded.parts.clone();
    let mut stays: Vec<Frozen> = lot.frozen.iter().map(|(from, to)| Frozen { from: *from, to: *to }).collect();
    let mut stores: Vec<Store> = Vec::new();
    let visited = lot.stores.iter().filter_map(|name| house.settings.stores.iter().find(|s| s.name == *name)).cloned();
    stores.extend(visited);
    match change {
        LotChange::Opened(_) => {}
        LotChange::Moved(day, store) => {
            let frozen = assessment::storage(store) == Storage::Frozen;
            match (stays.last_mut(), frozen) {
                (Some(stay), false) if stay.to.is_none() => stay.to = Some(*day),
                (Some(stay), true) if stay.to.is_none() => {}
                (_, true) => stays.push(Frozen { from: *day, to: None }),
                (_, false) => {}
            }
            stores.push(store.clone());
        }
        LotChange::Told(name, from) => {
            for part in parts.iter_mut().filter(|part| fold(&part.of) == fold(name)) {
                part.from = from.clone();
            }
        }
    }
    let facts = Lot {
        made: lot.recorded.made,
        oldest_part: oldest(&parts, book),
        part_days: part_days(&parts),
        frozen: stays,
        ..taught(book, &lot.recorded.product, &lot.recorded.recipe, &house)
    };
    let thawed = |store: &&Store| assessment::storage(store) != Storage::Frozen;
    // a lot that has only been frozen is counted for the coldest store in which it can be used
    let all: Vec<&Store> = match stores.iter().filter(thawed).collect::<Vec<_>>() {
        none if none.is_empty() => house.settings.stores.iter().filter(thawed).take(1).collect(),
        some => some,
    };
    let judged = |store: &Store| {
        let (judged, _) = assessment::assess(&solved, &house, facts.clone(), Which::Only(store), Draws::default());
        let mut use_by = first_date(&judged, &parts);
        // once opened it stays opened, whatever happens to it then
        let opened_on = match change {
            LotChange::Opened(on) => Some(lot.opened.unwrap_or(*on)),
            LotChange::Moved(..) | LotChange::Told(..) => lot.opened,
        };
        if let (Some(on), Some(opened)) = (opened_on, judged.stores.first().and_then(|s| s.opened.as_ref())) {
            use_by = use_by.once_opened(on, opened.days, &opened.because);
        }
        use_by
    };
    let dates: Vec<UseBy> = all.into_iter().map(judged).collect();
    let refused = dates.iter().find(|date| date.refused.is_some());
    refused.or_else(|| dates.iter().min_by_key(|date| (date.day, date.days_left_when_thawed))).cloned()
}
