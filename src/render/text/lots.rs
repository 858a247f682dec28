//! A lot, what goes first, and a recall notice.

use chrono::{Datelike, NaiveDate};

use crate::diagnostic::Code;
use crate::lots::cause::PulledFor;
use crate::lots::due::Soon;
use crate::lots::not_on_book::AskedProduct;
use crate::lots::poured::PouredDrink;
use crate::lots::reprint::LabelChange;
use crate::report::lots::{DueLine, DueReport, DueView, LotReport, LotView, RecallReport, ReprintView};

use super::lot_words::{NOT_SERVED, allergens, date, day, from, kept, left, made, standing};
use super::table::{pairs, wrapped};

pub(crate) fn lot(report: &LotReport) -> String {
    report.answer().map_or_else(String::new, one)
}

pub(in crate::render) fn why_it_must_go(view: &LotView) -> String {
    let Some(why) = &view.pulled else { return date(&view.use_by) };
    let tasted = view.history.iter().rev().find(|line| line.is_taste);
    let why = match (why, tasted) {
        (PulledFor::Growth { .. } | PulledFor::Off { .. }, Some(line)) => line.words.clone(),
        _ => why.to_string(),
    };
    format!("{why}; and what it went into: stillroom recall {}", view.lot)
}

fn one(view: &LotView) -> String {
    let mut out = format!("\nLot {} · {}\n", view.lot, view.product);
    if let Some(struck) = &view.struck_out {
        return out + &wrapped("  STRUCK OUT ", &format!("{struck}; it is on no list any more"));
    }
    match view.soon {
        Some(Soon::MustGo) => out.push_str(&wrapped("  THROW IT AWAY: ", &why_it_must_go(view))),
        _ if view.pulled.is_some() => out.push_str(&wrapped("  PULLED: ", &why_it_must_go(view))),
        _ => out.push_str(&wrapped("  ", &date(&view.use_by))),
    }
    out.push_str(&wrapped("  ", &format!("made {}", made(view))));
    out.push_str(&wrapped("  ", &kept(view)));
    out.push_str(&wrapped("  allergens: ", &allergens(view)));
    let rows: Vec<(String, String)> = view.parts.iter().map(|part| (part.of.clone(), from(part))).collect();
    out.push_str("  from\n");
    out.push_str(&pairs(&rows));
    if view.history.len() > 1 {
        out.push_str("  since\n");
        // `strike` takes the number
        let lines = view.history.iter().zip(1..);
        let lines = lines.map(|(line, n)| wrapped(&format!("  {n:>2}  {}  ", day(line.on)), &line.words));
        out.extend(lines);
    }
    out
}

/// What goes first, under which head.
const GROUPS: [(Soon, &str); 6] = [
    (Soon::MustGo, "MUST GO NOW"),
    (Soon::NoDate, "no date until it is told"),
    (Soon::Today, "today is the last day"),
    (Soon::ThisWeek, "within a week"),
    (Soon::Later, "later"),
    (Soon::Frozen, "frozen"),
];

/// The head over lots that may hold one that was pulled: a doubt that somebody can end.
const IN_DOUBT: &str = "MAY HOLD A LOT THAT WAS PULLED: ask who made it, keep it back until then";

/// The lots under their heads: what must go, what may hold a lot that was pulled, the others by their last day.
pub(in crate::render) fn groups(view: &DueView) -> Vec<(&'static str, Vec<&DueLine>)> {
    let is_doubt = |line: &DueLine| line.may_hold.is_some() && line.soon != Soon::MustGo;
    let of = |(soon, head)| (head, view.lots.iter().filter(|l| l.soon == soon && !is_doubt(l)).collect::<Vec<_>>());
    let mut groups: Vec<_> = GROUPS.into_iter().map(of).collect();
    groups.insert(1, (IN_DOUBT, view.lots.iter().filter(|line| is_doubt(line)).collect()));
    groups.retain(|(_, lots)| !lots.is_empty());
    groups
}

pub(crate) fn due(report: &DueReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = format!("\nDue, {}\n", day(view.on));
    let unread = report.findings().iter().filter(|finding| finding.code == Code::CannotRead).count();
    if unread > 0 {
        let lines = if unread == 1 { "1 line" } else { &format!("{unread} lines") };
        out.push_str(&wrapped("  ! ", &format!("{lines} of the book cannot be read: a lot may be missing here")));
    }
    if view.lots.is_empty() {
        return out + "  nothing is on the book\n";
    }
    for (head, lots) in groups(view) {
        let rows: Vec<Vec<String>> = lots.into_iter().map(|line| due_row(line, view.on)).collect();
        out.push_str(&format!("{}{}", wrapped("", head), super::table::columns_left(&rows)));
    }
    if view.lots.iter().any(|line| line.left.is_some()) {
        out.push_str(&wrapped("left: ", NOT_SERVED));
    }
    if !view.labels.is_empty() {
        out.push_str("labels to reprint\n");
        let one =
            |label: &ReprintView| format!("{}{}", wrapped("  ", &reprint(label)), wrapped("    ", &label.command));
        out.extend(view.labels.iter().map(one));
    }
    out
}

/// What a label says wrongly.
pub(in crate::render) fn reprint(label: &ReprintView) -> String {
    let changed = label.changed.iter().map(|change| match change {
        LabelChange::Date { on_label, now } => {
            let was = on_label.map_or_else(|| "frozen".to_owned(), day);
            format!("says {was}, now {}", date(now))
        }
        LabelChange::Allergens { missing } => format!("lacks {}", missing.join(", ").replace('_', " ")),
    });
    let changed: Vec<String> = changed.collect();
    format!("{}, lot {}: {}", label.product, label.lot, changed.join("; "))
}

/// Product, lot, last day and store; the year is said where it is another one.
pub(in crate::render) fn due_row(line: &DueLine, on: NaiveDate) -> Vec<String> {
    let when = match (line.use_by.day, line.use_by.days_left_when_thawed) {
        // a date would be read first
        _ if let Some(why) = &line.pulled => why.short(),
        _ if let Some(of) = &line.may_hold => format!("{}: {}", of.lot, of.why.short()),
        (None, _) if line.soon == Soon::MustGo => line.use_by.refused.clone().unwrap_or_else(|| {
            let thaw_by = line.use_by.thaw_by.map_or_else(String::new, |by| format!(", thaw by {}", day(by)));
            format!("too long in the freezer{thaw_by}")
        }),
        (Some(last), _) => {
            let past = if line.soon == Soon::MustGo { "past its date, " } else { "" };
            format!("{past}{}", last.format(if last.year() == on.year() { "%a %-d %b" } else { "%-d %b %Y" }))
        }
        (None, Some(left)) => format!("{left} days left"),
        (None, None) => "-".to_owned(),
    };
    let opened = if line.opened.is_some() { ", open" } else { "" };
    let left = line.left.map_or_else(String::new, |of| format!(", {}", left(&of)));
    vec![line.product.clone(), line.lot.clone(), when, format!("{}{opened}{left}", line.store)]
}

/// The head over the lots that may hold it.
pub(in crate::render) const PERHAPS: &str = "It may have gone into these: nobody has said which lot went in";

/// The head over the drinks: what is poured is not on the book.
pub(in crate::render) const POURED: &str = "Drinks of the menu that may have had it";

/// A drink that may have had it: its lots, the days, what the menu sells of it.
pub(in crate::render) fn poured(drink: &PouredDrink, on: NaiveDate) -> Vec<String> {
    let to = if drink.to == on { "today".to_owned() } else { day(drink.to) };
    let sold = drink.sold_a_week.map_or_else(String::new, |sold| format!("{sold} a week"));
    let perhaps = drink.perhaps.iter().map(|lot| format!("perhaps {lot}"));
    let lots: Vec<String> = drink.lots.iter().cloned().chain(perhaps).collect();
    vec![drink.drink.clone(), lots.join(", "), format!("{} to {to}", day(drink.from)), sold]
}

/// What is asked of a product that has no lot on the book.
pub(in crate::render) fn no_lot(of: &AskedProduct) -> String {
    let AskedProduct { product, made_with, drinks } = of;
    let goes = if drinks.is_empty() { String::new() } else { format!(" (it is in {})", drinks.join(", ")) };
    format!("{product} is made with {made_with} and has no lot on this book: ask which batch went into it{goes}")
}

pub(crate) fn recall(report: &RecallReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let house = view.house.as_ref().map_or_else(String::new, |name| format!("{name} · "));
    let mut out = format!("\n{house}recall, {}\n", day(view.on));
    out.push_str(&one(&view.lot));
    let list = |head: &str, lots: &[LotView]| {
        if lots.is_empty() {
            return format!("\n{head}: nothing on this book\n");
        }
        let row = |lot: &LotView| {
            let pulled = lot.pulled.as_ref().map(|why| format!(": {}", why.short())).unwrap_or_default();
            let must_go = if lot.pulled.is_none() && lot.soon == Some(Soon::MustGo) { ": must go" } else { "" };
            let now = format!("{}{pulled}{must_go}", standing(lot));
            vec![lot.product.clone(), lot.lot.clone(), day(lot.made), lot.store.clone(), now]
        };
        let rows: Vec<Vec<String>> = lots.iter().map(row).collect();
        format!("\n{head}\n{}", super::table::columns_left(&rows))
    };
    out.push_str(&list("Went into it", &view.from));
    out.push_str(&list("It went into", &view.into));
    if !view.perhaps.is_empty() {
        out.push_str(&list(PERHAPS, &view.perhaps));
    }
    if !view.drinks.is_empty() {
        let rows: Vec<Vec<String>> = view.drinks.iter().map(|drink| poured(drink, view.on)).collect();
        out.push_str(&format!("\n{POURED}\n{}", super::table::columns_left(&rows)));
    }
    for of in &view.ask {
        out.push_str(&wrapped("  ? ", &no_lot(of)));
    }
    for lot in &view.unknown {
        out.push_str(&wrapped("  ! ", &format!("lot {lot} is named and is not on this book: ask whoever made it")));
    }
    out + "\n" + &wrapped("", view.note)
}
