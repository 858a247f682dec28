//! The page of a lot for an inspector: what it is, its dates, what went into it and what it went into, as far as the book
//! goes.

use crate::render::text::lot_words as words;
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
    for (head, lots, none) in [
        ("Went into it", &view.from, "No lot of this book went into it."),
        ("It went into", &view.into, "It went into no lot of this book."),
    ] {
        body.push_str(&format!("<h2>{head}</h2>\n"));
        match lots.is_empty() {
            true => body.push_str(&format!("<p>{none}</p>\n")),
            false => body.push_str(&chain(lots)),
        }
    }
    if !view.unknown.is_empty() {
        let unknown = escaped(&view.unknown.join(", "));
        body.push_str(&format!(
            "<p class=\"strong\">Named, and not on this book: {unknown}. Ask whoever made them.</p>\n"
        ));
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

fn chain(lots: &[LotView]) -> String {
    let row = |lot: &LotView| {
        vec![
            lot.lot.clone(),
            lot.product.clone(),
            words::day(lot.made),
            words::date(&lot.use_by),
            lot.store.clone(),
            words::standing(lot).to_owned(),
        ]
    };
    let rows: Vec<Vec<String>> = lots.iter().map(row).collect();
    table(&["Lot", "Product", "Made", "Date", "Store", "Now"], &rows)
}

/// All that the book says of one lot.
fn one(lot: &LotView) -> String {
    let mut said: Vec<Vec<String>> = Vec::new();
    let mut say = |what: &str, words: String| said.push(vec![what.to_owned(), words]);
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
    let rows: String = said
        .iter()
        .map(|cells| format!("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(&cells[0]), escaped(&cells[1])))
        .collect();
    let parts: Vec<Vec<String>> = lot.parts.iter().map(|part| vec![part.of.clone(), words::from(part)]).collect();
    let history: Vec<Vec<String>> =
        lot.history.iter().map(|line| vec![words::day(line.on), line.words.clone(), line.event.clone()]).collect();
    format!(
        "<table>\n<tbody>\n{rows}</tbody>\n</table>\n{}{}",
        table(&["What went in", "How much, and where from"], &parts),
        table(&["Day", "What happened", "Event"], &history)
    )
}
