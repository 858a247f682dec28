//! Why a card with room has no answer, or not yet one: what is left open, what to give up, what came out beside its room.

use crate::card::{Amount, Card, Part, TargetKind, TargetRange};
use crate::diagnostic::{Code, Diagnostic};
use crate::units::display::grouped;
use crate::units::in_millilitres;

use super::super::balance::{MassBalance, MassRule};
use super::super::room::{Missed, MovedRule, NoRoom, Room, Rule};
use super::super::target::{rounded_into, row, target_figure, target_words};
use super::{at_lines, line_of, listed_are, rules, target_span};

/// A range as it is said: "18.0 to 20.0 % ABV", "at least 18.0 % ABV".
pub(crate) fn range_words(range: &TargetRange) -> String {
    let (kind, figure) = (range.kind, |value| target_figure(range.kind, value));
    match (range.least, range.most) {
        (Some(least), Some(most)) => format!("{} to {}", figure(least), target_words(kind, most)),
        (Some(least), None) => format!("at least {}", target_words(kind, least)),
        (None, Some(most)) => format!("at most {}", target_words(kind, most)),
        (None, None) => String::new(),
    }
}

/// There is room, and nothing says what is best.
pub(in super::super) fn not_chosen(card: &Card, balance: &MassBalance<'_>) -> Diagnostic {
    let open = balance.open();
    let title = format!("{} left open with room, and nothing says which answer is the best", listed_are(card, &open));
    let mut said = Diagnostic::error(Code::TooManyOpen, title);
    for range in &card.ranges {
        said = said.at(range.span, format!("anything of {}", range_words(range)));
    }
    let said = if card.ranges.is_empty() { at_lines(said, card, &open, "open") } else { said };
    let exact = card.ranges.first().map_or_else(String::new, |range| {
        let (kind, value) = (range.kind, middle(range));
        let figure = target_figure(kind, value);
        let unit = row(kind).offer.is_some_and(|offer| offer.contains('"'));
        let written = if unit { format!("\"{figure} g/L\"") } else { figure };
        format!("; or write one number: {} = {written}", kind.key())
    });
    said.help(format!(
        "write at the end of the card (or least = \"waste\", or most = \"life\"{exact})\n[aim]\nleast = \"cost\""
    ))
}

fn middle(range: &TargetRange) -> f64 {
    match (range.least, range.most) {
        (Some(least), Some(most)) => 0.5 * (least + most),
        (least, most) => least.or(most).unwrap_or_default(),
    }
}

/// Room that cannot be used: what misses the rules least, and what to give up.
pub(crate) fn no_room(card: &Card, room: &Room, why: &NoRoom) -> Vec<Diagnostic> {
    match why {
        NoRoom::Missed(missed) => {
            let moves: Vec<String> =
                room.moves(missed).iter().filter_map(|moved| move_words(card, room, moved)).collect();
            missed.iter().map(|one| give_up(card, room, one, &moves)).collect()
        }
        NoRoom::Crowded => {
            let title = "the amounts that are written and the size of the batch leave no room for the rest";
            let written: Vec<usize> = (0..card.last.parts.len()).filter(|i| !room.is_open(*i)).collect();
            vec![
                at_lines(Diagnostic::error(Code::OutOfReach, title), card, &written, "written")
                    .help("use less of what is written, or make more"),
            ]
        }
        NoRoom::Unbounded => vec![rules::no_size(card, false)],
        NoRoom::Engine(why) => vec![rules::engine(card, why)],
    }
}

/// What is to be written for a bound or a range, to let all others be met.
fn move_words(card: &Card, room: &Room, &MovedRule { rule, to }: &MovedRule) -> Option<String> {
    if let Some(bound) = room.bound_of(rule) {
        let part = card.last.parts.get(bound.line)?;
        let (key, written) = match bound.upper {
            true => ("at_most", part.bounds.at_most?),
            false => ("at_least", part.bounds.at_least?),
        };
        // in the unit that it is written in
        let (amount, unit) = match (written.value, bound.rule) {
            (Amount::Volume(volume), MassRule::Fixed(g)) if g > 0.0 => (to * in_millilitres(volume) / g, "ml"),
            _ => (to, "g"),
        };
        let whole = if bound.upper { (amount - ROUNDING).ceil() } else { (amount + ROUNDING).floor() };
        return Some(format!("{key} = \"{} {unit}\" for `{}`", grouped(whole, 0), part.label.value));
    }
    let Rule::End(i, upper) = rule else { return None };
    let range = room.ranges.get(i)?;
    // one that the program laid itself is none of the card
    card.ranges.iter().find(|written| written.span == range.span && written.kind == range.kind)?;
    // as it is printed it holds
    let to = Some(rounded_into(range.kind, to, !upper));
    let wider = if upper { TargetRange { most: to, ..*range } } else { TargetRange { least: to, ..*range } };
    Some(format!("a range of {}", range_words(&wider)))
}

/// What rounding leaves of a whole gram or millilitre.
const ROUNDING: f64 = 1e-6;

/// The bounds and ranges of which one is to be moved; where none is enough by itself, `else_say`.
fn or_move(moves: &[String], else_say: &str) -> String {
    match moves {
        [] => format!(", {else_say}"),
        moves => format!("; or write {}", moves.join(", or ")),
    }
}

fn give_up(card: &Card, room: &Room, &Missed { rule, reaches, by }: &Missed, moves: &[String]) -> Diagnostic {
    let said = |title: String| Diagnostic::error(Code::OutOfReach, title);
    if let Rule::Bound(i) = rule
        && let Some(bound) = room.bounds.get(i)
    {
        let (name, span) = line_of(card, bound.line);
        let (word, key, allowed) =
            if bound.upper { ("at most", "at_most", reaches - by) } else { ("at least", "at_least", reaches + by) };
        let (g, allowed) = (grouped(reaches, 1), grouped(allowed, 1));
        return said(format!("`{name}`: {word} {allowed} g is allowed, and the other rules need {g} g"))
            .at(span, format!("{g} g come nearest to all rules together"))
            .help(format!("give way here, {key} = \"{g} g\"{}", or_move(moves, "or widen a range")));
    }
    let Some((kind, asked)) = room.target_of(rule) else {
        return said("these rules cannot be met together".to_owned());
    };
    let (at, upper) = match rule {
        Rule::End(i, upper) => (room.ranges.get(i).map_or(card.name.span, |range| range.span), upper),
        _ => (target_span(card, kind), reaches > asked),
    };
    let reach = if upper { "cannot go below" } else { "reach at most" };
    let off = match kind {
        TargetKind::Sugar | TargetKind::Acid => target_words(kind, by),
        _ => format!("{} points of {}", target_figure(kind, by), kind.key()),
    };
    said(format!("{} cannot be had together with the rest", target_words(kind, asked)))
        .at(at, format!("these parts {reach} {}", target_words(kind, reaches)))
        .help(format!(
            "give up {off}{}, or bring a part that has more room",
            or_move(moves, "or more than one other range or bound")
        ))
}

/// A range that what came out does not lie in.
pub(in super::super) fn outside(card: &Card, range: &TargetRange, gives: f64) -> Diagnostic {
    let title = format!("this gives {}, not {}", target_words(range.kind, gives), range_words(range));
    Diagnostic::error(Code::TargetMissed, title)
        .at(range.span, "all other rules decide it already")
        .at(card.name.span, "this card")
        .help("write \"as needed\" for a part that may change, or widen the range")
}

/// A part that has more or less than its bounds.
pub(in super::super) fn beyond(card: &Card, part: &Part, gives_g: f64, bounds: [Option<f64>; 2]) -> Diagnostic {
    let grams = |g: f64| format!("{} g", grouped(g, 1));
    let said = match bounds {
        [Some(least), _] if gives_g < least => format!("at least {}", grams(least)),
        [_, Some(most)] => format!("at most {}", grams(most)),
        _ => String::new(),
    };
    let title = format!("`{}` comes to {}; {said} is allowed", part.label.value, grams(gives_g));
    let span = part.bounds.at_least.or(part.bounds.at_most).map_or(card.name.span, |bound| bound.span);
    Diagnostic::error(Code::TargetMissed, title)
        .at(span, "all other rules decide it already")
        .help("widen the bound, give a target room, or leave another part open: \"as needed\"")
}
