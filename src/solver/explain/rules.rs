//! Too few rules, too many, or rules that do not tell the parts apart.

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic, Span};

use super::super::balance::BalanceError;
use super::super::target::{TargetValue, row, target_words};
use super::{at_lines, keys, line_of, listed, listed_are, target_span};

pub(super) fn stage(at: Span, why: &BalanceError) -> Diagnostic {
    let (code, title, help) = match why {
        BalanceError::NoDensity(_) | BalanceError::NoDensityFits => (
            Code::NoDensity,
            format!("the density of this stage cannot be computed ({why})"),
            "write its amounts by weight, without doses per litre",
        ),
        BalanceError::Negative(_) | BalanceError::Singular | BalanceError::Count { .. } => (
            Code::TooManyOpen,
            "the amounts of this stage do not add up".to_owned(),
            "give every part of a stage an amount, or all of them one ratio; doses and shares must leave room for a liquid",
        ),
    };
    Diagnostic::error(code, title).at(at, "this stage").help(help)
}

pub(super) fn engine(card: &Card, why: &BalanceError) -> Diagnostic {
    let at = |code, title: String| Diagnostic::error(code, title).at(card.name.span, "this card");
    match why {
        BalanceError::NoDensity(_) | BalanceError::NoDensityFits => {
            at(Code::NoDensity, format!("the density of the product cannot be computed ({why})")).help(
                "is there enough water or spirit in it? For what is no liquid give `makes` and all amounts by weight",
            )
        }
        BalanceError::Count { .. } | BalanceError::Singular | BalanceError::Negative(_) => {
            at(Code::TooManyOpen, "the rules of this card do not fit its open parts".to_owned())
        }
    }
}

pub(super) fn no_size(card: &Card, ratio: bool) -> Diagnostic {
    let title = match (ratio, card.last.loss.evaporated_as_needed) {
        (true, _) => "nothing says how much to make: the ratio gives the shares, not the size",
        (false, Some(place)) => {
            let title = "nothing says how far to boil it down: there is no target and no size";
            return Diagnostic::error(Code::NoSize, title)
                .at(place, "until what?")
                .help("say what it shall be, [target] brix = 42, or what shall be left, makes = \"300 g\"");
        }
        (false, None) => "nothing says how much to make: the targets give the shares, not the size",
    };
    let first = card.last.parts.first().map_or("white sugar", |p| p.label.value.as_str());
    Diagnostic::error(Code::NoSize, title).at(card.name.span, "this card").help(format!(
        "write above the first heading makes = \"1.5 L\", or \"2 kg\", or \"6 x 250 ml\"; \
             or ask for a size once: --make 1.5L, or --from \"{first}=3 kg\""
    ))
}

pub(super) fn not_the_whole(card: &Card) -> Diagnostic {
    let title = "every amount is a share of the batch, and together they are not all of it";
    let all: Vec<usize> = (0..card.last.parts.len()).collect();
    at_lines(Diagnostic::error(Code::NotTold, title), card, &all, "a share of the finished batch")
        .help("write \"as needed\" for the part that makes up the rest, often the water")
}

pub(super) fn too_few(
    card: &Card,
    open: &[usize],
    ratio: bool,
    rules: usize,
    has_size: bool,
    could_fix: &[TargetKind],
) -> Diagnostic {
    let unknowns = open.len() + usize::from(ratio);
    let size = (!has_size).then_some("makes = \"1 L\"");
    let choices: Vec<&str> = size.into_iter().chain(could_fix.iter().filter_map(|kind| row(*kind).offer)).collect();
    let ask = match unknowns.saturating_sub(rules) {
        1 => "one more rule is".to_owned(),
        missing => format!("{missing} more rules are"),
    };
    let diagnostic = Diagnostic::error(
        Code::TooManyOpen,
        format!(
            "{} left open{}; {rules} rule{} not enough to fix {}: {ask} needed",
            listed_are(card, open),
            if ratio { ", and the size of the ratio" } else { "" },
            if rules == 1 { " is" } else { "s are" },
            if unknowns == 1 { "it" } else { "them" },
        ),
    );
    let placed = match open {
        [] => diagnostic.at(card.name.span, "this card"),
        open => at_lines(diagnostic, card, open, "open"),
    };
    placed.help(format!("give one of them an amount (\"300 g\"), or add a rule: {}", choices.join(", or ")))
}

pub(super) fn target_missed(
    card: &Card,
    (kind, asked): TargetValue,
    gives: f64,
    open: &[usize],
    by: &[TargetKind],
) -> Diagnostic {
    let title = format!("these amounts give {}, not {}", target_words(kind, gives), target_words(kind, asked));
    let diagnostic = Diagnostic::error(Code::TargetMissed, title);
    if open.is_empty() {
        return diagnostic
            .at(target_span(card, kind), "this is not what the amounts make")
            .help("write \"as needed\" for the part that may change, or correct the target");
    }
    let by = if by.is_empty() { "the size".to_owned() } else { keys(by) };
    diagnostic
        .at(target_span(card, kind), format!("one target too many: {} found from {by}", listed_are(card, open)))
        .help("take this target out, or leave another part open that can bring it about: \"as needed\"")
}

pub(super) fn not_told(card: &Card, open: &[usize], by: &[TargetKind], same: Option<(usize, usize)>) -> Diagnostic {
    let title = match by {
        [] => format!("the size alone does not tell {} apart", listed(card, open)),
        by => format!("{} cannot be found from {}", listed(card, open), keys(by)),
    };
    at_lines(Diagnostic::error(Code::NotTold, title), card, open, "open").help(match same {
        Some((a, b)) => format!(
            "`{}` and `{}` are made of the same: give one of them an amount",
            line_of(card, a).0,
            line_of(card, b).0
        ),
        None => "a target must be something that an open part brings: sugar for brix, spirit for abv, acid for acid; \
                 give one of these parts an amount, or ask for a target that they do bring"
            .to_owned(),
    })
}
