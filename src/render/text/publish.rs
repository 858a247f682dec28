//! What was published.

use crate::render::page::{READ_ONLY, SOLVES};
use crate::report::publish::{PageKind, PublishReport};
use crate::units::display::grouped;

use super::table::wrapped;

const KINDS: [(PageKind, &str, &str); 5] = [
    (PageKind::Card, "card", "cards"),
    (PageKind::Drink, "drink", "drinks"),
    (PageKind::Menu, "menu", "menus"),
    (PageKind::Board, "board", "boards"),
    (PageKind::Lot, "lot", "lots"),
];

pub(crate) fn publish(report: &PublishReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let stopped = view.pages.iter().filter(|page| page.stopped).map(|page| page.product.as_str());
    let stopped: Vec<&str> = stopped.collect();
    let kilobytes = grouped(view.bytes as f64 / 1000.0, 0);
    let count = |(kind, one, many): (PageKind, &str, &str)| match view.pages.iter().filter(|p| p.kind == kind).count() {
        0 => None,
        1 => Some(format!("1 {one}")),
        n => Some(format!("{n} {many}")),
    };
    let cards: Vec<String> = KINDS.into_iter().filter_map(count).collect();
    let mut out = String::new();
    if !stopped.is_empty() {
        out.push_str(&wrapped("STOP  ", &format!("on the page, and it says so first: {}", stopped.join(", "))));
    }
    out.push_str(&wrapped("", &format!("{}, {kilobytes} kB: {}", cards.join(", "), view.files.join(", "))));
    let pulled = view.pages.iter().filter(|page| page.kind != PageKind::Lot && !page.pulled_lots.is_empty());
    let pulled: Vec<String> =
        pulled.map(|page| format!("{} ({})", page.product, page.pulled_lots.join(", "))).collect();
    if !pulled.is_empty() {
        let said = format!("its page says so above everything: {}", pulled.join(", "));
        out.push_str(&wrapped("LOT PULLED  ", &said));
    }
    out.push_str(&wrapped("", if view.solver { SOLVES } else { READ_ONLY }));
    let costs = if view.with_costs {
        "with prices and costs: for whom they are"
    } else {
        "what the larder and the house say of prices stays at home (--with-costs)"
    };
    let lots = if view.with_lots {
        "with the book of lots: for the house alone"
    } else {
        "the book of lots stays at home (--with-lots)"
    };
    out + &wrapped("", costs) + &wrapped("", lots)
}
