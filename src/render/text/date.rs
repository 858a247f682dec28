//! The dates, the rule behind each, and the cautions.

use chrono::NaiveDate;

use crate::assessment::AllergenLists;
use crate::assessment::store::OnceOpened;
use crate::assessment::whatif::WhatIf;
use crate::diagnostic::once::{gathered, without_repeats};
use crate::report::caution::{CautionView, waiting};
use crate::report::date::{DateReport, DateView, ScreenResult, ScreenView};
use crate::report::store::StoreView;
use crate::safety::Level;
use crate::shelf_life::calendar::{in_few_words, in_words, span_in_words};
use crate::shelf_life::class::{Quoted, QuotedStore};
use crate::shelf_life::reason::Note;
use crate::shelf_life::screen::{ScreenClass, ScreenTable};

use super::doses::{doses, restricted};
use super::guest_words::beside_for_a_guest;
use super::page::Page;
use super::table::{pairs_and_note, wrapped};
use super::warned::warnings;

/// The last line of what is not the full page.
const MORE: &str = "Sources: --full. Advice, no certificate: ask your authority.\n";

/// How long it keeps, store by store, and why; on a full page everything that is said of it.
pub fn date(report: &DateReport, page: Page) -> String {
    let Some(view) = report.answer() else { return String::new() };
    let full = page.full;
    let mut out = stops(&view.cautions);
    out.push_str(&wrapped(&format!("\n{} · ", report.product()), &of_lot(view)));
    if !view.passed.is_empty() {
        out.push_str(&wrapped("  PAST ITS DATE in: ", &view.passed.join(", ")));
    }
    out.extend(view.unidentified.iter().map(|open| wrapped("  first say: ", &open.question)));
    out.push_str(&stores(view, full));
    for assumed in &view.assumed {
        out.push_str(&wrapped("  assumed: ", assumed));
    }
    if let Some(screen) = view.screen.filter(|_| view.unidentified.is_empty()) {
        out.push_str(&wrapped("  ", &screen_words(screen)));
    }
    out.extend(view.readings.iter().map(|read| wrapped("  ", read)));
    out.extend(view.class_ignored.iter().map(|ignored| wrapped("  ", ignored)));
    out.extend(view.recipe_keeps.iter().map(|said| wrapped("  the recipe says ", said)));
    out.push_str(&quoted(view));
    for note in notes(view) {
        out.push_str(&wrapped("  ", note.words()));
    }
    out.push_str(&what_if(&view.what_if));
    out.push_str(&wrapped("Allergens: ", &view.allergens.told_beside(&beside_for_a_guest(&view.guest))));
    if full {
        out.extend(view.allergens_listed_in.iter().map(listed));
    }
    out.push_str(&if full { cautions(&view.cautions, true) } else { warnings(&view.cautions) });
    out.push_str(&doses(&view.doses));
    out.push_str(&restricted(report.findings()));
    if full {
        out.push_str(&limits(view));
        out.push_str("\nSaid by the dates, the allergens or the card of a part\n");
        out.push_str(&cautions(&view.cautions_said_elsewhere, true));
        out.push_str("\nRules of your market for making, packing and selling: stillroom explain rules\n");
    }
    out.push_str(&if full { wrapped("", view.note) } else { MORE.to_owned() });
    page.fit(&out)
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
    let of_lots = lot.of_lots.iter();
    words.extend(of_lots.map(|own| format!("{}: {} lots bear {} days", own.store, own.lots, own.days)));
    words.join(", ")
}

fn what_if(changes: &[WhatIf]) -> String {
    if changes.is_empty() {
        return String::new();
    }
    let mut out = String::from("What one change would buy\n");
    for change in changes {
        let bought: Vec<String> = change.buys.iter().map(|b| format!("{} {}", b.store, in_words(b.days))).collect();
        let bought = if bought.is_empty() { "no safety credit".to_owned() } else { bought.join(", ") };
        out.push_str(&wrapped("  if ", &format!("{}: {bought}", change.words)));
    }
    out
}

fn screen_words(screen: ScreenView) -> String {
    // what may lie above neutral is a bound and no knowledge
    let known = screen.ph_up.filter(|ph| *ph <= 7.0);
    // each end is rounded away from what would be favourable: 3.64 is not "up to 3.6"
    let up = |value: f64, steps: f64| (value * steps - 1e-9).ceil() / steps;
    let ph = known.map_or_else(|| "pH not known".to_owned(), |ph| format!("pH up to {:.1}", up(ph, 10.0)));
    let least = (screen.abv_low * 10.0 + 1e-9).floor() / 10.0;
    let alcohol = if screen.abv_low >= 0.5 { format!(", {least:.1} % vol or more") } else { String::new() };
    let hurdles = format!("{ph}, water activity up to {:.2}{alcohol}", up(screen.aw_up, 100.0));
    let table = if screen.table == ScreenTable::A { "A (heated, filled hot and closed)" } else { "B" };
    let result = match screen.result {
        // the tables leave it open: what keeps it is that there is no food in it
        ScreenResult::Stable if screen.class == ScreenClass::Pa => "nothing in it feeds growth".to_owned(),
        ScreenResult::Stable => format!("needs no cold for safety (Food Code 2022, table {table})"),
        ScreenResult::Alcohol => "alcohol holds growth back".to_owned(),
        ScreenResult::Control => format!("needs cold, growth is not ruled out (Food Code 2022, table {table})"),
    };
    let cold = screen.cold_for.filter(|_| screen.result != ScreenResult::Control);
    let cold = cold.map_or_else(String::new, |what| format!("; the {what} in it does ask for cold"));
    format!("{hurdles}: {result}{cold}")
}

/// Store by store the day and how long that is, and then why, once for all stores of which the same is said.
fn stores(view: &DateView, full: bool) -> String {
    let rows: Vec<Vec<String>> = view.stores.iter().map(in_columns).collect();
    let mut out = pairs_and_note(&rows);
    let said = |store| said_of(store, full).into_iter().map(|why| (why, store.store.as_str()));
    let reasons = gathered(view.stores.iter().flat_map(said));
    let all = view.stores.iter().filter(|s| !said_of(s, full).is_empty()).count();
    for (why, stores) in &reasons {
        let head = if stores.len() == all { "  ".to_owned() } else { format!("  {}: ", stores.join(", ")) };
        out.push_str(&wrapped(&head, why));
    }
    for store in &view.stores {
        if let Some(opened) = store.opened.as_ref().filter(|_| store.refusals.is_empty() && !store.frozen) {
            out.push_str(&wrapped(&format!("  {}, ", store.store), &once_opened(opened)));
        }
    }
    out.push_str(&stops_where_kept(view, full));
    out
}

/// What stops it in some stores only, once for all stores of which the same is said.
fn stops_where_kept(view: &DateView, full: bool) -> String {
    // where there is no date already, what else would stop it waits for `--full`
    let told = view.stores.iter().filter(|store| full || store.refusals.is_empty());
    let stops =
        told.flat_map(|store| store.stops_here.iter().map(|stop| (stop.message.as_str(), store.store.as_str())));
    let line = |(stop, stores): (&str, Vec<&str>)| wrapped(&format!("  STOP if kept in {}: ", stores.join(", ")), stop);
    gathered(stops).into_iter().map(line).collect()
}

fn in_columns(store: &StoreView) -> Vec<String> {
    vec![store.place.clone(), store.short.clone(), store.days.map_or_else(String::new, in_few_words)]
}

/// Why: the one rule, or what refuses.
fn said_of(store: &StoreView, full: bool) -> Vec<&str> {
    let refusals = store.refusals.iter().take(if full { usize::MAX } else { 1 });
    refusals.chain(&store.decided_by).map(String::as_str).collect()
}

/// What else must be said, once for all stores.
fn notes(view: &DateView) -> Vec<Note> {
    let of = |store: &'_ StoreView| {
        let dated = store.refusals.is_empty();
        let notes = store.notes.iter().flatten().copied();
        notes.filter(move |note| dated || note.matters_without_a_date()).collect::<Vec<_>>()
    };
    without_repeats(view.stores.iter().flat_map(of))
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
pub(crate) fn cautions(all: &[CautionView], full: bool) -> String {
    let mut out = String::new();
    // a stop stands above everything already
    for caution in all.iter().filter(|c| c.is_said_in_full() && (full || !c.stops())) {
        let word = match caution.severity {
            Level::Stop => Level::Stop.word().to_uppercase(),
            other => other.word().to_owned(),
        };
        out.push_str(&wrapped(&format!("  {word}  "), &caution.message));
        if full {
            out.push_str(&behind(caution));
        }
    }
    if !out.is_empty() {
        out.insert_str(0, "Cautions\n");
    }
    let waiting = waiting(all);
    if !waiting.is_empty() {
        out.push_str("Not stated\n");
    }
    for (asked, group) in waiting {
        out.push_str(&wrapped("  - ", &asked));
        for caution in group.into_iter().filter(|_| full) {
            out.push_str(&wrapped("      ", &caution.says));
            out.push_str(&behind(caution));
        }
    }
    out
}

/// What must not be made or served as planned, a line each, to stand before everything else.
pub(crate) fn stops(cautions: &[CautionView]) -> String {
    let stops = cautions.iter().filter(|c| c.stops());
    let all: String = stops.map(|c| wrapped("STOP  ", &c.message)).collect();
    all
}

fn behind(caution: &CautionView) -> String {
    let behind = behind_words(caution);
    if behind.is_empty() { String::new() } else { wrapped("        ", &behind) }
}

/// What stands behind a caution: its figures, whom to ask, its source.
pub(in crate::render) fn behind_words(caution: &CautionView) -> String {
    let mut behind = Vec::new();
    behind.extend((!caution.figures.is_empty()).then(|| caution.figures.join("; ")));
    if !caution.defer_to.is_empty() {
        behind.push(format!("ask: {}", caution.defer_to));
    }
    if !caution.source.is_empty() {
        behind.push(format!("source: {}", caution.source));
    }
    behind.join(" · ")
}
