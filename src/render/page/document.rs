//! The whole page: who wrote it and when, the list of the cards, the cards. It reads and prints without a script.

use chrono::{Days, NaiveDate};

use crate::render::html::escaped;
use crate::render::text::lot_words::day;
use crate::report::publish::PageKind;
use crate::safety::STANDING_NOTE;

use super::{SheetHtml, paragraphs};

/// How it looks: on a phone, on a large screen, in the dark, with high contrast, and on paper from A6 to A4.
pub(crate) const STYLE: &str = include_str!("page.css");

/// A page is old from this day on (ours): what the larder knows and what a lot taught changes that fast.
const GOOD_FOR: Days = Days::new(7);

/// What a page is made of.
pub(crate) struct Document<'a> {
    /// The house, if it has a name.
    pub(crate) house: Option<&'a str>,
    pub(crate) written: NaiveDate,
    pub(crate) entries: Vec<PageEntry>,
    /// What the browser is held to.
    pub(crate) policy: String,
    /// Further lines of the head.
    pub(crate) head: String,
    /// What follows the cards: what the page can do beside being read, or that it can only be read; and its scripts.
    pub(crate) solver: &'static str,
    pub(crate) scripts: String,
    /// By which the solver knows that it was written with this page.
    pub(crate) stamp: String,
}

/// A card, a drink, the menu, the board or a lot.
pub(crate) struct PageEntry {
    pub(crate) kind: PageKind,
    /// Where it stands on the page.
    pub(crate) place: String,
    pub(crate) name: String,
    pub(crate) stops: bool,
    /// What its list says of it beside its name.
    pub(crate) pulled: Vec<String>,
    pub(crate) html: SheetHtml,
    /// What is drawn of it, as SVG.
    pub(crate) charts: Vec<String>,
}

/// The list of all that is on the page, each kind under its head; a lot is in the list of its board.
fn list(entries: &[PageEntry]) -> String {
    let kinds =
        [(PageKind::Menu, "Menu"), (PageKind::Board, "Lots"), (PageKind::Drink, "Drinks"), (PageKind::Card, "Cards")];
    let of = |kind| entries.iter().filter(move |entry| entry.kind == kind);
    let some = kinds.into_iter().filter(|(kind, _)| of(*kind).next().is_some());
    let some: Vec<_> = some.collect();
    let link = |entry: &PageEntry| {
        let stopped = if entry.stops { " <b>STOP</b>" } else { "" };
        let pulled = if entry.pulled.is_empty() { "" } else { " <b>LOT PULLED</b>" };
        format!("<li><a href=\"#{}\">{}{stopped}{pulled}</a></li>\n", entry.place, escaped(&entry.name))
    };
    let under = |(kind, head): &(PageKind, &str)| {
        let head = if some.len() > 1 { format!("<h2>{head}</h2>\n") } else { String::new() };
        format!("{head}<ul>\n{}</ul>\n", of(*kind).map(link).collect::<String>())
    };
    some.iter().map(under).collect()
}

/// Above everything that is said of a product: that one of its lots was pulled.
fn pulled(entry: &PageEntry) -> String {
    if entry.pulled.is_empty() {
        return String::new();
    }
    format!("<div class=\"pulled\">\n<p class=\"stop\">{ASK}</p>\n{}</div>\n", paragraphs(&entry.pulled))
}

const ASK: &str = "Ask for a new page";

fn article(entry: &PageEntry, board: Option<&str>) -> String {
    let (to, back) = match board.filter(|_| entry.kind == PageKind::Lot) {
        Some(board) => (board, "All lots"),
        None => ("cards", "All pages"),
    };
    format!(
        "<article id=\"{}\"{}>\n<p class=\"back\"><a href=\"#{to}\">{back}</a></p>\n{}<div class=\"top\">\n{}</div>\n\
         <div class=\"rest\">\n{}</div>\n{}</article>\n",
        entry.place,
        if entry.html.long { " class=\"long\"" } else { "" },
        pulled(entry),
        entry.html.top,
        entry.html.rest,
        charts(entry)
    )
}

/// What is drawn of a card as it was written: worked out anew it is hidden.
fn charts(entry: &PageEntry) -> String {
    let named = |svg: &String| {
        // what is read aloud of a drawing: its words, as they stand on it
        let words = svg.split("\n</text>").filter_map(|part| part.rsplit_once(">\n").map(|(_, words)| words));
        let words = words.filter(|word| word.contains(char::is_alphabetic)).collect::<Vec<_>>().join("; ");
        // within a page it needs no name of its language, and nothing of the page looks like an address
        let svg = svg.replace(" xmlns=\"http://www.w3.org/2000/svg\"", "");
        format!("<figure role=\"img\" aria-label=\"{words}\">\n{svg}</figure>\n")
    };
    let drawn: String = entry.charts.iter().map(named).collect();
    if drawn.is_empty() { drawn } else { format!("<div class=\"charts\">\n{drawn}</div>\n") }
}

/// The page as it is sent.
pub(crate) fn document(page: &Document<'_>) -> String {
    let house = escaped(page.house.unwrap_or("The bench"));
    let old = page.written.checked_add_days(GOOD_FOR).unwrap_or(page.written);
    let board = page.entries.iter().find(|entry| entry.kind == PageKind::Board).map(|entry| entry.place.as_str());
    let articles = page.entries.iter().map(|entry| article(entry, board));
    format!(
        "<!DOCTYPE html>\n<!-- a page of stillroom -->\n<html lang=\"en\" data-stamp=\"{stamp}\" data-old=\"{old}\">\n<head>\n\
         <meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"referrer\" content=\"no-referrer\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>{house}</title>\n{head}<style>{STYLE}</style>\n</head>\n<body>\n\
         <header>\n<h1>{house}</h1>\n<p class=\"written\">Written {written}. From {from} on ask for a new page.</p>\n</header>\n\
         <main>\n<nav id=\"cards\" aria-label=\"Pages\">\n{links}</nav>\n{articles}</main>\n\
         <footer>\n<p>{note}</p>\n<p class=\"solver\">{solver}</p>\n</footer>\n{scripts}</body>\n</html>\n",
        stamp = page.stamp,
        policy = page.policy,
        head = page.head,
        written = day(page.written),
        from = day(old),
        links = list(&page.entries),
        articles = articles.collect::<String>(),
        note = escaped(STANDING_NOTE),
        solver = escaped(page.solver),
        scripts = page.scripts,
    )
}

/// What a page can do that has a solver.
pub(crate) const SOLVES: &str =
    "With scripts on, this page works out other sizes, targets, readings and dates itself, with no signal.";

/// And one that has none.
pub(crate) const READ_ONLY: &str =
    "This page can only be read: it was written by a stillroom without the solver for pages (feature solver-page).";

/// What a page with a solver asks beside each card.
pub(crate) const TOOLS: &str = include_str!("tools.html");

pub(crate) const ICON: &str = include_str!("icon.svg");

/// What a phone is told that keeps the page as a program.
pub(crate) fn manifest(house: Option<&str>) -> String {
    let name = house.unwrap_or("The bench");
    let icon = serde_json::json!({ "src": "icon.svg", "type": "image/svg+xml", "sizes": "any" });
    let told = serde_json::json!({ "name": name, "short_name": name, "start_url": "index.html", "display": "standalone", "icons": [icon] });
    // its first words say who wrote it
    format!("{{ \"id\": \"stillroom-page\", {}", told.to_string().trim_start_matches('{'))
}
