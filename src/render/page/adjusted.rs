//! What to add to a batch that is off.

use crate::render::text::{addition_rows, landing_rows, said_after};
use crate::report::adjust::AdjustReport;

use super::{findings, paragraphs, rows, stops};

pub(crate) fn adjusted(report: &AdjustReport) -> String {
    let Some(view) = report.answer() else { return findings(report.findings().iter()) };
    let (additions, notes) = addition_rows(view);
    let table = |all: &[Vec<String>]| all.split_first().map_or_else(String::new, |(head, lines)| rows(head, lines));
    let [have, doubt, again] = said_after(view);
    let parts = [
        stops(&view.stops),
        table(&additions),
        paragraphs(&notes),
        paragraphs([&have]),
        table(&landing_rows(view)),
        paragraphs([&doubt, &again]),
        findings(report.findings().iter()),
    ];
    parts.concat()
}
