//! Every refusal of the solver in words that speaks of more than one part: what was asked for, what can be had, and what
//! limits it. A line is told by its index in the balance of a card's last stage: its parts in card order, behind them
//! the water that boils off.

pub(super) mod reach;
pub(crate) mod room;
pub(super) mod rules;

use crate::card::{Card, TargetKind};
use crate::diagnostic::{self, Code, Diagnostic, Span};
use crate::spelling::nearest;

use super::target::TargetValue;

/// The card has no part of this name; the parts that there are.
pub(crate) fn not_on_card<'a>(name: &str, parts: impl Iterator<Item = &'a str> + Clone) -> Diagnostic {
    let help = match nearest(name, parts.clone()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("its parts are: {}", parts.collect::<Vec<_>>().join(", ")),
    };
    Diagnostic::error(Code::UnknownIngredient, format!("the card uses no `{name}`")).help(help)
}

fn target_span(card: &Card, kind: TargetKind) -> Span {
    card.targets.iter().find(|t| t.kind == kind).map_or(card.name.span, |t| t.span)
}

/// What a line of the last stage is called, and where its amount stands: a part, or the water that boils off.
fn line_of(card: &Card, index: usize) -> (&str, Span) {
    let own = card.last.parts.get(index).map(|p| (p.label.value.as_str(), p.amount.span));
    own.unwrap_or(("evaporated", card.last.loss.evaporated_as_needed.unwrap_or(card.name.span)))
}

fn listed(card: &Card, lines: &[usize]) -> String {
    diagnostic::listed(lines.iter().map(|i| line_of(card, *i).0))
}

fn listed_are(card: &Card, lines: &[usize]) -> String {
    format!("{} {}", listed(card, lines), if lines.len() == 1 { "is" } else { "are" })
}

fn at_lines(diagnostic: Diagnostic, card: &Card, lines: &[usize], text: &str) -> Diagnostic {
    lines.iter().fold(diagnostic, |diagnostic, i| diagnostic.at(line_of(card, *i).1, text))
}

fn keys(targets: &[TargetValue]) -> String {
    targets.iter().map(|(kind, _)| kind.key()).collect::<Vec<_>>().join(" and ")
}
