//! The dates, the rule behind each, and the cautions.

use chrono::NaiveDate;

use crate::assessment::AllergenLists;
use crate::assessment::store::OnceOpened;
use crate::assessment::whatif::WhatIf;
use crate::report::caution::{CautionView, waiting};
use crate::report::date::{DateReport, DateView, ScreenView};
use crate::report::store::StoreView;
use crate::safety::Level;
use crate::shelf_life::calendar::in_words;
use crate::shelf_life::screen::{ScreenClass, ScreenTable};
use crate::units::display::grouped;

use super::doses::{doses, restricted};
use super::table::wrapped;

/// Everything that is said of how long it keeps.
pub fn date(report: &DateReport) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = stops(&view.cautions);
    out.push_str(&format!("\n{} · {}\n", report.product(), of_lot(view)));
    if let Some(screen) = view.screen {
        out.push_str(&wrapped("  ", &screen_words(screen)));
    }
    if let Some(read) = &view.readings {
        out.push_str(&wrapped("  ", read));
    }
    for store in &view.stores {
        out.push('\n');
        out.push_str(&store_text(store));
        let stops = store.stops_here.iter().map(|c| wrapped("    STOP if kept here: ", &c.message));
        out.extend(stops);
    }
    out.push_str(&what_if(&view.what_if));
    out.push('\n');
    out.push_str(&wrapped("Allergens: ", &view.allergens.allergens_say));
    out.extend(view.allergens_listed_in.iter().map(listed));
    out.push_str(&cautions(&view.cautions));
    out.push_str(&doses(&view.doses));
    out.push_str(&limits(view));
    out.push_str(&restricted(report.findings()));
    out.push_str("\nRules of your market for making, packing and selling: stillroom explain rules\n");
    out.push_str(&wrapped("", view.note));
    out
}

fn of_lot(view: &DateView) -> String {
    let day = |day: NaiveDate| day.format("%a %-d %b %Y").to_string();
    let lot = &view.lot;
    let mut words = vec![format!("made {}", day(view.made))];
    words.extend(lot.oldest_part.map(|of| format!("its oldest part is of {}", day(of))));
    words.extend(lot.frozen.iter().map(|stay| match stay.to {
        Some(to) => format!("frozen from {} to {}", day(stay.from), day(to)),
        None => format!("frozen since {}", day(stay.from)),
    }));
    words.extend(lot.spoiled_days.map(|days| format!("one spoiled at {days} days")));
    words.join(", ")
}

fn what_if(changes: &[WhatIf]) -> String {
    if changes.is_empty() {
        return String::new();
    }
    let days = |days: Option<u32>| days.map_or_else(|| "no date".to_owned(), in_words);
    let mut out = String::from("\nWhat one change would buy\n");
    for change in changes {
        let bought: Vec<String> = change
            .buys
            .iter()
            .map(|b| format!("{} {} instead of {}", b.store, in_words(b.days), days(b.instead_of)))
            .collect();
        let bought = if bought.is_empty() { "no safety credit".to_owned() } else { bought.join("; ") };
        out.push_str(&wrapped("  ", &format!("if {}: {bought}", change.words)));
    }
    out
}

fn screen_words(screen: ScreenView) -> String {
    let table = match screen.table {
        ScreenTable::A => "A (heated, filled hot and closed)",
        ScreenTable::B => "B (may be recontaminated, or not said)",
    };
    let class = match screen.class {
        ScreenClass::NonTcs => "needs no time and temperature control by acidity and water activity",
        ScreenClass::Pa => "acidity and water activity do not prove it: to be kept cold and short until assessed",
    };
    format!("screen, FDA Food Code 2022 table {table}: {class}")
}

fn store_text(store: &StoreView) -> String {
    let mut out = wrapped("  ", &store.says);
    if store.frozen {
        out.push_str("    the days that are left run on from the day it is thawed\n");
        return out;
    }
    for why in store.refusals.iter().skip(1) {
        out.push_str(&wrapped("    and: ", why));
    }
    if let Some(rule) = &store.decided_by {
        let tier = store.tier.map(|t| t.words()).filter(|_| !rule.names_tier());
        let tier = tier.map_or_else(String::new, |words| format!(" [{words}]"));
        out.push_str(&wrapped("    decided by ", &format!("{rule}{tier}")));
    }
    let dated = store.refusals.is_empty();
    if dated {
        out.push_str(&range(store));
    }
    if let Some(opened) = store.opened.as_ref().filter(|_| dated) {
        out.push_str(&wrapped("    ", &once_opened(opened)));
    }
    for note in store.notes.iter().flatten().filter(|n| dated || n.matters_without_a_date()) {
        out.push_str(&wrapped("    ", note.words()));
    }
    out
}

fn once_opened(opened: &OnceOpened) -> String {
    match opened.days {
        Some(0) => format!("once opened: use at once ({})", opened.because),
        Some(days) => {
            let days = if days == 1 { "1 day".to_owned() } else { in_words(days).replace("about ", "") };
            format!("once opened: use within {days}, and not after the date above ({})", opened.because)
        }
        None => format!("once opened: not here; {}", opened.because),
    }
}

const LONGEST_DAYS: f64 = 5.0 * 365.0;

/// What the models say, as far as it may be shown.
fn range(store: &StoreView) -> String {
    let days = |d: f64| match d {
        d if d < 1.0 => "less than a day".to_owned(),
        // Nothing is known of such times; a figure would look like knowledge.
        d if d > LONGEST_DAYS => "more than 5 years".to_owned(),
        d => in_words(d.floor() as u32),
    };
    let mut out = String::new();
    if let Some(growth) = &store.growth_days {
        if let Some(q05) = growth.q05_days {
            let to = growth.q95_days.map_or_else(String::new, |q95| format!(", 19 in 20 by {}", days(q95)));
            let half = growth.q50_days.map_or_else(String::new, |q50| format!(", half by {}", days(q50)));
            out.push_str(&wrapped("    ", &format!("growth model: 1 bottle in 20 spoiled by {}{half}{to}", days(q05))));
        } else {
            out.push_str("    growth model: fewer than 1 bottle in 20 would ever spoil\n");
        }
    }
    if let Some(never) = store.p_no_growth.filter(|p| *p >= 0.01) {
        out.push_str(&format!("    in {} of 100 simulated lots nothing ever grows\n", grouped(100.0 * never, 0)));
    }
    if let Some(quality) = &store.quality_days {
        let (q10, q50) = (days(quality.q10_days), days(quality.q50_days));
        out.push_str(&wrapped("    ", &format!("quality ({}): 1 in 10 stale by {q10}, half by {q50}", quality.what)));
    }
    if let Some(ceiling) = store.ceiling_days {
        out.push_str(&format!("    ceiling: {}\n", days(ceiling)));
    }
    out
}

/// Whose list an allergen stands on.
fn listed(of: &AllergenLists) -> String {
    let on = match of.markets.is_empty() {
        true => "no list of your market, tell who asks".to_owned(),
        false => of.markets.iter().map(|m| m.code()).collect::<Vec<_>>().join(", "),
    };
    wrapped("  ", &format!("{}: on the list of {on}", of.allergen.said()))
}

/// Limits that somebody has set on what it carries, and rules that no caution tells of.
fn limits(view: &DateView) -> String {
    let said = view.limits.iter().filter(|limit| !limit.is_said_by_caution);
    let lines: String = said.map(|limit| wrapped("  ", &limit.to_string())).collect();
    if lines.is_empty() { lines } else { format!("\nPublished limits and rules on what is in it\n{lines}") }
}

/// The cautions, most serious first; last those that wait on something that was not stated.
fn cautions(all: &[CautionView]) -> String {
    if all.is_empty() {
        return "\nNo caution of the catalogue applies to what is stated.\n".to_owned();
    }
    let mut out = String::new();
    for caution in all.iter().filter(|c| c.is_said_in_full()) {
        if out.is_empty() {
            out.push_str("\nCautions\n");
        }
        // What must not be served is not to be overlooked.
        let word = match caution.severity {
            Level::Stop => Level::Stop.word().to_uppercase(),
            other => other.word().to_owned(),
        };
        out.push_str(&wrapped(&format!("  {word}  "), &caution.message));
        out.push_str(&behind(caution));
    }
    let waiting = waiting(all);
    if !waiting.is_empty() {
        out.push_str("\nMay also apply, until it is stated:\n");
    }
    for (asked, group) in waiting {
        out.push_str(&wrapped("  - ", &asked));
        for caution in group {
            out.push_str(&wrapped("        ", &caution.says));
            out.push_str(&behind(caution));
        }
    }
    out
}

/// What must not be made or served as planned, a line each, to stand before everything else.
pub(crate) fn stops(cautions: &[CautionView]) -> String {
    let stops = cautions.iter().filter(|c| c.stops());
    let all: String = stops.map(|c| wrapped("STOP  ", &c.message)).collect();
    if all.is_empty() { all } else { format!("\n{all}") }
}

fn behind(caution: &CautionView) -> String {
    let mut behind = Vec::new();
    behind.extend((!caution.figures.is_empty()).then(|| caution.figures.join("; ")));
    if !caution.defer_to.is_empty() {
        behind.push(format!("ask: {}", caution.defer_to));
    }
    if !caution.source.is_empty() {
        behind.push(format!("source: {}", caution.source));
    }
    if behind.is_empty() { String::new() } else { wrapped("        ", &behind.join(" · ")) }
}
