//! What a card with room chose, in words.

use crate::report::solve::SolveView;
use crate::report::solve::room::{BoundView, RangeEnd, RoomView, TargetRangeView};
use crate::solver::target::{target_figure, target_words, target_written};

use super::super::table::wrapped;

/// The lines of the sheet; in full also how it was chosen. Nothing for a card without room.
pub(super) fn room(view: &SolveView, full: bool) -> String {
    let Some(room) = &view.room else { return String::new() };
    let comes_to = room.comes_to.clone();
    let aim = room.aim.iter().cloned().chain(comes_to).collect::<Vec<_>>().join(": ");
    let landed =
        room.targets.iter().map(|target| range(target, room.of_equals)).chain(room.parts.iter().filter_map(bound));
    let clear = room.no_more_stays_dissolved.then(|| "more sugar would not stay dissolved in its store".to_owned());
    let without = (!room.without.is_empty()).then(|| format!("no {}", room.without.join(", no ")));
    let all: Vec<String> =
        [aim].into_iter().filter(|aim| !aim.is_empty()).chain(landed).chain(clear).chain(without).collect();
    let mut out = wrapped("Aim: ", &all.join("; "));
    out.extend((!room.use_up.is_empty()).then(|| wrapped("  use up: ", &room.use_up.join("; "))));
    let more: Vec<String> = room.one_more_point.iter().map(one_more).collect();
    if !more.is_empty() {
        out.push_str(&wrapped("  ", &more.join("; ")));
    }
    if full {
        out.push_str(&wrapped("  ", &how(room)));
    }
    out
}

fn how(room: &RoomView) -> String {
    let equals = format!("of equal answers {}", room.of_equals);
    room.how.iter().cloned().chain([equals]).collect::<Vec<_>>().join("; ")
}

fn binds(end: Option<RangeEnd>) -> &'static str {
    match end {
        Some(RangeEnd::Least) => ", the lower end decides",
        Some(RangeEnd::Most) => ", the upper end decides",
        None => "",
    }
}

fn range(range: &TargetRangeView, of_equals: &str) -> String {
    let (of, written) = (range.of, |value: f64| target_written(range.of, value));
    let asked = match (range.least, range.most) {
        (Some(least), Some(most)) => format!("of {} to {}", written(least), written(most)),
        (Some(least), None) => format!("at least {}", written(least)),
        (None, Some(most)) => format!("at most {}", written(most)),
        (None, None) => String::new(),
    };
    // a margin that prints as nothing is none to speak of
    let told = |margin: &f64| target_figure(of, *margin) != target_figure(of, 0.0);
    let margin = match (range.binds, range.margin) {
        _ if range.is_tie => format!(", all of it as good: {of_equals}"),
        (None, _) => String::new(),
        (Some(_), Some(margin)) if told(&margin) => {
            format!("; it stays {} inside the end, as much as scale and labels may be off", target_figure(of, margin))
        }
        (Some(_), Some(_)) => String::new(),
        (Some(_), None) => {
            "; on the very end, for nothing leaves room inside it: about every second batch lies beyond it".to_owned()
        }
    };
    format!("{} ({asked}{}{margin})", target_words(of, range.value), binds(range.binds))
}

fn bound(part: &BoundView) -> Option<String> {
    match part.binds? {
        RangeEnd::Least => Some(format!("{}: no less than {} decides", part.of, part.at_least.as_ref()?)),
        RangeEnd::Most => Some(format!("{}: no more than {} decides", part.of, part.at_most.as_ref()?)),
    }
}

fn one_more(more: &crate::report::solve::room::OneMoreView) -> String {
    let verb = if more.adds.starts_with('-') { "saves" } else { "costs" };
    format!("{} more {verb} {}", target_words(more.of, more.step), more.adds.trim_start_matches('-'))
}
