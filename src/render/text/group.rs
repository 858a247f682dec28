//! What was carried between a site and its group.

use crate::report::group::{GroupReport, Way};
use crate::units::display::grouped;

pub(crate) fn group(report: &GroupReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let (added, events) = (grouped(view.added as f64, 0), grouped(view.events as f64, 0));
    let sheets = match view.sheets {
        0 => String::new(),
        1 => ", and 1 sheet".to_owned(),
        n => format!(", and {} sheets", grouped(n as f64, 0)),
    };
    match (view.way, view.site.as_deref()) {
        (Way::Push, Some(site)) => format!("pushed as {site}: {added} new of {events} events of this book{sheets}\n"),
        (Way::Push, None) => format!("pushed: {added} new of {events} events of this book{sheets}\n"),
        (Way::Pull, _) => format!("pulled: {added} new of {events} events of all sites{sheets}\n"),
    }
}
