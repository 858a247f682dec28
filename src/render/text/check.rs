//! What a check comes to; the findings themselves are painted where they stand.

use crate::diagnostic::Severity;
use crate::report::check::CheckReport;

/// How many cards, and how many findings.
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
