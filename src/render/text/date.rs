//! The dates, the rule behind each, and the cautions.

use chrono::NaiveDate;

use crate::assessment::AllergenLists;
use crate::assessment::store::OnceOpened;
use crate::assessment::whatif::WhatIf;
use crate::report::caution::{CautionView, waiting};
use crate::report::date::{DateReport, DateView, ScreenResult, ScreenView};
use crate::report::store::StoreView;
use crate::safety::Level;
use crate::shelf_life::calendar::{in_words, span_in_words};
use crate::shelf_life::class::{Quoted, QuotedStore};
use crate::shelf_life::reason::Note;
use crate::shelf_life::screen::ScreenTable;

use super::doses::{doses, restricted};
use super::table::wrapped;

/// Everything that is said of how long it keeps.
pub fn date(report: &DateReport, full: bool) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let mut out = stops(&view.cautions);
    out.push_str(&format!("\n{} · {}\n", report.product(), of_lot(view)));
    if !view.passed.is_empty() {
        out.push_str(&wrapped("  PAST ITS DATE in: ", &view.passed.join(", ")));
    }
    for assumed in &view.assumed {
        out.push_str(&wrapped("  assumed: ", assumed));
    }
    if let Some(screen) = view.screen {
        out.push_str(&wrapped("  ", &screen_words(screen)));
    }
    out.extend(view.readings.iter().map(|read| wrapped("  ", read)));
    out.extend(view.class_ignored.iter().map(|ignored| wrapped("  ", ignored)));
    out.push_str(&stores(&view.stores, full));
    out.push_str(&quoted(view));
    for note in notes(view) {
        out.push_str(&wrapped("  ", note.words()));
    }
    out.push_str(&what_if(&view.what_if));
    out.push('\n');
    out.push_str(&wrapped("Allergens: ", &view.allergens.allergens_say));
    out.extend(view.allergens_listed_in.iter().map(listed));
    // words that calm do not stand beside an open question
    if view.unidentified.is_empty() || !view.cautions.is_empty() {
        out.push_str(&cautions(&view.cautions, full));
    }
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
    // what may lie above neutral is a bound and no knowledge
    let known = screen.ph_up.filter(|ph| *ph <= 7.0);
    let ph = known.map_or_else(|| "pH not known".to_owned(), |ph| format!("pH up to {ph:.1}"));
    let alcohol = if screen.abv_low >= 0.5 { format!(", {:.1} % vol or more", screen.abv_low) } else { String::new() };
    let hurdles = format!("{ph}, water activity up to {:.2}{alcohol}", screen.aw_up);
    let table = if screen.table == ScreenTable::A { "A (heated, filled hot and closed)" } else { "B" };
    let result = match screen.result {
        ScreenResult::Stable => format!("needs no cold for safety (FDA Food Code 2022, table {table})"),
        ScreenResult::Alcohol => "alcohol holds growth back".to_owned(),
        ScreenResult::Control => format!("needs cold: growth is not ruled out (FDA Food Code 2022, table {table})"),
    };
    let cold = screen.cold_for.filter(|_| screen.result != ScreenResult::Control);
    let cold = cold.map_or_else(String::new, |what| format!("; the {what} in it does ask for cold"));
    format!("{hurdles}: {result}{cold}")
}

/// Store by store; those that refuse for one and the same reason stand in one line.
fn stores(stores: &[StoreView], full: bool) -> String {
    let mut out = String::new();
    let mut rest = stores;
    while let Some((store, _)) = rest.split_first() {
        let alike = |other: &&StoreView| !other.refusals.is_empty() && other.refusals == store.refusals;
        let many = rest.iter().take_while(alike).count().max(1);
        let (these, later) = rest.split_at(many);
        rest = later;
        if many > 1 && !full {
            let places: Vec<String> = these.iter().map(|s| s.place.clone()).collect();
            out.push_str(&wrapped("  ", &format!("{}: no date: {}", places.join(", "), first_reason(store))));
        } else {
            out.extend(these.iter().map(|store| store_text(store, full)));
        }
    }
    out
}

fn first_reason(store: &StoreView) -> String {
    match store.refusals.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [first, more @ ..] => format!("{first} (and {} more: --full)", more.len()),
    }
}

fn store_text(store: &StoreView, full: bool) -> String {
    if !full && store.refusals.len() > 1 {
        return wrapped("  ", &format!("{}: no date: {}", store.place, first_reason(store)));
    }
    let mut out = wrapped("  ", &store.says);
    for why in store.refusals.iter().skip(1) {
        out.push_str(&wrapped("    and: ", why));
    }
    if let Some(opened) = store.opened.as_ref().filter(|_| store.refusals.is_empty() && !store.frozen) {
        out.push_str(&wrapped("    ", &once_opened(opened)));
    }
    // where there is no date already, what else would stop it waits for `--full`
    if full || store.refusals.is_empty() {
        out.extend(store.stops_here.iter().map(|c| wrapped("    STOP if kept here: ", &c.message)));
    }
    out
}

/// What else must be said, once for all stores.
fn notes(view: &DateView) -> Vec<Note> {
    let mut notes: Vec<Note> = Vec::new();
    for store in &view.stores {
        let dated = store.refusals.is_empty();
        for note in store.notes.iter().flatten().filter(|n| dated || n.matters_without_a_date()) {
            if !notes.contains(note) {
                notes.push(*note);
            }
        }
    }
    notes
}

/// What is usually quoted, and why this differs where it is far shorter.
fn quoted(view: &DateView) -> String {
    let Some(class) = view.class.filter(|_| !view.quoted.is_empty()) else { return String::new() };
    let span = |q: &Quoted| {
        let store = if q.store == QuotedStore::Cold { "cold" } else { "in a room" };
        format!("{} {store}", span_in_words(q.low_days as u32, q.high_days as u32))
    };
    let spans: Vec<String> = view.quoted.iter().map(|q| span(q)).collect();
    wrapped("  ", &format!("usually quoted for {class}: {} (common practice, no source)", spans.join(", ")))
}

fn once_opened(opened: &OnceOpened) -> String {
    match opened.days {
        Some(0) => format!("once opened: use at once ({})", opened.because),
        Some(days) => {
            let days = if days == 1 { "1 day".to_owned() } else { in_words(days) };
            format!("once opened: use within {days}, and not after the date above ({})", opened.because)
        }
        None => format!("once opened: not here; {}", opened.because),
    }
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
fn cautions(all: &[CautionView], full: bool) -> String {
    // What is only said of a part in its own bottle waits for `--full`.
    let of_here = |c: &&CautionView| full || c.from.is_none() || c.severity == Level::Stop || c.tell;
    let told: Vec<CautionView> = all.iter().filter(of_here).cloned().collect();
    let hidden = all.len() - told.len();
    let all = told.as_slice();
    let mut out = String::new();
    if all.is_empty() && hidden == 0 {
        return "\nNo caution of the catalogue applies to what is stated.\n".to_owned();
    }
    for caution in all.iter().filter(|c| c.is_said_in_full()) {
        if out.is_empty() {
            out.push_str("\nCautions\n");
        }
        // What must not be served is not to be overlooked.
        let word = match caution.severity {
            Level::Stop => Level::Stop.word().to_uppercase(),
            other => other.word().to_owned(),
        };
        let keys: Vec<&str> = caution.sources.iter().map(|key| key.reference().key.as_str()).collect();
        let keys = if full || keys.is_empty() { String::new() } else { format!(" [{}]", keys.join(", ")) };
        let figures =
            if full || caution.figures.is_empty() { String::new() } else { format!(" {}", caution.figures.join("; ")) };
        out.push_str(&wrapped(&format!("  {word}  "), &format!("{}{figures}{keys}", caution.message)));
        if full {
            out.push_str(&behind(caution));
        }
    }
    let waiting = waiting(all);
    if !waiting.is_empty() {
        out.push_str("\nMay also apply, until it is stated:\n");
    }
    for (asked, group) in waiting {
        if full {
            out.push_str(&wrapped("  - ", &asked));
            for caution in group {
                out.push_str(&wrapped("        ", &caution.says));
                out.push_str(&behind(caution));
            }
        } else if let [first, more @ ..] = group.as_slice() {
            let more = if more.is_empty() { String::new() } else { format!(" (and {} more: --full)", more.len()) };
            out.push_str(&wrapped("  - ", &format!("{asked}: {}{more}", first.says)));
        }
    }
    if hidden > 0 {
        out.push_str(&format!("\n{hidden} more of its parts in their own bottles: --full\n"));
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
