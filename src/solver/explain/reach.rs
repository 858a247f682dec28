//! From a refusal of the engine to its reasons: which target, what range the parts reach, which part limits it.

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic};
use crate::mixture::acidity::ph::NoPh;
use crate::properties::amount_for;
use crate::units::display::grouped;

use super::super::balance::{BalanceError, BalanceLine, MassBalance, MassRule};
use super::super::reach::{InTheWay, Reach, ReachLimit, in_the_way, of_target, strongest};
use super::super::target::{TargetValue, row, target_figure, target_words};
use super::{at_lines, line_of, listed, rules, target_span};

/// Why there is no answer, in words; with the range, where a target lies outside it.
#[derive(Clone, Debug)]
pub struct SolveError {
    /// What is said of it.
    pub said: Diagnostic,
    /// What can be reached of the target that it is about.
    pub reach: Option<Reach>,
}

impl From<Diagnostic> for SolveError {
    fn from(said: Diagnostic) -> Self {
        Self { said, reach: None }
    }
}

/// The reasons for which a balance has no answer. `boils` is the line of the water that boils off, if there is one.
pub(in super::super) fn reasons(
    card: &Card,
    balance: &MassBalance<'_>,
    boils: Option<usize>,
    why: BalanceError,
) -> Vec<SolveError> {
    match why {
        BalanceError::Singular => {
            let said = not_brought(card, balance).unwrap_or_else(|| rules::not_told(card, balance));
            vec![said.into()]
        }
        BalanceError::Negative(short) => out_of_reach(card, balance, boils, &short),
        other => vec![rules::engine(card, &other).into()],
    }
}

/// Targets outside what the parts reach; where none is, what would have to be less than nothing.
fn out_of_reach(card: &Card, balance: &MassBalance<'_>, boils: Option<usize>, short: &[usize]) -> Vec<SolveError> {
    let reaches = || (0..balance.targets.len()).filter_map(|index| Some((index, of_target(balance, index)?)));
    if let (&[asked], &[part], Some(boils)) = (balance.targets, short, boils)
        && part == boils
        && let Some((_, unboiled)) = reaches().find(|(_, r)| r.near.limit == ReachLimit::Without(boils))
    {
        return vec![thinner_than_unboiled(card, asked, unboiled.near.value).into()];
    }
    let in_the_way = in_the_way(balance, short);
    let outside = reaches().map(|(index, reach)| {
        let strongest = strongest(balance, index).filter(|_| reach.too_high());
        let said = outside(card, &reach, balance.targets.len() > 1, strongest, in_the_way);
        SolveError { said, reach: Some(reach) }
    });
    let mut all: Vec<SolveError> = outside.collect();
    if all.is_empty() {
        let written = balance.lines.iter().any(|l| matches!(l.rule, MassRule::Fixed(g) if g > 0.0));
        all.push(negative(card, short, written, in_the_way).into());
    }
    all
}

/// A target that no open line brings; a line with a written amount may bring it.
fn not_brought(card: &Card, balance: &MassBalance<'_>) -> Option<Diagnostic> {
    let brings = |kind, line: &BalanceLine| amount_for(kind, &line.joins) > 1e-9;
    let open_brings = |kind| balance.lines.iter().any(|l| l.rule == MassRule::Open && brings(kind, l));
    let (kind, asked) = *balance.targets.iter().find(|(kind, asked)| *asked > 0.0 && !open_brings(*kind))?;
    if kind == TargetKind::Ph {
        return None;
    }
    let written = balance.lines.iter().position(|line| brings(kind, line));
    let (what, at) = (row(kind).brings, target_span(card, kind));
    let diagnostic = |title: String| Diagnostic::error(Code::OutOfReach, title);
    Some(match written.map(|i| line_of(card, i)) {
        Some((name, place)) => {
            diagnostic(format!("`{}` cannot be met by what is open: no open part brings {what}", kind.key()))
                .at(at, "set by the amounts that are written")
                .at(place, format!("brings {what}"))
                .help(format!("write \"as needed\" for `{name}`, or take the target `{}` out", kind.key()))
        }
        None => {
            diagnostic(format!("{} cannot be reached: no part of this card brings {what}", target_words(kind, asked)))
                .at(at, "nothing to reach it with")
                .help(format!("add {} as a part, or take this target out", row(kind).for_example))
        }
    })
}

fn thinner_than_unboiled(card: &Card, (kind, asked): TargetValue, unboiled: f64) -> Diagnostic {
    let title = format!(
        "{} cannot be reached by boiling down: the batch has {} before any water goes up",
        target_words(kind, asked),
        target_words(kind, unboiled)
    );
    Diagnostic::error(Code::OutOfReach, title)
        .at(target_span(card, kind), "thinner than what goes into the pan")
        .at(
            card.last.loss.evaporated_as_needed.unwrap_or(card.name.span),
            "water would have to be added, not taken away",
        )
        .help("ask for more, or add water = \"as needed\" and leave `evaporated` out")
}

pub(in super::super) fn too_little_water(card: &Card) -> Diagnostic {
    let place = card.last.loss.evaporated_as_needed.unwrap_or(card.name.span);
    Diagnostic::error(Code::OutOfReach, "there is not enough water in these parts to boil off")
        .at(place, "all of it would have to go, and more")
        .help("ask for less: no syrup is boiled down to nothing but its solids")
}

fn of_what_is_in_the_way(card: &Card, InTheWay { part, now_g, most_g }: InTheWay) -> String {
    format!(
        "`{}` is in the way: at most {} g of it leaves room for the rest, the card has {} g; use less of it, or make more",
        line_of(card, part).0,
        grouped(most_g, 0),
        grouped(now_g, 0)
    )
}

fn outside(
    card: &Card,
    reach: &Reach,
    others_held: bool,
    strongest: Option<(usize, f64)>,
    in_the_way: Option<InTheWay>,
) -> Diagnostic {
    let (kind, asked) = reach.asked;
    let (near, far) = reach.said();
    let words = target_words(kind, near);
    let range = match (far, reach.too_high()) {
        (Some(far), true) if far < near => format!("{} to {words}", target_figure(kind, far)),
        (Some(far), false) if near < far => format!("{} to {}", target_figure(kind, near), target_words(kind, far)),
        (_, true) => format!("at most {words}"),
        (_, false) => format!("at least {words}"),
    };
    let with = if others_held { " with the other targets held" } else { "" };
    let mut title = format!("{} cannot be reached: these parts reach {range}{with}", target_words(kind, asked));
    if let Some((part, value)) = strongest {
        title.push_str(&format!("; strongest part: `{}`, {}", line_of(card, part).0, target_words(kind, value)));
    }
    let limit = match reach.near.limit {
        ReachLimit::Without(part) => format!("at {words} there is no `{}` left to take away", line_of(card, part).0),
        ReachLimit::NoLiquid => format!("beyond {words} there is too little water for a liquid"),
    };
    Diagnostic::error(Code::OutOfReach, title).at(target_span(card, kind), limit).help(match in_the_way {
        Some(part) => of_what_is_in_the_way(card, part),
        None if !reach.too_high() => "thin it with another part, take a weaker one, or ask for more".to_owned(),
        None if reach.near.limit == ReachLimit::NoLiquid => "ask for less".to_owned(),
        None => "take a stronger part, or ask for less".to_owned(),
    })
}

fn negative(card: &Card, short: &[usize], written: bool, in_the_way: Option<InTheWay>) -> Diagnostic {
    let title = format!("the card asks for less than nothing of {}", listed(card, short));
    let diagnostic = Diagnostic::error(Code::OutOfReach, title);
    at_lines(diagnostic, card, short, "would have to be taken out again").help(match in_the_way {
        Some(part) => of_what_is_in_the_way(card, part),
        None if written => "the amounts that are written bring more than the targets and the size allow: make more, or use less of them".to_owned(),
        None => "these targets contradict each other with these parts: change one of them, or add a part that brings what is missing".to_owned(),
    })
}

pub(in super::super) fn no_ph(card: &Card, asked: f64, why: &NoPh) -> Diagnostic {
    let title = format!("{} cannot be aimed at: {why}", target_words(TargetKind::Ph, asked));
    Diagnostic::error(Code::PropertyUnknown, title)
        .at(target_span(card, TargetKind::Ph), "no pH can be computed for this product")
        .help(
            "aim at titratable acid instead (acid = \"6 g/L\"), measure the pH of the finished batch with a meter, \
             and note it under [measured]",
        )
}

/// One end of what parts can reach in pH: the pH there, if there is one, and the part (index) that stands at zero there;
/// `None` where nothing but patience limits it.
pub(in super::super) type PhEnd = (Result<f64, NoPh>, Option<usize>);

/// A pH outside what the parts reach: what was asked, with the least of the acid part, with the most.
pub(in super::super) fn ph_out_of_reach(card: &Card, asked: f64, least: &PhEnd, most: &PhEnd) -> Diagnostic {
    let words = |end: &PhEnd| match &end.0 {
        Ok(ph) => target_words(TargetKind::Ph, *ph),
        Err(why) => format!("no pH ({why})"),
    };
    // The end that is nearer to what was asked, and there the part that stands at zero.
    let off = |end: &PhEnd| end.0.as_ref().map_or(f64::INFINITY, |ph| (ph - asked).abs());
    let near = if off(most) <= off(least) { most } else { least };
    let limit = match near.1 {
        Some(part) => format!("at {} there is no `{}` left to take away", words(near), line_of(card, part).0),
        None => format!("{} is as far as more of it goes", words(near)),
    };
    let sourer = near.0.as_ref().is_ok_and(|ph| *ph > asked);
    // Without its acid a batch has no pH that can be given: then one end is all there is to say.
    let range = match (&most.0, &least.0) {
        (Ok(_), Ok(_)) => format!("{} to {}", words(most), words(least)),
        _ if sourer => format!("{} at the lowest", words(near)),
        _ => format!("{} at the highest", words(near)),
    };
    let title = format!("{} cannot be reached: these parts reach {range}", target_words(TargetKind::Ph, asked));
    Diagnostic::error(Code::OutOfReach, title).at(target_span(card, TargetKind::Ph), limit).help(if sourer {
        "take a stronger acid or less of what buffers it (juice, minerals), or ask for a higher pH"
    } else {
        "what is written already is sourer than that: take less of it, or ask for a lower pH"
    })
}
