//! What was published.

use crate::render::page::{READ_ONLY, SOLVES};
use crate::report::publish::PublishReport;
use crate::units::display::grouped;

use super::table::wrapped;

pub(crate) fn publish(report: &PublishReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let stopped: Vec<&str> = view.cards.iter().filter(|card| card.stopped).map(|card| card.product.as_str()).collect();
    let kilobytes = grouped(view.bytes as f64 / 1000.0, 0);
    let cards = if view.cards.len() == 1 { "1 card".to_owned() } else { format!("{} cards", view.cards.len()) };
    let mut out = String::new();
    if !stopped.is_empty() {
        out.push_str(&wrapped("STOP  ", &format!("on the page, and it says so first: {}", stopped.join(", "))));
    }
    out.push_str(&wrapped("", &format!("{cards}, {kilobytes} kB: {}", view.files.join(", "))));
    out.push_str(&wrapped("", if view.solver { SOLVES } else { READ_ONLY }));
    let costs = if view.with_costs {
        "with prices and costs: for whom they are"
    } else {
        "what the larder and the house say of prices stays at home (--with-costs)"
    };
    out + &wrapped("", costs)
}
