//! A batch that does not become as large as is asked.

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::units::display::grouped;

/// A yield may be this far above what the parts can make (rounding of a card), common practice, no source.
const YIELD_ROUNDING: f64 = 0.02;
/// Losses that a card does not state may take this much before it is worth a note.
const UNSTATED_LOSS: f64 = 0.15;

/// A yield that the amounts do not make: an error where it is more than they can, a note where it is less.
pub(in super::super) fn yield_differs(span: Span, asked: f64, gives: f64, unit: &str) -> Option<Diagnostic> {
    let over = asked / gives - 1.0;
    if over.is_nan() || over.abs() <= YIELD_ROUNDING {
        return None;
    }
    let said = format!("the amounts make {} {unit}, the card says {} {unit}", grouped(gives, 0), grouped(asked, 0));
    let said_of = |note: fn(Code, String) -> Diagnostic, code| note(code, said.clone());
    Some(match over {
        over if over > 0.0 => said_of(Diagnostic::error, Code::YieldImpossible)
            .at(span, format!("{:.0} % more than these parts can make", 100.0 * over))
            .help("volumes of sugar and spirit do not simply add up: correct `makes`, or leave it out and take what the amounts give"),
        over => said_of(if -over > UNSTATED_LOSS { Diagnostic::warning } else { Diagnostic::note }, Code::YieldLower)
            .at(span, format!("{:.0} % of the batch is not accounted for", -100.0 * over))
            .help("if that much is lost on the way, say where: [loss] left_behind = \"2 %\" or evaporated = \"5 %\""),
    })
}

pub(super) fn dry(span: Span) -> Diagnostic {
    Diagnostic::error(Code::YieldImpossible, "these parts make something dry, and the card asks for a volume of it")
        .at(span, "a volume")
        .help("add the liquid that is missing, or ask for a weight (makes = \"500 g\")")
}

pub(super) fn no_volume(span: Span) -> Diagnostic {
    Diagnostic::error(Code::NoDensity, "this batch cannot be brought to that volume: its density cannot be computed")
        .at(span, "this card")
        .help("ask for a weight instead (--make \"1 kg\")")
}

pub(super) fn nothing_left(span: Span) -> Diagnostic {
    Diagnostic::error(Code::NothingLeft, "nothing is left to bottle: the strained solids would keep all of the liquid")
        .at(span, "these amounts")
        .help("use more liquid or fewer solids, or correct `holds`")
}
