//! The whole page: who wrote it and when, the list of the cards, the cards. It reads and prints without a script.

use chrono::{Days, NaiveDate};

use crate::render::html::escaped;
use crate::render::text::lot_words::day;
use crate::safety::STANDING_NOTE;

use super::SheetHtml;

/// How it looks: on a phone, on a large screen, in the dark, with high contrast, and on paper from A6 to A4.
pub(crate) const STYLE: &str = include_str!("page.css");

/// A page is old from this day on (ours): what the larder knows and what a lot taught changes that fast.
const GOOD_FOR: Days = Days::new(7);

/// What a page is made of.
pub(crate) struct Document<'a> {
    /// The house, if it has a name.
    pub(crate) house: Option<&'a str>,
    pub(crate) written: NaiveDate,
    /// Where each card stands on the page, its name, whether it is stopped, and the card.
    pub(crate) cards: Vec<(String, String, bool, SheetHtml)>,
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

/// The page as it is sent.
pub(crate) fn document(page: &Document<'_>) -> String {
    let house = escaped(page.house.unwrap_or("The bench"));
    let old = page.written.checked_add_days(GOOD_FOR).unwrap_or(page.written);
    let stopped = |stops: &bool| if *stops { " <b>STOP</b>" } else { "" };
    let links = page
        .cards
        .iter()
        .map(|(id, name, stops, _)| format!("<li><a href=\"#{id}\">{}{}</a></li>\n", escaped(name), stopped(stops)));
    let cards = page.cards.iter().map(|(id, _, _, card)| {
        format!(
            "<article id=\"{id}\"{}>\n<p class=\"back\"><a href=\"#cards\">All cards</a></p>\n<div class=\"top\">\n{}</div>\n\
             <div class=\"rest\">\n{}</div>\n</article>\n",
            if card.long { " class=\"long\"" } else { "" },
            card.top,
            card.rest
        )
    });
    format!(
        "<!DOCTYPE html>\n<!-- a page of stillroom -->\n<html lang=\"en\" data-stamp=\"{stamp}\" data-old=\"{old}\">\n<head>\n\
         <meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"referrer\" content=\"no-referrer\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>{house}</title>\n{head}<style>{STYLE}</style>\n</head>\n<body>\n\
         <header>\n<h1>{house}</h1>\n<p class=\"written\">Written {written}. From {from} on ask for a new page.</p>\n</header>\n\
         <main>\n<nav id=\"cards\" aria-label=\"Cards\">\n<ul>\n{links}</ul>\n</nav>\n{cards}</main>\n\
         <footer>\n<p>{note}</p>\n<p class=\"solver\">{solver}</p>\n</footer>\n{scripts}</body>\n</html>\n",
        stamp = page.stamp,
        policy = page.policy,
        head = page.head,
        written = day(page.written),
        from = day(old),
        links = links.collect::<String>(),
        cards = cards.collect::<String>(),
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
