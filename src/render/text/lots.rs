//! A lot, what goes first, and a recall notice.

use chrono::NaiveDate;

use crate::lots::LotStanding;
use crate::lots::due::Soon;
use crate::lots::event::{PartFrom, PartUsed, UseBy};
use crate::report::lots::{DueLine, DueReport, LearnReport, LessonView, LotReport, LotView, RecallReport};
use crate::units::display::grouped;

use super::ml_text;
use super::table::{pairs, wrapped};

pub(crate) fn lot(report: &LotReport) -> String {
    report.answer().map_or_else(String::new, one)
}

fn day(day: NaiveDate) -> String {
    day.format("%a %-d %b %Y").to_string()
}

/// A date in words, with its reason.
fn date(use_by: &UseBy) -> String {
    let because = use_by.because.as_ref().map_or_else(String::new, |why| format!(": {why}"));
    match (use_by.day, &use_by.refused, use_by.days_left_when_thawed) {
        (_, Some(why), _) => format!("no date: {why}"),
        (Some(last), None, _) if use_by.best_before => format!("best before {}{because}", day(last)),
        (Some(last), None, _) => format!("USE BY {}{because}", day(last)),
        (None, None, Some(left)) => format!("frozen, {left} days left when it is thawed"),
        (None, None, None) => "the count stops there".to_owned(),
    }
}

fn why_it_must_go(view: &LotView) -> String {
    match view.history.iter().rev().find(|line| line.is_taste) {
        Some(line) => format!("{}; and what it went into: stillroom recall {}", line.words, view.lot),
        None => date(&view.use_by),
    }
}

fn standing(view: &LotView) -> &'static str {
    match view.standing {
        LotStanding::InUse => "there",
        LotStanding::UsedUp => "used up",
        LotStanding::Discarded => "thrown away",
    }
}

fn one(view: &LotView) -> String {
    let mut out = format!("\nLot {} · {}\n", view.lot, view.product);
    match view.soon {
        Some(Soon::MustGo) => out.push_str(&wrapped("  THROW IT AWAY: ", &why_it_must_go(view))),
        _ => out.push_str(&wrapped("  ", &date(&view.use_by))),
    }
    let volume = view.volume_ml.map_or_else(String::new, |ml| format!(" = {}", ml_text(ml)));
    let filled = view.containers.zip(view.each_ml);
    let filled = filled.map_or_else(String::new, |(count, ml)| format!(", {count} x {}", ml_text(ml)));
    let back =
        if view.kept_back > 0 { format!(", {} to be tasted, not for service", view.kept_back) } else { String::new() };
    let by = view.maker.as_ref().map_or_else(String::new, |maker| format!(" by {maker}"));
    let amount = format!("made {}{by}: {} g{volume}{filled}{back}", day(view.made), grouped(view.mass_g, 0));
    out.push_str(&wrapped("  ", &amount));
    let opened = view.opened.map_or_else(String::new, |on| format!(", opened {}", day(on)));
    out.push_str(&wrapped("  ", &format!("{}, {}{opened}", view.store, standing(view))));
    out.push_str(&wrapped("  allergens: ", &allergens(view)));
    let rows: Vec<(String, String)> = view.parts.iter().map(|part| (part.of.clone(), from(part))).collect();
    out.push_str("  from\n");
    out.push_str(&pairs(&rows));
    if view.history.len() > 1 {
        out.push_str("  since\n");
        let lines = view.history.iter().map(|line| wrapped(&format!("  {}  ", day(line.on)), &line.words));
        out.extend(lines);
    }
    out
}

fn allergens(view: &LotView) -> String {
    let named = if view.allergens.is_empty() {
        "no allergen named".to_owned()
    } else {
        view.allergens.join(", ").replace('_', " ")
    };
    match view.allergens_not_stated.as_slice() {
        [] => named,
        open => format!("{named}, not stated: {}", open.join(", ")),
    }
}

fn from(part: &PartUsed) -> String {
    let grams = grouped(part.mass_g, usize::from(part.mass_g < 20.0));
    match &part.from {
        PartFrom::Lot(code) => format!("{grams} g, lot {code}"),
        PartFrom::Day(on) => format!("{grams} g, of {}", day(*on)),
        PartFrom::Batch(code) => format!("{grams} g, batch {code}"),
        PartFrom::NotTold if part.dated => format!("{grams} g, DAY NOT TOLD"),
        PartFrom::NotTold => format!("{grams} g"),
    }
}

pub(crate) fn due(report: &DueReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = format!("\nDue, {}\n", day(view.on));
    if view.lots.is_empty() {
        return out + "  nothing is on the book\n";
    }
    let groups = [
        (Soon::MustGo, "MUST GO NOW"),
        (Soon::NoDate, "no date until it is told"),
        (Soon::Today, "today is the last day"),
        (Soon::ThisWeek, "within a week"),
        (Soon::Later, "later"),
        (Soon::Frozen, "frozen"),
    ];
    for (soon, head) in groups {
        let rows: Vec<Vec<String>> = view.lots.iter().filter(|line| line.soon == soon).map(due_row).collect();
        if !rows.is_empty() {
            out.push_str(&format!("{head}\n{}", super::table::columns_left(&rows)));
        }
    }
    out
}

fn due_row(line: &DueLine) -> Vec<String> {
    let when = match (line.use_by.day, line.use_by.days_left_when_thawed) {
        (Some(last), _) => last.format("%a %-d %b").to_string(),
        (None, Some(left)) => format!("{left} days left"),
        (None, None) => "-".to_owned(),
    };
    let opened = if line.opened.is_some() { ", open" } else { "" };
    vec![line.product.clone(), line.lot.clone(), when, format!("{}{opened}", line.store)]
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
            vec![lot.product.clone(), lot.lot.clone(), day(lot.made), lot.store.clone(), standing(lot).to_owned()]
        };
        let rows: Vec<Vec<String>> = lots.iter().map(row).collect();
        format!("\n{head}\n{}", super::table::columns_left(&rows))
    };
    out.push_str(&list("Went into it", &view.from));
    out.push_str(&list("It went into", &view.into));
    for lot in &view.unknown {
        out.push_str(&wrapped("  ! ", &format!("lot {lot} is named and is not on this book: ask whoever made it")));
    }
    out + "\n" + &wrapped("", view.note)
}

pub(crate) fn learn(report: &LearnReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    if view.lessons.is_empty() {
        return "\nNo lot has been tasted or finished yet: nothing is learned.\n".to_owned();
    }
    let mut out = String::from("\nWhat the lots say of quality; no lot lifts a date of safety\n");
    out.extend(view.lessons.iter().map(lesson));
    out
}

fn lesson(view: &LessonView) -> String {
    let lesson = &view.lesson;
    let days = |days: f64| grouped(days, usize::from(days < 10.0));
    let mut out =
        format!("{}, {}: {} lots, {} of them going or off\n", view.product, lesson.store, lesson.lots, lesson.refused);
    let said = format!(
        "1 in 10 goes by {} days (expected {}), half by {}",
        days(lesson.q10_days),
        days(lesson.expected_q10_days),
        days(lesson.q50_days)
    );
    out.push_str(&wrapped("  ", &said));
    let looked = format!("looked at and fine up to {} days: nothing is said beyond", days(lesson.oldest_fine_days));
    out.push_str(&wrapped("  ", &looked));
    if lesson.expected_rules {
        out.push_str(&wrapped("  ", "fewer than 3 went off: what was expected rules"));
    }
    let now = view.days_now.map_or_else(|| "no date".to_owned(), |days| format!("{days} days"));
    out.push_str(&wrapped("  ", &format!("bears {} days; its date is {now}", lesson.offered_days)));
    out
}
