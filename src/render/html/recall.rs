//! The page of a lot for an inspector: what it is, its dates, what went into it and what it went into, as far as the book
//! goes.

use crate::render::text::lot_words as words;
use crate::render::text::lots::{PERHAPS, POURED, no_lot, poured};
use crate::report::lots::{LotView, RecallReport, RecallView};
use crate::units::display::grouped;

use super::{escaped, page, table};

pub(crate) fn recall(report: &RecallReport) -> String {
    report.answer().map_or_else(String::new, whole)
}

fn whole(view: &RecallView) -> String {
    let lot = &view.lot;
    let mut body = format!("<h1>Lot {} · {}</h1>\n", escaped(&lot.lot), escaped(&lot.product));
    let house = view.house.as_ref().map_or_else(String::new, |name| format!("{} · ", escaped(name)));
    body.push_str(&format!("<p>{house}printed {}</p>\n", words::day(view.on)));
    body.push_str(&one(lot));
    for ([head, none], lots) in [(WENT_INTO_IT, &view.from), (IT_WENT_INTO, &view.into)] {
        body.push_str(&format!("<h2>{head}</h2>\n"));
        match lots.is_empty() {
            true => body.push_str(&format!("<p>{none}</p>\n")),
            false => body.push_str(&chain(lots)),
        }
    }
    if !view.perhaps.is_empty() {
        body.push_str(&format!("<h2>{PERHAPS}</h2>\n{}", chain(&view.perhaps)));
    }
    if !view.drinks.is_empty() {
        let rows: Vec<Vec<String>> = view.drinks.iter().map(|drink| poured(drink, view.on)).collect();
        body.push_str(&format!("<h2>{POURED}</h2>\n{}", table(&DRINKS, &rows)));
    }
    body.extend(view.ask.iter().map(|of| format!("<p class=\"strong\">{}</p>\n", escaped(&no_lot(of)))));
    if !view.unknown.is_empty() {
        body.push_str(&format!("<p class=\"strong\">{}</p>\n", escaped(&not_on_book(&view.unknown))));
    }
    for of in view.from.iter().chain(&view.into) {
        body.push_str(&format!(
            "<h2 id=\"{0}\">Lot {0} · {1}</h2>\n{2}",
            escaped(&of.lot),
            escaped(&of.product),
            one(of)
        ));
    }
    body.push_str(&format!("<p>{}</p>\n", escaped(view.note)));
    page(&format!("Lot {} · {}", lot.lot, lot.product), &body)
}

/// A head, and what is said where there is none.
pub(in crate::render) const WENT_INTO_IT: [&str; 2] = ["Went into it", "No lot of this book went into it."];
pub(in crate::render) const IT_WENT_INTO: [&str; 2] = ["It went into", "It went into no lot of this book."];

pub(in crate::render) fn not_on_book(unknown: &[String]) -> String {
    format!("Named, and not on this book: {}. Ask whoever made them.", unknown.join(", "))
}

fn chain(lots: &[LotView]) -> String {
    table(&CHAIN, &in_chain(lots))
}

pub(in crate::render) const DRINKS: [&str; 4] = ["Drink", "Lots", "Days", "Sold"];

pub(in crate::render) const CHAIN: [&str; 6] = ["Lot", "Product", "Made", "Date", "Store", "Now"];

pub(in crate::render) fn in_chain(lots: &[LotView]) -> Vec<Vec<String>> {
    let row = |lot: &LotView| {
        vec![
            lot.lot.clone(),
            lot.product.clone(),
            words::day(lot.made),
            lot.pulled.as_ref().map_or_else(|| words::date(&lot.use_by), |why| format!("PULLED: {}", why.short())),
            lot.store.clone(),
            words::standing(lot).to_owned(),
        ]
    };
    lots.iter().map(row).collect()
}

/// What the book says of one lot, a line each.
pub(in crate::render) fn said_of(lot: &LotView) -> Vec<Vec<String>> {
    let mut said: Vec<Vec<String>> = Vec::new();
    let mut say = |what: &str, words: String| said.push(vec![what.to_owned(), words]);
    if let Some(why) = &lot.pulled {
        say("PULLED", why.to_string());
    }
    say("Date", words::date(&lot.use_by));
    say("Made", words::made(lot));
    say("Kept", words::kept(lot));
    say("Allergens", words::allergens(lot));
    if let Some(abv) = lot.abv_pct.filter(|abv| *abv >= 0.05) {
        say("Strength", format!("{} % vol", grouped(abv, 1)));
    }
    for reading in &lot.readings {
        say("Read", words::reading(reading));
    }
    say("Sheet", lot.sheet.clone());
    said
}

pub(in crate::render) const PARTS: [&str; 2] = ["What went in", "How much, and where from"];

pub(in crate::render) fn parts(lot: &LotView) -> Vec<Vec<String>> {
    lot.parts.iter().map(|part| vec![part.of.clone(), words::from(part)]).collect()
}

pub(in crate::render) const HISTORY: [&str; 3] = ["Day", "What happened", "Event"];

pub(in crate::render) fn history(lot: &LotView) -> Vec<Vec<String>> {
    lot.history.iter().map(|line| vec![words::day(line.on), line.words.clone(), line.event.clone()]).collect()
}

/// All that the book says of one lot.
fn one(lot: &LotView) -> String {
    let rows: String = said_of(lot)
        .iter()
        .map(|cells| format!("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(&cells[0]), escaped(&cells[1])))
        .collect();
    format!(
        "<table>\n<tbody>\n{rows}</tbody>\n</table>\n{}{}",
        table(&PARTS, &parts(lot)),
        table(&HISTORY, &history(lot))
    )
}
