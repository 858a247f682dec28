//! What a card with room chose, in words.

use crate::report::solve::SolveView;
use crate::report::solve::room::{BoundView, RangeEnd, RoomView, TargetRangeView};
use crate::solver::target::{target_figure, target_words};

use super::super::table::wrapped;

/// The lines of the sheet; in full also how it was chosen. Nothing for a card without room.
pub(super) fn room(view: &SolveView, full: bool) -> String {
    let Some(room) = &view.room else { return String::new() };
    let comes_to = room.comes_to.clone();
    let aim = room.aim.iter().cloned().chain(comes_to).collect::<Vec<_>>().join(": ");
    let landed = room.targets.iter().map(range).chain(room.parts.iter().filter_map(bound));
    let without = (!room.without.is_empty()).then(|| format!("no {}", room.without.join(", no ")));
    let all: Vec<String> = [aim].into_iter().filter(|aim| !aim.is_empty()).chain(landed).chain(without).collect();
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
    room.how.iter().map(String::as_str).chain([room.ties]).collect::<Vec<_>>().join("; ")
}

fn binds(end: Option<RangeEnd>) -> &'static str {
    match end {
        Some(RangeEnd::Least) => ", the lower end decides",
        Some(RangeEnd::Most) => ", the upper end decides",
        None => "",
    }
}

fn range(range: &TargetRangeView) -> String {
    let (of, figure) = (range.of, |value| target_figure(range.of, value));
    let asked = match (range.least, range.most) {
        (Some(least), Some(most)) => format!("of {} to {}", figure(least), figure(most)),
        (Some(least), None) => format!("at least {}", figure(least)),
        (None, Some(most)) => format!("at most {}", figure(most)),
        (None, None) => String::new(),
    };
    let margin = match (range.binds, range.margin) {
        (None, _) => String::new(),
        (Some(_), Some(margin)) => format!("; {} inside it, for what cannot be told of a batch", figure(margin)),
        (Some(_), None) => "; on the very end: about every second batch lies beyond it".to_owned(),
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
