//! The bench page: every card as it is read on a phone, in a browser and on paper. What a program in the page writes anew
//! is written here as well, so that the two cannot differ.

mod adjusted;
mod ahead;
#[cfg(feature = "cli")]
mod board;
mod dates;
#[cfg(feature = "cli")]
mod document;
#[cfg(feature = "cli")]
mod glass;
#[cfg(feature = "cli")]
mod menu;
mod sheet;
mod volume;

pub(crate) use adjusted::adjusted;
pub(crate) use ahead::ahead;
#[cfg(feature = "cli")]
pub(crate) use board::{board, lot};
pub(crate) use dates::dates;
#[cfg(feature = "cli")]
pub(crate) use document::{Document, ICON, PageEntry, READ_ONLY, SOLVES, STYLE, TOOLS, document, manifest};
#[cfg(feature = "cli")]
pub(crate) use glass::glass;
#[cfg(feature = "cli")]
pub(crate) use menu::menu;
pub(crate) use sheet::{SheetHtml, sheet};

use crate::render::html::escaped;
use crate::report::Finding;
use crate::report::caution::CautionView;

/// What was found on the way, errors first as they come: what it is, and what to write.
fn findings<'a>(all: impl Iterator<Item = &'a Finding>) -> String {
    let said = all.map(|finding| {
        let help = finding.help.as_ref().map_or_else(String::new, |help| format!(": {}", escaped(help)));
        let severity = finding.severity.word();
        format!("<li class=\"{severity}\"><b>{severity}:</b> {}{help}</li>\n", escaped(&finding.message))
    });
    let said: String = said.collect();
    if said.is_empty() { said } else { format!("<ul class=\"found\">\n{said}</ul>\n") }
}

/// Rows under a head, each beginning with what it is of.
fn rows(head: &[String], rows: &[Vec<String>]) -> String {
    let cells = |tag: &str, first: &str, row: &[String]| {
        let mut cells = row.iter().map(|cell| escaped(cell));
        let first = cells.next().map_or_else(String::new, |cell| format!("<{first}>{cell}</th>"));
        let rest: String =
            cells.map(|cell| format!("<{tag}>{cell}</{}>", tag.split(' ').next().unwrap_or(tag))).collect();
        format!("<tr>{first}{rest}</tr>\n")
    };
    let body: String = rows.iter().map(|row| cells("td", "th scope=\"row\"", row)).collect();
    let head = match head.is_empty() {
        true => String::new(),
        // a cell that heads nothing is no head
        false => format!("<thead>{}</thead>\n", cells("th scope=\"col\"", "th scope=\"col\"", head))
            .replace("<th scope=\"col\"></th>", "<td></td>"),
    };
    format!("<div class=\"wide\" tabindex=\"0\"><table>\n{head}<tbody>\n{body}</tbody>\n</table></div>\n")
}

fn section(head: &str, body: &str, then: &str) -> String {
    if body.is_empty() && then.is_empty() {
        return String::new();
    }
    format!("<section>\n<h3>{head}</h3>\n{body}{then}</section>\n")
}

fn list<S: AsRef<str>>(all: &[S]) -> String {
    let said: String = all.iter().map(|said| format!("<li>{}</li>\n", escaped(said.as_ref()))).collect();
    if said.is_empty() { said } else { format!("<ul>\n{said}</ul>\n") }
}

/// What not to do, above everything else.
fn stops<'a>(all: impl IntoIterator<Item = &'a CautionView>) -> String {
    let stops = all.into_iter().filter(|caution| caution.stops());
    stops.map(|stop| format!("<p class=\"stop\">STOP: {}</p>\n", escaped(&stop.message))).collect()
}

/// Words that stay on one line.
#[cfg(feature = "cli")]
fn unbroken(words: &str) -> String {
    words.replace(' ', "\u{a0}")
}

fn warning(lead: &str, words: &str) -> String {
    format!("<p class=\"warning\"><b>{}</b> {}</p>\n", escaped(lead), escaped(words))
}

fn paragraphs<'a>(all: impl IntoIterator<Item = &'a String>) -> String {
    all.into_iter().filter(|said| !said.is_empty()).map(|said| format!("<p>{}</p>\n", escaped(said))).collect()
}

/// That the page and its solver do not understand each other.
pub(crate) fn fault(why: &str) -> String {
    format!("<p class=\"stop\">this is a fault of the page, not of your card: {}</p>\n", escaped(why))
}
