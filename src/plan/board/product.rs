//! What a board says of a product.

use crate::diagnostic::{Code, Diagnostic, Spanned};
use crate::input::{Table, Value, wrong_type};
use crate::larder::amounts::amount;

use super::amounts::{batch, quantity, rate};
use super::days::{date, weekday};
use super::{Entry, Held, HeldDate, Quantity};

const PRODUCT: &[&str] = &["par", "use", "use_on", "on_hand", "store", "batch"];

pub(super) fn entry(name: &Spanned<String>, table: &Table, closed: &[bool; 7], found: &mut Vec<Diagnostic>) -> Entry {
    table.check_keys("a product of the plan", PRODUCT, found);
    let uses = amount(table, "use", rate, found);
    let entry = Entry {
        name: name.clone(),
        par: amount(table, "par", quantity, found),
        uses,
        use_on: use_on(table, closed, found),
        on_hand: on_hand(table, found),
        store: table.text("store", found).map(|s| Spanned { value: s.value.to_owned(), span: s.span }),
        batch: amount(table, "batch", batch, found).map(|b| (Spanned { value: b.value.0, span: b.span }, b.value.1)),
    };
    if entry.par.is_some() && table.get("use").is_none() && table.get("use_on").is_none() {
        let span = entry.par.map_or(name.span, |p| p.span);
        found.push(
            Diagnostic::error(Code::ParWithoutUse, format!("`{}` has a par and no use", name.value))
                .at(span, "how fast does it go?")
                .help("add use = \"6 L a week\" or use = \"900 ml a day\": without it nobody can say when it runs out or how much its life allows"),
        );
    }
    entry
}

fn use_on(table: &Table, closed: &[bool; 7], found: &mut Vec<Diagnostic>) -> [Option<Spanned<Quantity>>; 7] {
    let mut days = [None; 7];
    let Some((_, value)) = table.get("use_on") else { return days };
    let Value::Table(on) = &value.value else {
        found.push(wrong_type("use_on", value, "days with amounts").help("write use_on = { Fri = \"2 L\" }"));
        return days;
    };
    for (day, written) in &on.entries {
        let Some(place) = weekday("use_on", &day.value, day.span, found) else { continue };
        let read = amount(on, &day.value, quantity, found);
        if read.is_some_and(|q| q.value.amount > 0.0) && closed[place] {
            found.push(
                Diagnostic::error(
                    Code::Contradiction,
                    format!("it is used on {}, when the house is closed", day.value),
                )
                .at(written.span, "nothing is used on a closed day")
                .help("take the day out of `closed` or out of `use_on`"),
            );
        }
        days[place] = read;
    }
    days
}

fn on_hand(table: &Table, found: &mut Vec<Diagnostic>) -> Vec<Held> {
    const HELP: &str = "write on_hand = [{ amount = \"1.2 L\", use_by = 2026-12-03 }]";
    let Some((_, value)) = table.get("on_hand") else { return Vec::new() };
    let Value::List(items) = &value.value else {
        found.push(wrong_type("on_hand", value, "a list, one entry a bottle or a date,").help(HELP));
        return Vec::new();
    };
    let mut all = Vec::new();
    for item in items {
        let Value::Table(held) = &item.value else {
            found.push(wrong_type("on_hand", item, "an amount with its date").help(HELP));
            continue;
        };
        held.check_keys("an entry of `on_hand`", &["amount", "use_by", "made"], found);
        let before = found.len();
        let how_much = amount(held, "amount", quantity, found);
        let use_by = held.date("use_by", found).and_then(|d| date("use_by", d, found)).map(HeldDate::UseBy);
        let made = held.date("made", found).and_then(|d| date("made", d, found)).map(HeldDate::Made);
        match (how_much, use_by.or(made)) {
            (Some(amount), Some(dated)) => all.push(Held { amount, dated }),
            _ if found.len() > before => {}
            (None, _) => found.push(
                Diagnostic::error(Code::MissingKey, "what is on hand has no amount")
                    .at(item.span, "how much?")
                    .help(HELP),
            ),
            (_, None) => found.push(
                Diagnostic::error(Code::MissingKey, "what is on hand has no date")
                    .at(item.span, "how old is it?")
                    .help("add use_by = 2026-12-03 or made = 2026-11-26: what has no date is not counted on"),
            ),
        }
    }
    all
}
