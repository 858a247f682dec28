//! By when a batch that was made on a day goes, store by store.

use crate::render::html::escaped;
use crate::report::date::DateReport;

use super::{findings, paragraphs, stops};

pub(crate) fn dates(report: &DateReport) -> String {
    let Some(view) = report.answer() else { return findings(report.findings().iter()) };
    let stops = stops(&view.cautions);
    let open = view.unidentified.iter().map(|open| &open.question);
    let says: String = view.stores.iter().map(|store| format!("<li>{}</li>\n", escaped(&store.says))).collect();
    let assumed = view.assumed.iter().map(|assumed| format!("assumed: {assumed}")).collect::<Vec<_>>();
    format!("{stops}{}<ul>\n{says}</ul>\n{}", paragraphs(open), paragraphs(&assumed))
}
