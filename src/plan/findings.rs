//! What a plan cannot keep, in words, with the first day on which it could.

use chrono::NaiveDate;

use crate::diagnostic::{Code, Diagnostic};
use crate::units::display::volume_text;
use crate::units::millilitres;

use super::calendar::{Calendar, Day};
use super::model::PrepUnit;
use super::orders::{Order, Timing, rules};
use super::planned::{Planned, Short, Why};
use super::settle::{GivenUp, SettledPlan};

/// "Tue 1 Dec 2026".
pub(crate) fn day_text(date: NaiveDate) -> String {
    date.format("%a %-d %b %Y").to_string()
}

/// "1.50 L", "750 ml", "1,200 g".
pub(crate) fn amount_text(amount: u64, unit: PrepUnit) -> String {
    match unit {
        PrepUnit::Ml if amount >= 1000 => volume_text(millilitres(amount as f64)),
        PrepUnit::Ml => format!("{amount} ml"),
        PrepUnit::Pieces => format!("{amount} pieces"),
        PrepUnit::G => format!("{} g", crate::units::display::grouped(amount as f64, 0)),
    }
}

/// Everything that cannot be met, or not as it was asked for.
pub fn plan_findings(settled: &SettledPlan) -> Vec<Diagnostic> {
    let SettledPlan { plan, orders, given_up } = settled;
    let calendar = &plan.calendar;
    let of_products = plan.products.iter().flat_map(|p| of_product(calendar, p));
    let late = orders.iter().filter_map(|order| late(calendar, order));
    of_products.chain(given_up.iter().map(|of| not_made(calendar, of))).chain(late).collect()
}

fn of_product(calendar: &Calendar, planned: &Planned) -> Vec<Diagnostic> {
    let name = &planned.product.name;
    let unit = planned.product.unit;
    let of_kind = |kind: fn(&Why) -> bool| planned.short.iter().filter(move |s| kind(&s.why));
    let date = |day: Day| day_text(calendar.date(day));
    let first_day = |first: Option<Day>| {
        first.map_or_else(
            || {
                "it cannot be ready on any day in sight: look at the closed days, its `takes` and what goes into it"
                    .to_owned()
            },
            |day| format!("the first day on which it can be ready is {}", date(day)),
        )
    };
    let mut found = Vec::new();
    let uses: Vec<&Short> = of_kind(|w| matches!(w, Why::Use(_))).collect();
    if let (Some(first), Some(last)) = (uses.first(), uses.last()) {
        let missing: u64 = uses.iter().map(|s| s.amount).sum();
        let until = if first.day == last.day { String::new() } else { format!(" to {}", date(last.day)) };
        // What comes later would not have been in time for the last of these days.
        let Why::Use(ready) = last.why else { return found };
        found.push(
            Diagnostic::error(
                Code::NotInTime,
                format!("`{name}`: {} are missing, {}{until}", amount_text(missing, unit), date(first.day)),
            )
            .help(format!("{}; until then buy it in, or take it off the menu", first_day(ready))),
        );
    }
    // Where there is nothing to use, nobody asks for par.
    let low = of_kind(|w| matches!(w, Why::Par(_))).filter(|low| uses.iter().all(|short| short.day != low.day));
    let low: Vec<&Short> = low.collect();
    if let (Some(first), Some(Short { why: Why::Par(ready), .. })) = (low.first(), low.last()) {
        found.push(
            Diagnostic::warning(
                Code::BelowPar,
                format!("`{name}`: {} below par on {}", amount_text(first.amount, unit), date(first.day)),
            )
            .help(first_day(*ready)),
        );
    }
    if let Some(most) = of_kind(|w| *w == Why::ParBeyondLife).max_by_key(|s| s.amount) {
        let kept = planned.product.par.saturating_sub(most.amount);
        found.push(
            Diagnostic::warning(
                Code::ParBeyondLife,
                format!(
                    "`{name}`: a par of {} is more than is used before it expires",
                    amount_text(planned.product.par, unit)
                ),
            )
            .help(format!(
                "{} is what its life allows on {}; lower the par",
                amount_text(kept, unit),
                date(most.day)
            )),
        );
    }
    found.extend(small_batches(calendar, planned));
    found
}

/// A board of a year has many: so many are named.
const NAMED: usize = 14;

/// Batches that the board says are not worth the work.
fn small_batches(calendar: &Calendar, planned: &Planned) -> Option<Diagnostic> {
    let text = |amount| amount_text(amount, planned.product.unit);
    let of = |(day, amount): &(Day, u64)| format!("{} on {}", text(*amount), calendar.date(*day).format("%a %-d %b"));
    let named: Vec<String> = planned.small.iter().take(NAMED).map(of).collect();
    let more = match planned.small.len().saturating_sub(NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let Planned { product, .. } = planned;
    let smallest = text(product.smallest);
    let title =
        format!("`{}` is planned below its smallest batch of {smallest}: {}{more}", product.name, named.join(", "));
    let help = "no more than that is used before it expires: the rest would be thrown away";
    (!named.is_empty()).then(|| Diagnostic::warning(Code::SmallBatch, title).help(help))
}

/// What would be past its date before its ingredient comes.
fn not_made(calendar: &Calendar, GivenUp { product, order }: &GivenUp) -> Diagnostic {
    let title =
        format!("`{product}` waits for `{}` longer than it keeps, and is not planned until then", order.of.name);
    Diagnostic::error(Code::LateOrder, title).help(comes(calendar, order))
}

/// When it comes, and why no sooner.
fn comes(calendar: &Calendar, order: &Order) -> String {
    let first = match order.timing {
        Timing::By(_, day) => Some(day),
        Timing::Late { comes, .. } => comes,
    };
    let help = first.map_or_else(
        || "no delivery is in sight".to_owned(),
        |day| format!("ordered at once it comes on {}", day_text(calendar.date(day))),
    );
    format!("{help}: {}; until then buy it elsewhere", rules(calendar, order).join(", "))
}

fn late(calendar: &Calendar, order: &Order) -> Option<Diagnostic> {
    let Timing::Late { .. } = order.timing else { return None };
    let needed = day_text(calendar.date(order.needed));
    let help = comes(calendar, order);
    let title = format!("`{}` is needed on {needed} and cannot be delivered by then", order.of.name);
    Some(Diagnostic::error(Code::LateOrder, title).help(help))
}
