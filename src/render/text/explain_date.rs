//! How a date was reached, a step a line, with the numbers of the card.

use crate::report::explain_date::DateStepsReport;

use super::table::wrapped;

pub(crate) fn explain_date(report: &DateStepsReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = format!("\n{} · made {}\n", report.product(), view.made.format("%a %-d %b %Y"));
    for (place, step) in view.steps.iter().enumerate() {
        out.push_str(&wrapped(&format!("{}. ", place + 1), step.rule));
        out.extend(step.here.iter().map(|here| wrapped("     ", here)));
    }
    out
}
