//! Too few rules, too many, or rules that do not tell the parts apart.

use crate::card::{Amount, Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic};
use crate::input::key;
use crate::properties::amount_for;

use super::super::balance::{BalanceError, MassBalance};
use super::super::target::{TargetValue, row, target_words};
use super::{at_lines, keys, line_of, listed, listed_are, target_span};

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

pub(in super::super) fn no_size(card: &Card, ratio: bool) -> Diagnostic {
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
    // what is written stands in no ratio to what is open: a size of one of them is none of the other
    let written = card.last.parts.iter().find(|part| part.has_size());
    let open = card.last.parts.iter().find(|part| part.amount.value == Amount::AsNeeded);
    if let (Some(written), Some(open)) = (written, open) {
        let (written, open) = (&written.label.value, &open.label.value);
        let title =
            format!("how much of `{open}` goes in, nothing says: `{written}` has an amount and tells nothing of it");
        let all = card.stages.iter().any(|stage| stage.name.as_ref().is_some_and(|name| name.value == *open));
        let all = if all { " = \"all\" for what that stage gives," } else { " = \"300 g\"," };
        let help =
            format!("write {}{all} or above the first heading makes = \"1.5 L\"; or once: --make 1.5L", key(open));
        return Diagnostic::error(Code::NoSize, title).at(card.name.span, "this card").help(help);
    }
    let first = card.last.parts.first().map_or("white sugar", |p| p.label.value.as_str());
    Diagnostic::error(Code::NoSize, title).at(card.name.span, "this card").help(format!(
        "write above the first heading makes = \"1.5 L\", or \"2 kg\", or \"6 x 250 ml\"; \
             or ask for a size once: --make 1.5L, or --from \"{first}=3 kg\""
    ))
}

pub(in super::super) fn not_the_whole(card: &Card) -> Diagnostic {
    let title = "every amount is a share of the batch, and together they are not all of it";
    let all: Vec<usize> = (0..card.last.parts.len()).collect();
    at_lines(Diagnostic::error(Code::NotTold, title), card, &all, "a share of the finished batch")
        .help("write \"as needed\" for the part that makes up the rest, often the water")
}

/// More is open than there are targets: what there is, and what would fix it.
pub(in super::super) fn too_few(card: &Card, balance: &MassBalance<'_>, has_size: bool) -> Diagnostic {
    let (open, unknowns) = (balance.open(), balance.unknowns());
    let ratio = unknowns > open.len();
    let rules = balance.targets.len() + usize::from(has_size);
    let brings = |kind| balance.lines.iter().any(|l| amount_for(kind, &l.joins).abs() > 1e-6);
    let could_fix = |kind: &TargetKind| !balance.targets.iter().any(|(own, _)| own == kind) && brings(*kind);
    let offers = TargetKind::ALL.into_iter().filter(could_fix).filter_map(|kind| row(kind).offer);
    let choices: Vec<&str> = (!has_size).then_some("makes = \"1 L\"").into_iter().chain(offers).collect();
    let ask = match unknowns.saturating_sub(rules) {
        1 => "one more rule is".to_owned(),
        missing => format!("{missing} more rules are"),
    };
    let diagnostic = Diagnostic::error(
        Code::TooManyOpen,
        format!(
            "{} left open{}; {rules} rule{} not enough to fix {}: {ask} needed",
            listed_are(card, &open),
            if ratio { ", and the size of the ratio" } else { "" },
            if rules == 1 { " is" } else { "s are" },
            if unknowns == 1 { "it" } else { "them" },
        ),
    );
    let placed = match open.as_slice() {
        [] => diagnostic.at(card.name.span, "this card"),
        open => at_lines(diagnostic, card, open, "open"),
    };
    placed.help(format!("give one of them an amount (\"300 g\"), or add a rule: {}", choices.join(", or ")))
}

/// The amounts, with the targets before it, have decided a target already: over-determined.
pub(in super::super) fn target_missed(
    card: &Card,
    balance: &MassBalance<'_>,
    (kind, asked): TargetValue,
    gives: f64,
) -> Diagnostic {
    let open = balance.open();
    let title = format!("these amounts give {}, not {}", target_words(kind, gives), target_words(kind, asked));
    let diagnostic = Diagnostic::error(Code::TargetMissed, title);
    if open.is_empty() {
        return diagnostic
            .at(target_span(card, kind), "this is not what the amounts make")
            .help("write \"as needed\" for the part that may change, or correct the target");
    }
    let by = if balance.targets.is_empty() { "the size".to_owned() } else { keys(balance.targets) };
    diagnostic
        .at(target_span(card, kind), format!("one target too many: {} found from {by}", listed_are(card, &open)))
        .help("take this target out, or leave another part open that can bring it about: \"as needed\"")
}

/// The targets do not tell the open lines apart; two of them may be made of the same.
pub(super) fn not_told(card: &Card, balance: &MassBalance<'_>) -> Diagnostic {
    let open = balance.open();
    let alike = |a: usize, b: usize| {
        let (a, b) = (&balance.lines[a], &balance.lines[b]);
        a.joins == b.joins && a.keeps == b.keeps
    };
    let mut pairs = open.iter().enumerate().flat_map(|(n, &a)| open.iter().skip(n + 1).map(move |&b| (a, b)));
    let same = pairs.find(|&(a, b)| alike(a, b));
    let title = match balance.targets {
        [] => format!("the size alone does not tell {} apart", listed(card, &open)),
        by => format!("{} cannot be found from {}", listed(card, &open), keys(by)),
    };
    at_lines(Diagnostic::error(Code::NotTold, title), card, &open, "open").help(match same {
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
