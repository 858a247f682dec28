//! The doses of substances that have a limit, a line each.

use crate::safety::intake::Intake;

use super::table::wrapped;

/// Nothing where nothing of the kind goes in.
pub(super) fn doses(all: &[Intake]) -> String {
    let lines: String = all.iter().map(|dose| wrapped("  ", &dose.to_string())).collect();
    if lines.is_empty() { lines } else { format!("\nAt most, by what is weighed in\n{lines}") }
}
