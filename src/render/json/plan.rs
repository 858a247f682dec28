//! A plan for programs.

use serde_json::{Value, json};

use crate::cost::Bill;
use crate::diagnostic::Diagnostic;
use crate::plan::calendar::Day;
use crate::plan::orders::{Order, Timing};
use crate::plan::schedule::{Plan, Why};
use crate::plan::tables::{What, tasks, unit_word};
use crate::plan::waits::words;

/// The plan with its order list; null where there is none.
pub fn plan(plan: Option<(&Plan, &[Order], Option<&Bill>)>, diagnostics: &[Diagnostic]) -> String {
    super::text(&match plan {
        None => {
            json!({ "from": null, "days": null, "closed": null, "prep": null, "orders": null, "cost": null, "currency": null, "short": null,
            "diagnostics": super::findings(diagnostics) })
        }
        Some((plan, orders, bill)) => json!({
            "from": plan.calendar.date(0).to_string(),
            "days": plan.calendar.days,
            "closed": (0..plan.calendar.days).filter(|d| !plan.calendar.is_open(*d)).map(|d| date(plan, d)).collect::<Value>(),
            "prep": prep(plan, orders),
            "orders": orders.iter().enumerate().map(|(place, order)| {
                let mut row = order_json(plan, order);
                row["cost"] = bill.and_then(|bill| bill.text_of(place)).into();
                row
            }).collect::<Value>(),
            "cost": bill.filter(|b| b.complete).map(|bill| bill.currency.text(bill.total)),
            "currency": bill.map(|bill| bill.currency.code()),
            "short": short(plan),
            "diagnostics": super::findings(diagnostics),
        }),
    })
}

fn date(plan: &Plan, day: Day) -> String {
    plan.calendar.date(day).to_string()
}

fn prep(plan: &Plan, orders: &[Order]) -> Value {
    tasks(plan, orders)
        .into_iter()
        .map(|task| {
            let mut row = json!({
                "date": date(plan, task.day), "what": task.what.word(), "of": task.product,
                "amount": task.amount, "unit": unit_word(task.unit),
            });
            if !task.waits.is_empty() {
                row["note"] = words(&plan.calendar, &task.waits).into();
            }
            match task.what {
                What::ThrowAway(last) | What::UseFirst(last) | What::Make(last) => {
                    row["use_by"] = date(plan, last).into()
                }
                What::GoesInto(outer) => row["into"] = outer.into(),
                What::Start { stage, takes, ready } => {
                    row["stage"] = stage.into();
                    row["takes"] = takes.into();
                    row["ready"] = date(plan, ready).into();
                }
            }
            row
        })
        .collect()
}

fn order_json(plan: &Plan, order: &Order) -> Value {
    let units = |thousandths: u64| thousandths as f64 / 1000.0;
    let (arrives, late) = match order.timing {
        Timing::By(_, day) => (Some(day), false),
        Timing::Late { comes, .. } => (comes, true),
    };
    json!({
        "of": order.of.name, "unit": unit_word(order.of.unit), "packs": order.of.pack.map(|_| order.packs),
        "pack": order.of.pack.map(units), "amount": units(order.amount()), "need": units(order.need),
        "on_hand": units(order.of.on_hand), "order_by": date(plan, order.day()), "needed": date(plan, order.needed),
        "arrives": arrives.map(|day| date(plan, day)), "late": late,
    })
}

fn short(plan: &Plan) -> Value {
    let rows = plan.products.iter().flat_map(|p| p.short.iter().map(move |s| (p, s)));
    rows.map(|(planned, short)| {
        let (why, first) = match short.why {
            Why::Use(first) => ("use", first),
            Why::Par(first) => ("par", first),
            Why::ParBeyondLife => ("par_beyond_life", None),
        };
        json!({
            "date": date(plan, short.day), "of": planned.product.name, "amount": short.amount,
            "unit": unit_word(planned.product.unit), "why": why, "first_ready": first.map(|day| date(plan, day)),
        })
    })
    .collect()
}
