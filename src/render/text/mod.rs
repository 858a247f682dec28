//! Plain text, one screen a person at a bench can act on.

mod adjust;
pub(in crate::render) mod batch;
mod budget;
mod cost;
mod date;
mod doses;
mod explain;
mod explain_date;
mod glass_swap;
#[cfg(feature = "group")]
mod group;
pub(in crate::render) mod guest_words;
mod label;
mod larder;
mod learn;
pub(in crate::render) mod lot_words;
pub(in crate::render) mod lots;
pub(in crate::render) mod menu;
mod page;
mod plan;
#[cfg(feature = "cli")]
mod publish;
mod read;
pub(in crate::render) mod serve;
mod solve;
pub(in crate::render) mod square;
mod swap;
mod table;
pub(in crate::render) mod warned;

pub(crate) use adjust::adjust;
pub(in crate::render) use adjust::{additions as addition_rows, landings as landing_rows, said_after};
pub(crate) use batch::batch;
pub(crate) use budget::budget;
pub(crate) use cost::cost;
pub(super) use cost::cost_in_a_line;
pub(in crate::render) use cost::{lines as cost_rows, unit_rows};
pub(in crate::render) use date::behind_words;
pub use date::date;
use date::{cautions, stops};
pub(crate) use explain::explain;
pub(crate) use explain_date::explain_date;
pub(crate) use glass_swap::glass_swap;
#[cfg(feature = "group")]
pub(crate) use group::group;
pub(crate) use label::{bar_card, bench_card, label};
pub(crate) use larder::{larder, larder_entry};
pub(crate) use learn::learn;
pub(crate) use lots::{due, lot, recall};
pub use menu::menu;
pub use page::Page;
pub(crate) use plan::plan;
#[cfg(feature = "cli")]
pub(crate) use publish::publish;
pub(crate) use read::read;
pub(crate) use serve::serve;
pub(in crate::render) use solve::bench as bench_words;
pub(in crate::render) use solve::lines as weigh_words;
pub use solve::solve;
pub(crate) use square::square;
pub(crate) use swap::swap;

use crate::diagnostic::{Code, Severity};
use crate::report::Finding;
use crate::report::check::CheckReport;
use crate::report::new::NewReport;
use crate::units::{display, millilitres};

pub(crate) fn check(report: &CheckReport) -> String {
    let files = report.answer().map_or(0, |view| view.files);
    let some = |n: usize, word| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
    let count = |severity| report.findings().iter().filter(|f| f.severity == severity).count();
    match (count(Severity::Error), count(Severity::Warning)) {
        (0, 0) if files == 0 => "no cards here: nothing was checked\n".to_owned(),
        (0, 0) => format!("{} checked: nothing found\n", some(files, "card")),
        (errors, warnings) => {
            format!("{} checked: {}, {}\n", some(files, "card"), some(errors, "error"), some(warnings, "warning"))
        }
    }
}

pub(crate) fn new(report: &NewReport) -> String {
    let Some(view) = report.answer().filter(|view| !view.made.is_empty()) else { return String::new() };
    let card = &view.first_card;
    let card = if card.contains(char::is_whitespace) { format!("\"{card}\"") } else { card.clone() };
    format!("made {}\n\nnow try:  stillroom solve {card}\n", view.made.join(", "))
}

/// A value with its unit, or "not known".
fn maybe(value: Option<f64>, decimals: usize, unit: &str) -> String {
    value.map_or_else(|| "not known".to_owned(), |v| format!("{}{unit}", display::grouped(v, decimals)))
}

pub(in crate::render) fn ml_text(ml: f64) -> String {
    display::volume_text(millilitres(ml))
}

/// The notes among the findings, a line each: what must be mended is painted where it stands, and with which files it was
/// read is for who asks for everything.
fn notes(findings: &[Finding]) -> String {
    notes_but(findings, |note| note.code == Code::FilesUsed)
}

fn notes_but(findings: &[Finding], untold: impl Fn(&Finding) -> bool) -> String {
    let notes = findings.iter().filter(|f| f.severity == Severity::Note && !untold(f));
    notes.map(|note| format!("- {}\n", note.message)).collect()
}
