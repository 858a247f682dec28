//! The doses of substances that have a limit, and the foods that somebody restricts, a line each.

use crate::diagnostic::Code;
use crate::report::Finding;
use crate::safety::intake::Intake;

use super::table::wrapped;

/// Nothing where nothing of the kind goes in.
pub(super) fn doses(all: &[Intake]) -> String {
    // what may pass a limit is marked as a caution is
    let mark = |dose: &Intake| if dose.may_pass { "  ! " } else { "  " };
    let lines: String = all.iter().map(|dose| wrapped(mark(dose), &dose.to_string())).collect();
    if lines.is_empty() { lines } else { format!("At most, by what is weighed in\n{lines}") }
}

/// The foods in it that somebody restricts, and why.
pub(super) fn restricted(findings: &[Finding]) -> String {
    let of = findings.iter().filter(|finding| finding.code == Code::RestrictedFood);
    let lines: String = of.map(|finding| wrapped("  ", &finding.message)).collect();
    if lines.is_empty() { lines } else { format!("Food with a restriction\n{lines}") }
}
