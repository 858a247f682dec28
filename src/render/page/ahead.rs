//! A drink made ahead: what goes in each bottle, what is added for the guest, how it stands in its store.

use crate::render::text::batch as words;
use crate::render::text::warned::briefs;
use crate::report::batch::BatchReport;

use super::{findings, paragraphs, rows, stops, warning};

pub(crate) fn ahead(report: &BatchReport) -> String {
    let Some(view) = report.answer() else { return findings(report.findings().iter()) };
    let table = words::rows(view);
    let bottled = table.split_first().map_or_else(String::new, |(head, lines)| rows(head, lines));
    let guest = format!("for a guest: {}", view.for_a_guest);
    let warnings = briefs(&view.cautions).into_iter().map(|(sign, brief)| warning(&sign.to_string(), brief));
    let parts = [
        stops(&view.cautions),
        view.unidentified.iter().map(|asked| warning("first say:", &asked.question)).collect(),
        paragraphs([&words::head(view)]),
        bottled,
        paragraphs([&format!("fill: {}", words::fill(view))]),
        paragraphs(&words::water(view)),
        paragraphs(&words::doubts(view)),
        paragraphs(&words::inside(view)),
        paragraphs(&words::whole(view)),
        paragraphs(words::left_out(view).map(|said| format!("not bottled: {said}")).as_ref()),
        paragraphs([&guest, &words::freezes(view), &view.store.says]),
        paragraphs(&words::as_filled(view)),
        paragraphs([&format!("Allergens of a glass: {}", view.allergens.allergens_say)]),
        warnings.collect(),
        findings(report.findings().iter()),
    ];
    parts.concat()
}
