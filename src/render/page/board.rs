//! The board of lots as the book stood when the page was written, and a lot of it. Both are only read.

use crate::lots::due::Soon;
use crate::render::html::{escaped, recall as words};
use crate::render::text::lot_words::day;
use crate::render::text::lots::{PERHAPS, POURED, due_row, groups, no_lot, poured, reprint, why_it_must_go};
use crate::report::lots::{DueLine, DueReport, RecallReport};

use super::sheet::{SheetHtml, unsolved};
use super::{list, rows, section};

/// What goes first; `place` is where a lot stands on the page.
pub(crate) fn board(report: &DueReport, place: impl Fn(&str) -> Option<String>) -> SheetHtml {
    let Some(view) = report.answer() else { return unsolved(report) };
    let link = |line: &DueLine| {
        let [product, lot, when, store] = due_row(line, view.on).try_into().unwrap_or_default();
        let said = format!(
            "<span>{}</span> <span>{}</span> <small>{}, {}</small>",
            escaped(&product),
            escaped(&when),
            escaped(&lot),
            escaped(&store)
        );
        match place(&lot) {
            Some(place) => format!("<li><a href=\"#{place}\">{said}</a></li>\n"),
            None => format!("<li>{said}</li>\n"),
        }
    };
    let group = |(head, lots): (&str, Vec<&DueLine>)| {
        let lots: String = lots.into_iter().map(link).collect();
        section(head, &format!("<ul class=\"lots\">\n{lots}</ul>\n"), "")
    };
    let groups: String = groups(view).into_iter().map(group).collect();
    let none = if view.lots.is_empty() { "<p>nothing is on the book</p>\n" } else { "" };
    let labels: Vec<String> = view.labels.iter().map(reprint).collect();
    let labels = section("labels to reprint", &list(&labels), "");
    let on = day(view.on);
    let top = format!(
        "<h2>Due, {on}</h2>\n<p class=\"warning\"><b>As the book stood on {on}.</b> On any other day ask for a new page.</p>\n"
    );
    SheetHtml { top, rest: format!("{none}{groups}{labels}"), long: false }
}

/// A lot: what the book says of it, what went into it and what it went into.
pub(crate) fn lot(report: &RecallReport) -> SheetHtml {
    let Some(view) = report.answer() else { return unsolved(report) };
    let lot = &view.lot;
    let title = format!("<h2>Lot {} · {}</h2>\n", escaped(&lot.lot), escaped(&lot.product));
    let top = match lot.soon {
        Some(Soon::MustGo) => {
            format!("<p class=\"stop\">THROW IT AWAY: {}</p>\n{title}", escaped(&why_it_must_go(lot)))
        }
        _ => title,
    };
    let head = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    let chain = |title: &str, lots: &[_], none: &str| {
        let body = if lots.is_empty() {
            format!("<p>{none}</p>\n")
        } else {
            rows(&head(&words::CHAIN), &words::in_chain(lots))
        };
        section(title, &body, "")
    };
    let perhaps = if view.perhaps.is_empty() { String::new() } else { chain(PERHAPS, &view.perhaps, "") };
    let had: Vec<Vec<String>> = view.drinks.iter().map(|drink| poured(drink, view.on)).collect();
    let drinks = if had.is_empty() { String::new() } else { section(POURED, &rows(&head(&words::DRINKS), &had), "") };
    let unknown = match view.unknown.as_slice() {
        [] => String::new(),
        unknown => format!("<p class=\"warning\">{}</p>\n", escaped(&words::not_on_book(unknown))),
    };
    let ask = view.ask.iter().map(|of| format!("<p class=\"warning\">{}</p>\n", escaped(&no_lot(of))));
    let rest = [
        section("The book says", &rows(&[], &words::said_of(lot)), ""),
        section("Parts", &rows(&head(&words::PARTS), &words::parts(lot)), ""),
        section("Since", &rows(&head(&words::HISTORY), &words::history(lot)), ""),
        chain(words::WENT_INTO_IT[0], &view.from, words::WENT_INTO_IT[1]),
        chain(words::IT_WENT_INTO[0], &view.into, words::IT_WENT_INTO[1]),
        perhaps,
        drinks,
        ask.collect(),
        unknown,
    ];
    SheetHtml { top, rest: rest.concat(), long: false }
}
