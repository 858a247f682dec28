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

pub use adjust::adjust;
pub use budget::budget;
pub use check::check;
pub use cost::cost;
pub use date::date;
use date::stops;
pub use explain::explain;
pub use larder::larder;
pub use new::new;
pub use plan::plan;
pub use read::read;
pub use solve::solve;
pub use square::square;
pub use swap::swap;

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
