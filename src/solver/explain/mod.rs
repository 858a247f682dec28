//! Every refusal of the solver in words: one place for all of them, a file a subject.

mod adjust;
mod parts;
mod reach;
mod rules;
mod size;
mod swap;

use std::fmt;

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Diagnostic, Span};

use super::balance::BalanceError;
use super::error::SolveError;

pub(super) use parts::unneeded;
pub(super) use size::yield_differs;

impl SolveError {
    /// What is said of it beside the card that it is about.
    pub(crate) fn diagnostic(&self, card: &Card) -> Diagnostic {
        match self {
            Self::Part { name, amount, error } => parts::part(name, *amount, error),
            Self::NotOnCard(name) => parts::not_on_card(name).at(card.name.span, "this card"),
            Self::NotAnAmount(name) => parts::not_an_amount(name).at(card.name.span, "this card"),
            Self::Stage(at, why) => rules::stage(*at, why),
            Self::NoSize { ratio } => rules::no_size(card, *ratio),
            Self::TooFewTargets { open, ratio, rules, has_size, could_fix } => {
                rules::too_few(card, open, *ratio, *rules, *has_size, could_fix)
            }
            Self::NotTheWhole => rules::not_the_whole(card),
            Self::TargetMissed { asked, gives, open, by } => rules::target_missed(card, *asked, *gives, open, by),
            Self::NotTold { open, by, same } => rules::not_told(card, open, by, *same),
            Self::Engine(why) => rules::engine(card, why),
            Self::NotBrought { asked, written } => reach::not_brought(card, *asked, *written),
            Self::OutOfReach { reach, others_held, strongest, in_the_way } => {
                reach::out_of_reach(card, reach, *others_held, *strongest, *in_the_way)
            }
            Self::Negative { short, written, in_the_way } => reach::negative(card, short, *written, *in_the_way),
            Self::ThinnerThanUnboiled(asked, unboiled) => reach::thinner_than_unboiled(card, *asked, *unboiled),
            Self::TooLittleWater => reach::too_little_water(card),
            Self::NoPh(asked, why) => reach::no_ph(card, *asked, why),
            Self::PhOutOfReach(asked, least, most) => reach::ph_out_of_reach(card, *asked, least, most),
            Self::NothingLeft(at) => size::nothing_left(*at),
            Self::Dry(at) => size::dry(*at),
            Self::NoVolume => size::no_volume(card.name.span),
        }
    }
}

impl fmt::Display for BalanceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count { unknowns, rules } => {
                write!(f, "{unknowns} amounts to find, and {rules} rules to find them by")
            }
            Self::Singular => f.write_str("its parts cannot be told apart by what they bring"),
            Self::Negative(_) => f.write_str("something would have to be taken out again"),
            Self::NoDensity(why) => f.write_str(&why.why),
            Self::NoDensityFits => f.write_str("no density between 750 and 1650 kg/m³ fits"),
        }
    }
}

fn target_span(card: &Card, kind: TargetKind) -> Span {
    card.targets.iter().find(|t| t.kind == kind).map_or(card.name.span, |t| t.span)
}

/// What a line of the last stage is called, and where its amount stands: a part, or the water that boils off.
fn line_of(card: &Card, index: usize) -> (&str, Span) {
    let own = card.last.parts.get(index).map(|p| (p.label.value.as_str(), p.amount.span));
    own.unwrap_or(("evaporated", card.last.loss.evaporated_as_needed.unwrap_or(card.name.span)))
}

/// The names of lines: "`a`, `b` and `c`".
fn listed(card: &Card, lines: &[usize]) -> String {
    let quoted: Vec<_> = lines.iter().map(|i| format!("`{}`", line_of(card, *i).0)).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => String::new(),
    }
}

fn listed_are(card: &Card, lines: &[usize]) -> String {
    format!("{} {}", listed(card, lines), if lines.len() == 1 { "is" } else { "are" })
}

/// A label at each of these lines.
fn at_lines(diagnostic: Diagnostic, card: &Card, lines: &[usize], text: &str) -> Diagnostic {
    lines.iter().fold(diagnostic, |diagnostic, i| diagnostic.at(line_of(card, *i).1, text))
}

fn keys(kinds: &[TargetKind]) -> String {
    kinds.iter().map(|kind| kind.key()).collect::<Vec<_>>().join(" and ")
}
