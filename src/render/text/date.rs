//! The dates, the rule behind each, and the cautions.

use chrono::NaiveDate;

use crate::assessment::store::OnceOpened;
use crate::assessment::whatif::WhatIf;
use crate::assessment::{Assessment, DatedStore, Lot};
use crate::safety::{Caution, Level, Market, STANDING_NOTE};
use crate::shelf_life::calendar::in_words;
use crate::shelf_life::reason::Mark;
use crate::shelf_life::screen::{Screen, ScreenClass, ScreenTable};
use crate::units::display::{grouped, temperature_text};

use super::table::wrapped;

/// Everything that is said of how long it keeps.
pub fn date(name: &str, dated: &Assessment) -> String {
    let mut out = stops(dated.stops());
    out.push_str(&format!("\n{name} · {}\n", of_lot(&dated.lot)));
    if let Some(screen) = dated.screen {
        out.push_str(&wrapped("  ", &screen_words(screen)));
    }
    if let Some(read) = &dated.readings {
        out.push_str(&wrapped("  ", read));
    }
    for store in &dated.stores {
        out.push('\n');
        out.push_str(&store_text(store));
        out.push_str(&stops_here(dated, store));
    }
    out.push_str(&what_if(&dated.what_if));
    if let Some(words) = allergens(dated) {
        out.push('\n');
        out.push_str(&wrapped("Allergens: ", &words));
        out.push_str(&listed(dated));
    }
    out.push_str(&cautions(&dated.cautions));
    out.push_str("\nRules of your market for making, packing and selling: stillroom explain rules\n");
    out.push_str(&wrapped("", STANDING_NOTE));
    out
}

/// The day made, and what else is known of the lot.
fn of_lot(lot: &Lot) -> String {
    let day = |day: NaiveDate| day.format("%a %-d %b %Y").to_string();
    let mut words = vec![format!("made {}", day(lot.made))];
    words.extend(lot.oldest_part.map(|of| format!("its oldest part is of {}", day(of))));
    words.extend(lot.frozen.iter().map(|stay| match stay.to {
        Some(to) => format!("frozen from {} to {}", day(stay.from), day(to)),
        None => format!("frozen since {}", day(stay.from)),
    }));
    words.extend(lot.spoiled_days.map(|days| format!("one spoiled at {days} days")));
    words.join(", ")
}

/// A stop for this store that is not among the cautions of the planned one: it must not be missed.
fn stops_here(dated: &Assessment, store: &DatedStore) -> String {
    let here = |c: &&Caution| c.severity == Level::Stop && !dated.cautions.contains(c);
    let said = |c: &Caution| store.refused.iter().any(|why| why.why == c.message);
    let stops = store.cautions.iter().filter(here).filter(|c| !said(c));
    stops.map(|c| wrapped("    STOP if kept here: ", &c.to_string())).collect()
}

/// What one change would buy, a line a change.
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

/// The answer of the pH and water activity tables, in words.
fn screen_words(screen: Screen) -> String {
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

fn mark(store: &DatedStore) -> &'static str {
    match store.mark {
        Mark::BestBefore => "best before",
        _ => "use by",
    }
}

/// One line for the summary of a weigh sheet: the date in one store, and the question that could take it away.
pub fn summary(store: &DatedStore) -> String {
    match stop_in_doubt(store) {
        Some(doubt) => format!("{}; {doubt}", in_store(store)),
        None => in_store(store),
    }
}

/// A stop that hangs on what is not stated: the date must not be read without it.
pub fn stop_in_doubt(store: &DatedStore) -> Option<String> {
    let stop = store.cautions.iter().find(|c| c.severity == Level::Stop).filter(|_| store.date.is_some())?;
    Some(format!("a STOP may apply, not stated: {}", stop.not_stated.join("; ")))
}

/// The date in one store.
pub fn in_store(store: &DatedStore) -> String {
    let place = format!("{} ({})", store.store.name, temperature_text(store.store.temperature));
    match (store.days, store.date) {
        (Some(days), Some(date)) => {
            format!("{place}: {} {} ({})", mark(store), date.format("%a %-d %b %Y"), in_words(days))
        }
        _ if store.verdict.is_none() => format!("{place}: the clock stops"),
        _ if store.left_when_thawed.is_some() => {
            let left = store.left_when_thawed.unwrap_or_default();
            let words = if left == 1 { "1 day is".to_owned() } else { format!("{left} days are") };
            format!("{place}: it is in the freezer; {words} left from the day it is thawed, that day counted")
        }
        _ => format!(
            "{place}: no date: {}",
            store.refused.first().map_or_else(|| "not known".to_owned(), ToString::to_string)
        ),
    }
}

fn store_text(store: &DatedStore) -> String {
    let mut out = wrapped("  ", &summary(store));
    let Some(verdict) = &store.verdict else {
        out.push_str("    the days that are left run on from the day it is thawed\n");
        return out;
    };
    for why in store.refused.iter().skip(1) {
        out.push_str(&wrapped("    and: ", &why.to_string()));
    }
    if let Some(rule) = &store.decided_by {
        let tier = store.tier.map(|t| t.words()).filter(|words| !rule.contains(words));
        let tier = tier.map_or_else(String::new, |words| format!(" [{words}]"));
        out.push_str(&wrapped("    decided by ", &format!("{rule}{tier}")));
    }
    if store.refused.is_empty() {
        out.push_str(&range(verdict));
    }
    if let Some(opened) = store.opened.as_ref().filter(|_| store.refused.is_empty()) {
        out.push_str(&wrapped("    ", &once_opened(opened)));
    }
    for note in verdict.notes.iter().filter(|n| store.refused.is_empty() || n.matters_without_a_date()) {
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

/// Five years.
const LONGEST_DAYS: f64 = 5.0 * 365.0;

/// What the models say, as far as it may be shown.
fn range(verdict: &crate::shelf_life::Verdict) -> String {
    let days = |d: f64| match d {
        d if d < 1.0 => "less than a day".to_owned(),
        // Nothing is known of such times; a figure would look like knowledge.
        d if d > LONGEST_DAYS => "more than 5 years".to_owned(),
        d => in_words(d.floor() as u32),
    };
    let mut out = String::new();
    if let Some(growth) = &verdict.growth {
        if let Some(q05) = growth.q05_days {
            let to = growth.q95_days.map_or_else(String::new, |q95| format!(", 19 in 20 by {}", days(q95)));
            let half = growth.q50_days.map_or_else(String::new, |q50| format!(", half by {}", days(q50)));
            out.push_str(&wrapped("    ", &format!("growth model: 1 bottle in 20 spoiled by {}{half}{to}", days(q05))));
        } else {
            out.push_str("    growth model: fewer than 1 bottle in 20 would ever spoil\n");
        }
        if growth.p_no_growth >= 0.01 {
            let never = grouped(100.0 * growth.p_no_growth, 0);
            out.push_str(&format!("    in {never} of 100 simulated lots nothing ever grows\n"));
        }
    }
    if let Some(quality) = &verdict.quality {
        let (q10, q50) = (days(quality.q10_days), days(quality.q50_days));
        out.push_str(&wrapped("    ", &format!("quality ({}): 1 in 10 stale by {q10}, half by {q50}", quality.what)));
    }
    if let Some(ceiling) = verdict.ceiling_days {
        out.push_str(&format!("    ceiling: {}\n", days(ceiling)));
    }
    out
}

/// Its allergens, and of which ingredients nobody has said; `None` where there is nothing to say.
pub fn allergens(dated: &Assessment) -> Option<String> {
    let mut words: Vec<String> = dated.allergens.iter().map(|a| a.replace('_', " ")).collect();
    if !dated.allergens_open.is_empty() {
        words.push(format!("not stated for {}", dated.allergens_open.join(", ")));
    }
    words.extend(dated.allergens_doubted.iter().map(|question| format!("not stated: {question}")));
    (!words.is_empty()).then(|| words.join(", "))
}

/// Whose list each allergen stands on.
fn listed(dated: &Assessment) -> String {
    let line = |(allergen, markets): &(String, Vec<Market>)| {
        let on: Vec<&str> = markets.iter().map(|m| m.code()).collect();
        let on = if on.is_empty() { "no list of your market, tell who asks".to_owned() } else { on.join(", ") };
        wrapped("  ", &format!("{}: on the list of {on}", allergen.replace('_', " ")))
    };
    dated.listed_in.iter().map(line).collect()
}

/// What is said in full: what surely applies, and a stop even where it may not.
pub fn is_said_in_full(caution: &Caution) -> bool {
    caution.is_certain() || caution.severity == Level::Stop
}

/// The cautions that wait on something, by what is to be stated.
pub fn waiting(all: &[Caution]) -> Vec<(String, Vec<&Caution>)> {
    let mut groups: Vec<(String, Vec<&Caution>)> = Vec::new();
    for caution in all.iter().filter(|c| !is_said_in_full(c)) {
        let asked = caution.not_stated.join("; ");
        match groups.iter_mut().find(|(of, _)| *of == asked) {
            Some((_, group)) => group.push(caution),
            None => groups.push((asked, vec![caution])),
        }
    }
    groups
}

/// The cautions, most serious first; last those that wait on something that was not stated.
pub fn cautions(all: &[Caution]) -> String {
    if all.is_empty() {
        return "\nNo caution of the catalogue applies to what is stated.\n".to_owned();
    }
    let mut out = String::new();
    for caution in all.iter().filter(|c| is_said_in_full(c)) {
        if out.is_empty() {
            out.push_str("\nCautions\n");
        }
        // What must not be served is not to be overlooked.
        let word = match caution.severity {
            Level::Stop => Level::Stop.word().to_uppercase(),
            other => other.word().to_owned(),
        };
        out.push_str(&wrapped(&format!("  {word}  "), &caution.to_string()));
        out.push_str(&behind(caution));
    }
    let waiting = waiting(all);
    if !waiting.is_empty() {
        out.push_str("\nMay also apply, until it is stated:\n");
    }
    for (asked, group) in waiting {
        out.push_str(&wrapped("  - ", &asked));
        for caution in group {
            let stated = Caution { not_stated: Vec::new(), ..caution.clone() };
            out.push_str(&wrapped("        ", &stated.to_string()));
            out.push_str(&behind(caution));
        }
    }
    out
}

/// What must not be made or served as planned, a line each, to stand before everything else.
pub fn stops<'a>(stops: impl IntoIterator<Item = &'a Caution>) -> String {
    let lines = stops.into_iter().map(|c| wrapped(&format!("{}  ", Level::Stop.word().to_uppercase()), &c.to_string()));
    let all: String = lines.collect();
    if all.is_empty() { all } else { format!("\n{all}") }
}

/// Whom to ask, and where it stands.
fn behind(caution: &Caution) -> String {
    let mut behind = Vec::new();
    if !caution.defer_to.is_empty() {
        behind.push(format!("ask: {}", caution.defer_to));
    }
    if !caution.sources.is_empty() {
        behind.push(format!("source: {}", caution.sources.join("; ")));
    }
    if behind.is_empty() { String::new() } else { wrapped("        ", &behind.join(" · ")) }
}
