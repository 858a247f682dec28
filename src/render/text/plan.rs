//! The prep list, day by day, and the order list.

use chrono::NaiveDate;

use crate::diagnostic::once::gathered;
use crate::drinks::batch::glasses_text;
use crate::plan::findings::{amount_text, day_text};
use crate::plan::tables::thousandths;
use crate::plan::{LeftOut, PrepUnit};
use crate::report::money::Money;
use crate::report::plan::{InThousandths, OrderView, PlanReport, PlanView, SalesView, ShortOf, ShortView};
use crate::report::plan_fresh::FreshView;
use crate::report::plan_not_ordered::NotOrderedView;
use crate::report::plan_step::{PrepView, StepView};
use crate::units::display::{self, grouped, volume_text};
use crate::units::millilitres;

use super::guest_words::beside_for_a_guest;
use super::table;

pub(crate) fn plan(report: &PlanReport) -> String {
    report.answer().map_or_else(String::new, planned)
}

/// A plan; that of an event too.
pub(super) fn planned(plan: &PlanView) -> String {
    let name = plan.house.as_ref().map_or_else(String::new, |name| format!("{name} · "));
    let last = plan.all_days().last().unwrap_or(plan.from);
    let mut out = format!("\n{name}plan from {} to {}\n", day_text(plan.from), day_text(last));
    out.push_str(&plan.menu.as_ref().map_or_else(String::new, sales));
    out.push_str(&of_bottles(plan));
    out.push_str(&left_out(&plan.left_out));
    out.push_str(&missing(&plan.short));
    for day in plan.all_days() {
        let rows: Vec<_> = plan.prep.iter().filter(|task| task.date == day).map(row).collect();
        if plan.closed.contains(&day) {
            out.push_str(&format!("\n{}: closed\n", short(day)));
        } else if !rows.is_empty() {
            out.push_str(&format!("\n{}\n{}", short(day), table::listed(&rows)));
        }
    }
    out + &order_list(plan) + &plan.not_ordered.as_ref().map_or_else(String::new, not_ordered) + &judged(plan)
}

/// What is not there when it is used: who reads the page alone has to know.
fn missing(all: &[ShortView]) -> String {
    let of_product = gathered(all.iter().filter(|s| s.why == ShortOf::Use).map(|short| (short.of.as_str(), short)));
    let line = |(of, rows): (&str, Vec<&ShortView>)| {
        let (Some(first), Some(last)) = (rows.first(), rows.last()) else { return String::new() };
        let until = if last.date > first.date { format!(" to {}", short(last.date)) } else { String::new() };
        let ready = last.first_ready.map_or_else(String::new, |day| format!("; ready {} at the earliest", short(day)));
        let amount = amount_text(rows.iter().map(|row| row.amount).sum(), first.unit);
        table::wrapped(&format!("MISSING, {of}: "), &format!("{amount}, {}{until}{ready}", short(first.date)))
    };
    of_product.into_iter().map(line).collect()
}

/// What is left out, each with its first fault.
pub(super) fn left_out(all: &[LeftOut]) -> String {
    let said = |left: &LeftOut| {
        let place = left.file.as_ref().map_or_else(String::new, |file| format!(" ({file})"));
        table::wrapped(&format!("LEFT OUT, {}: ", left.of), &format!("{}{place}", left.why))
    };
    all.iter().map(said).collect()
}

/// What is sold, and what counts where the board says a use as well.
fn sales(menu: &SalesView) -> String {
    let mut said = format!("{} glasses a week by {}", grouped(menu.glasses_a_week as f64, 0), menu.file);
    let counted = menu.use_on_board_counts.iter();
    let counted: Vec<String> =
        counted.map(|of| format!("{} (the menu: {} a week)", of.of, amount_text(of.menu_a_week, of.unit))).collect();
    if !counted.is_empty() {
        said =
            format!("{said}; the use on the board counts, and the menu is not added to it, for {}", counted.join(", "));
    }
    said.extend(menu.event_on.map(|on| format!("; the event of {} is added", day_text(on))));
    let open = menu.event_not_planned.map(day_text);
    said.extend(open.map(|on| format!("; the event of {on} is NOT in it: its shares are not all written")));
    said.push_str(if menu.event_elsewhere { "; its event is on no day of this plan" } else { "" });
    table::wrapped("Sold: ", &said)
}

/// What is poured of bottles, and not made again.
fn of_bottles(plan: &PlanView) -> String {
    let glasses = |(of, glasses): (&String, &u64)| format!("{} of {of}", glasses_text(*glasses as f64));
    let inside = plan.inside_of_bottles.iter().map(|of| {
        let water = match of.water_g.round() {
            g if g > 0.0 => format!(" and {} ml water", grouped(g, 0)),
            _ => String::new(),
        };
        let each = format!("in each {} {} of \"{}\"{water}", display::short(of.each), of.unit.word(), of.bottle);
        format!("the {} in {} of {} ({each})", of.inside, glasses_text(of.glasses as f64), of.drink)
    });
    let all: Vec<String> = plan.of_bottles.iter().map(glasses).chain(inside).collect();
    if all.is_empty() { String::new() } else { table::wrapped("Poured of bottles that are there: ", &all.join(", ")) }
}

/// What is in each product for a guest to be told, what takes it out of the plan, and what is still to be stated.
fn judged(plan: &PlanView) -> String {
    if plan.products.is_empty() {
        return String::new();
    }
    let mut out = String::from("\nAllergens\n");
    for product in &plan.products {
        let said = format!("{}{}", product.allergens.allergens_say, beside_for_a_guest(&product.guest));
        out.push_str(&table::wrapped(&format!("  {}: ", product.of), &said));
    }
    let mut open = String::new();
    for product in &plan.products {
        let stops = product.stops.iter().map(|c| table::wrapped(&format!("  STOP, {}: ", product.of), &c.message));
        out.extend(stops);
        let asked = product.unidentified.iter();
        out.extend(asked.map(|open| table::wrapped(&format!("  {}, not planned: ", product.of), &open.question)));
        if !product.not_stated.is_empty() {
            open.push_str(&table::wrapped(&format!("  {}: ", product.of), &product.not_stated.join("; ")));
        }
    }
    if !open.is_empty() {
        out.push_str("\nNot stated\n");
    }
    out + &open + &table::wrapped("", plan.note)
}

fn short(day: NaiveDate) -> String {
    day.format("%a %-d %b").to_string()
}

fn row(task: &PrepView) -> [String; 4] {
    let note = match &task.step {
        StepView::ThrowAway(last) => format!("past its date, {}", day_text(last.use_by)),
        StepView::Make(last) if last.use_by == task.date => "use at once: today only".to_owned(),
        StepView::UseFirst(last) | StepView::Make(last) => format!("{} {}", last.mark(), day_text(last.use_by)),
        StepView::Leave { into, last } => format!("too old for {into}: {} {}", last.mark(), day_text(last.use_by)),
        StepView::GoesInto { into } => format!("for {into}"),
        StepView::Start { stage, takes, ready } => {
            let said: Vec<&str> = stage.iter().chain(takes).map(String::as_str).collect();
            format!("{}; ready {}", said.join(", "), short(*ready))
        }
    };
    let note = task.note.as_ref().map_or(note.clone(), |waits| format!("{waits}; {note}"));
    [task.step.word().to_owned(), task.of.clone(), amount_text(task.amount, task.unit), note]
}

fn order_list(plan: &PlanView) -> String {
    if plan.orders.is_empty() {
        return "\nNothing has to be ordered.\n".to_owned();
    }
    let no_cost = if plan.currency.is_some() { "?" } else { "" };
    let rows: Vec<_> = plan.orders.iter().map(|order| order_row(order, no_cost)).collect();
    let no_total = || if plan.nothing_priced { table::wrapped("  ", NO_PRICE) } else { String::new() };
    let total = plan.cost_at_least.map_or_else(no_total, |total| {
        let missing = if plan.cost.is_some() { "" } else { ", INCOMPLETE" };
        format!("  in all {} before tax{missing}\n", total.to_coin())
    });
    let guessed = by_price(plan).map_or_else(String::new, |said| table::wrapped("  ", &said));
    let fresh: String = plan.orders.iter().filter_map(fresh).map(|said| table::wrapped("  ", &said)).collect();
    format!("\nOrder\n{}{total}{fresh}{guessed}", table::listed(&rows))
}

/// What keeps for days only is not bought at once for all of them.
fn fresh(order: &OrderView) -> Option<String> {
    let part = |of: &FreshView| {
        let past = match of.arrives.filter(|_| of.is_past) {
            Some(day) => format!(" (it comes {}, and is past its days by then: buy it elsewhere)", short(day)),
            None => String::new(),
        };
        format!("{} for {}{past}", text_of(of.amount.0, order.unit), short(of.needed))
    };
    let all: Vec<String> = order.fresh.iter().map(part).collect();
    (!all.is_empty()).then(|| format!("{} does not keep so long, buy it fresh: {}", order.of, all.join(", ")))
}

/// So many times what is needed nobody means to buy (ours).
const FAR_MORE: u64 = 4;

/// Packs that may be a price for the kilogram: far more than is needed, and the board does not say how it is sold.
fn by_price(plan: &PlanView) -> Option<String> {
    let is_far = |order: &&OrderView| order.pack_by_price && order.amount.0 > FAR_MORE * order.need.0;
    let all: Vec<&str> = plan.orders.iter().filter(is_far).map(|order| order.of.as_str()).collect();
    let first = all.first()?;
    Some(format!(
        "a pack of {} is what its price is of: where less is sold, write in plan.toml [ingredient.\"{first}\"] pack = \"50 g\"",
        all.join(", ")
    ))
}

/// Ice and garnish: nobody buys them by a recipe, and an evening ends without them.
fn not_ordered(view: &NotOrderedView) -> String {
    let weighed = (view.ice_g > 0.0).then(|| format!("{} kg of ice by the cards", grouped(view.ice_g / 1000.0, 1)));
    let open = view.ice_not_weighed_in.as_slice();
    let open = (!open.is_empty()).then(|| format!("ice of {}, whose cards do not weigh it", open.join(", ")));
    let garnish = view.garnish.iter().map(|(of, glasses)| format!("{} x {of}", grouped(*glasses as f64, 0)));
    let all: Vec<String> = weighed.into_iter().chain(open).chain(garnish).collect();
    table::wrapped("  not on this list: ", &all.join("; "))
}

/// Of an order of which nothing can be added up.
const NO_PRICE: &str = "nothing on this list has a price: write price = \"3.00 GBP / 1 kg\" under each in larder.toml";

fn order_row(order: &OrderView, no_cost: &str) -> [String; 5] {
    let by = if order.late { "LATE".to_owned() } else { format!("by {}", short(order.order_by)) };
    let amount = match (order.packs, order.pack) {
        (Some(packs), Some(InThousandths(pack))) if order.in_pack > 1 => {
            let (each, of) = (text_of(pack / order.in_pack, order.unit), order.in_pack);
            let cases = if packs == 1 { "1 case".to_owned() } else { format!("{packs} cases") };
            format!("{} x {each} ({cases} of {of})", packs.saturating_mul(of))
        }
        (Some(packs), Some(InThousandths(pack))) if pack != 1000 => format!("{packs} x {}", text_of(pack, order.unit)),
        _ => text_of(order.amount.0, order.unit),
    };
    // A juice that is bought by the piece is bought as its fruit.
    let fruit = order.fruit.as_ref();
    let amount = fruit.map_or(amount.clone(), |fruit| format!("{amount} of {fruit}"));
    let there = match order.on_hand.0 {
        0 => String::new(),
        there => format!(", {} on hand", text_of(there, order.unit)),
    };
    let comes = order.arrives.filter(|_| order.late).map_or_else(String::new, |day| format!(", comes {}", short(day)));
    let note = format!("needed {}{comes}: {} in all{there}", short(order.needed), text_of(order.need.0, order.unit));
    [by, order.of.clone(), amount, order.cost.map_or_else(|| no_cost.to_owned(), Money::coins), note]
}

fn text_of(amount: u64, unit: PrepUnit) -> String {
    let whole = || grouped((amount as f64 / 1000.0).ceil(), 0);
    match (unit, amount) {
        (PrepUnit::Ml, 1_000_000..) => volume_text(millilitres(amount as f64 / 1000.0)),
        (PrepUnit::Pieces, ..=1000) => "1 piece".to_owned(),
        (PrepUnit::Pieces, _) => format!("{} pieces", whole()),
        (_, 10_000..) => format!("{} {}", whole(), unit.word()),
        _ => format!("{} {}", thousandths(amount.div_ceil(100) * 100), unit.word()),
    }
}
