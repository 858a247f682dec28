//! Plain text, one screen a person at a bench can act on.

mod adjust;
mod budget;
mod check;
mod cost;
mod date;
mod explain;
mod larder;
mod new;
mod plan;
mod read;
mod solve;
mod square;
mod swap;
mod table;

pub(crate) use adjust::adjust;
pub(crate) use budget::budget;
pub(crate) use check::check;
pub(crate) use cost::cost;
pub use date::date;
use date::stops;
pub(crate) use explain::explain;
pub(crate) use larder::larder;
pub(crate) use new::new;
pub(crate) use plan::plan;
pub(crate) use read::read;
pub use solve::solve;
pub(crate) use square::square;
pub(crate) use swap::swap;

use crate::diagnostic::Severity;
use crate::report::Finding;
use crate::units::display;

/// A value with its unit, or "not known".
fn maybe(value: Option<f64>, decimals: usize, unit: &str) -> String {
    value.map_or_else(|| "not known".to_owned(), |v| format!("{}{unit}", display::grouped(v, decimals)))
}

/// The notes among the findings, a line each: what must be mended is painted where it stands.
fn notes(findings: &[Finding]) -> String {
    let notes = findings.iter().filter(|f| f.severity == Severity::Note);
    notes.map(|note| format!("- {}\n", note.message)).collect()
}
