//! From a solved card to a line of the book: what went in, what was read, and by when it is to be used.

use chrono::{Days, NaiveDate};

use crate::assessment::{self, Assessment, Lot, Which};
use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic, any_error};
use crate::house::{House, Store, which_store};
use crate::properties::value_of;
use crate::safety::Storage;
use crate::shelf_life::calendar::Frozen;
use crate::shelf_life::reason::Mark;
use crate::shelf_life::{Draws, HouseQuality};
use crate::solver::resolve::Material;
use crate::solver::target::volume_ml;
use crate::solver::{Solved, solve};
use crate::spelling::fold;
use crate::units::degrees_celsius;
use crate::units::display::grouped;

use super::book::{LotBook, LotState};
use super::event::{PartFrom, PartUsed, Recorded, UseBy};
use super::frozen::{into_the_freezer, stops_in};
use super::kept::parts_kept;
use super::learn::{Accepted, accepted};
use super::parts::parts_used;
pub use super::request::RecordRequest;
use super::sheet::{FrozenSheet, content_hash, with_readings};

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
    let parts = parts_used(&solved, house, book, request, &mut found);
    let store = store_of(&solved, house, request.store.as_deref(), &mut found);
    let (Some(store), false) = (store, any_error(&found)) else { return (None, found) };
    let sheet = FrozenSheet::of(&card, &solved, house);
    let lot = Lot {
        made: request.made,
        parts: parts_kept(&parts, book, request.made),
        ..taught(book, &solved.name, &sheet.recipe(), house)
    };
    let (judged, of_judgement) = assessment::assess(&solved, house, lot, Which::Only(&store), Draws::default());
    found.extend(of_judgement);
    found.extend(judged.unidentified.iter().map(assessment::IdentityQuestion::diagnostic));
    let frozen = into_the_freezer(&solved, house, &judged);
    let made = solved.bottled();
    found.extend(request.weighed_g.and_then(|g| more_than_went_in(&solved, g)));
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
        needs_cold: Some(judged.hurdles.control() || judged.product.raw_juice > 0.0),
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

/// A scale and a jug may be this far apart (ours).
const WEIGHED_WITHIN: f64 = 0.02;

/// A batch weighs no more than what went in: mostly its pan was on the scale.
fn more_than_went_in(solved: &Solved, weighed_g: f64) -> Option<Diagnostic> {
    let own = solved.parts().filter(|part| !matches!(part.found.what, Material::Stage(_)));
    let went_in: f64 = own.map(|part| part.mass_g).sum();
    let [weighed, all] = [weighed_g, went_in].map(|g| grouped(g, 0));
    let title = format!("{weighed} g were weighed, and {all} g went in");
    (weighed_g > went_in * (1.0 + WEIGHED_WITHIN)).then(|| {
        Diagnostic::warning(Code::ReadingDiffers, title)
            .help("was the pan or the bottle on the scale? Strike the line of the book, and weigh without it")
    })
}

fn store_of(solved: &Solved, house: &House, wanted: Option<&str>, found: &mut Vec<Diagnostic>) -> Option<Store> {
    let stores = &house.settings.stores;
    let Some(wanted) = wanted else {
        return assessment::planned(solved, stores).and_then(|place| stores.get(place)).cloned();
    };
    let there = stores.iter().find(|store| fold(&store.name) == fold(wanted)).cloned();
    if there.is_none() {
        found.push(
            Diagnostic::error(Code::UnknownWord, format!("the house has no store `{wanted}`"))
                .help(which_store(stores.iter(), wanted)),
        );
    }
    there
}

/// Tells a house at what ages something grew in its lots: it pulls every later one of the product below that at once.
pub fn tell_growth(book: &LotBook, house: &mut House) {
    for lot in book.lots() {
        if let Some(days) = lot.growth_days() {
            house.of_book.saw_growth(&lot.recorded.product, days as f64);
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
        // no day that is told takes that away: raw egg
        _ if use_by.refused.is_some() => use_by,
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

/// Whether the clock of a lot stops in a store. `None` where the kept sheet cannot be solved any more.
pub fn freezes_in(sheet: &FrozenSheet, lot: &LotState, store: &Store) -> Option<bool> {
    let (house, solved) = sheet.solved(lot)?;
    Some(stops_in(&solved, &house, store))
}

/// Whether a lot only passed through a cold store: it left it on the day it came. In a warm one every hour counts.
fn is_passed(lot: &LotState, store: &Store, change: &LotChange) -> bool {
    let is_there = match change {
        LotChange::Moved(day, _) => lot.here_since < *day,
        LotChange::Opened(_) | LotChange::Told(..) => true,
    };
    let stood = lot.stood_in.contains(&store.name) || (is_there && lot.store == store.name);
    !stood && matches!(assessment::storage(store), Storage::Chill | Storage::Frozen)
}

/// The date of a lot after a change, by the rules and the texts that it was made with. A move never lengthens it: the
/// shortest date of the stores that it has stood in counts, and of the freezer only whole days are given back.
///
/// `None` where the kept sheet cannot be solved any more.
pub fn date_after(lot: &LotState, sheet: &FrozenSheet, book: &LotBook, change: &LotChange) -> Option<UseBy> {
    let (mut house, solved) = sheet.solved(lot)?;
    tell_growth(book, &mut house);
    let mut parts = lot.recorded.parts.clone();
    let mut stays: Vec<Frozen> = lot.frozen.iter().map(|(from, to)| Frozen { from: *from, to: *to }).collect();
    let mut stores: Vec<Store> = Vec::new();
    let visited = lot.stores.iter().filter_map(|name| house.settings.stores.iter().find(|s| s.name == *name));
    stores.extend(visited.filter(|store| !is_passed(lot, store, change)).cloned());
    match change {
        LotChange::Opened(_) => {}
        LotChange::Moved(day, store) => {
            let frozen = stops_in(&solved, &house, store);
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
        parts: parts_kept(&parts, book, lot.recorded.made),
        frozen: stays,
        ..taught(book, &lot.recorded.product, &lot.recorded.recipe, &house)
    };
    let thawed = |store: &&Store| !stops_in(&solved, &house, store);
    // a lot that has only been frozen is counted for the coldest store in which it can be used
    let all: Vec<&Store> = match stores.iter().filter(thawed).collect::<Vec<_>>() {
        none if none.is_empty() => house.settings.stores.iter().filter(thawed).take(1).collect(),
        some => some,
    };
    // it went into the freezer on the day it was made, and only the day of a part was not told
    let opened = lot.opened.is_some() || matches!(change, LotChange::Opened(_));
    if let (true, false, [freezer]) = (facts.frozen.is_empty(), opened, stores.as_slice()) {
        let (judged, _) = assessment::assess(&solved, &house, facts.clone(), Which::Only(freezer), Draws::default());
        if let Some(frozen) = into_the_freezer(&solved, &house, &judged) {
            return Some(first_date(&frozen, &parts));
        }
    }
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
