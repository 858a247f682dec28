//! Why a card cannot be met, in words: which target, what range its parts reach, which part limits it.

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::formula::{Formula, TargetKind};
use crate::mixture::acidity::ph::NoPh;

use super::balance::{Balance, Goal, Line, Rule, Trouble};
use super::card::goal_words;
use super::ph::{self, NoMasses};
use super::reach::{self, End};

/// How far a target may lie from what fixed amounts give before it is a finding (common practice,
/// no source: about what a kitchen can tell).
pub fn agrees(kind: TargetKind, asked: f64, gives: f64) -> bool {
    let within = match kind {
        TargetKind::Brix => 0.5,
        TargetKind::Abv => 0.3,
        TargetKind::Sugar => 0.02 * asked,
        TargetKind::Acid => 0.05 * asked,
        TargetKind::Ph => 0.1,
    };
    (asked - gives).abs() <= within
}

/// A yield may be this far above what the parts can make (rounding of a card), common practice, no source.
const YIELD_ROUNDING: f64 = 0.02;
/// Losses that a card does not state may take this much before it is worth a note.
const UNSTATED_LOSS: f64 = 0.15;

fn goal_span(card: &Formula, kind: TargetKind) -> Span {
    card.targets.iter().find(|t| t.kind == kind).map_or(card.name.span, |t| t.span)
}

fn listed(names: &[&str]) -> String {
    let quoted: Vec<_> = names.iter().map(|n| format!("`{n}`")).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => String::new(),
    }
}

/// What is wrong with an early stage.
pub fn stage_trouble(trouble: &Trouble, span: Span) -> Diagnostic {
    match trouble {
        Trouble::NoDensity(why) => {
            Diagnostic::error(Code::NoDensity, format!("the density of this stage cannot be computed ({why})"))
                .at(span, "this stage")
                .help("write its amounts by weight, without doses per litre")
        }
        Trouble::Negative(_) | Trouble::Singular | Trouble::Count { .. } => {
            Diagnostic::error(Code::TooManyOpen, "the amounts of this stage do not add up")
                .at(span, "this stage")
                .help("give every part of a stage an amount, or all of them one ratio; doses and shares must leave room for a liquid")
        }
    }
}

/// The card could be solved for any size, and states none.
pub fn no_size(card: &Formula, ratio: bool) -> Diagnostic {
    let what = if ratio {
        "the ratio fixes the shares but not how much"
    } else {
        "the targets fix the shares but not how much"
    };
    Diagnostic::error(Code::NoSize, format!("how much to make is not said: {what}"))
        .at(card.name.span, "this card")
        .help("add makes = \"1 L\" (or \"6 x 250 ml\", or a weight), or ask for a size: --make 1L, or --from \"white sugar=3 kg\"")
}

/// More parts are open than there are targets.
pub fn too_few_rules(card: &Formula, lines: &[Line], goals: &[Goal], has_size: bool) -> Diagnostic {
    let open: Vec<_> =
        card.last.parts.iter().zip(lines).filter(|(_, l)| l.rule == Rule::Open).map(|(p, _)| p).collect();
    let names: Vec<_> = open.iter().map(|p| p.label.value.as_str()).collect();
    let ratio = lines.iter().any(|l| matches!(l.rule, Rule::Ratio(_)));
    let unknowns = open.len() + usize::from(ratio);
    let rules = goals.len() + usize::from(has_size);
    let missing = unknowns.saturating_sub(rules);
    let mut choices: Vec<String> = Vec::new();
    if !has_size {
        choices.push("makes = \"1 L\"".to_owned());
    }
    let brings = |kind: TargetKind| lines.iter().any(|l| super::balance::amount_for(kind, &l.joins).abs() > 1e-6);
    let offers = [
        (TargetKind::Brix, "brix = 50"),
        (TargetKind::Abv, "abv = 18"),
        (TargetKind::Sugar, "sugar = \"250 g/L\""),
        (TargetKind::Acid, "acid = \"4 g/L\""),
    ];
    for (kind, offer) in offers {
        if !goals.iter().any(|(k, _)| *k == kind) && brings(kind) {
            choices.push(offer.to_owned());
        }
    }
    let ask = if missing == 1 { "one more rule is".to_owned() } else { format!("{missing} more rules are") };
    let also = if ratio { ", and the size of the ratio" } else { "" };
    let mut diagnostic = Diagnostic::error(
        Code::TooManyOpen,
        format!(
            "{} left open{also}, but only {rules} rule{} can fix them: {ask} needed",
            listed(&names),
            if rules == 1 { "" } else { "s" }
        ),
    );
    for part in &open {
        diagnostic = diagnostic.at(part.amount.span, "open");
    }
    if open.is_empty() {
        diagnostic = diagnostic.at(card.name.span, "this card");
    }
    diagnostic.help(format!("give one of them an amount (\"300 g\"), or add a rule: {}", choices.join(", or ")))
}

/// A target that fixed amounts have decided already.
pub fn goal_differs(card: &Formula, kind: TargetKind, asked: f64, gives: f64) -> Option<Diagnostic> {
    if agrees(kind, asked, gives) {
        return None;
    }
    Some(
        Diagnostic::error(
            Code::TargetMissed,
            format!("these amounts give {}, not {}", goal_words(kind, gives), goal_words(kind, asked)),
        )
        .at(goal_span(card, kind), "this is not what the amounts make")
        .help("write \"as needed\" for the part that may change, or correct the target"),
    )
}

/// A yield that the amounts do not make.
pub fn yield_differs(span: Span, asked: f64, gives: f64, unit: &str) -> Option<Diagnostic> {
    let over = asked / gives - 1.0;
    let said = format!("the amounts make {gives:.0} {unit}, the card says {asked:.0} {unit}");
    if over > YIELD_ROUNDING {
        Some(
            Diagnostic::error(Code::YieldImpossible, said)
                .at(span, format!("{:.0} % more than goes in can make", 100.0 * over))
                .help("volumes of sugar and spirit do not simply add up: correct `makes`, or leave it out and take what the amounts give"),
        )
    } else if over < -YIELD_ROUNDING {
        let note = if -over > UNSTATED_LOSS { Diagnostic::warning } else { Diagnostic::note };
        Some(
            note(Code::YieldLower, said)
                .at(span, format!("{:.0} % of the batch is not accounted for", -100.0 * over))
                .help(
                    "if that much is lost on the way, say where: [loss] left_behind = \"2 %\" or evaporated = \"5 %\"",
                ),
        )
    } else {
        None
    }
}

/// The batch has no volume that can be computed.
pub fn no_volume(span: Span) -> Diagnostic {
    Diagnostic::error(Code::NoDensity, "this batch cannot be brought to that volume: its density cannot be computed")
        .at(span, "this card")
        .help("ask for a weight instead (--make \"1 kg\")")
}

/// Why the last stage has no answer.
pub fn trouble(card: &Formula, balance: &Balance<'_>, trouble: &Trouble) -> Vec<Diagnostic> {
    match trouble {
        Trouble::NoDensity(why) => vec![
            Diagnostic::error(Code::NoDensity, format!("the density of the product cannot be computed ({why})"))
                .at(card.name.span, "this card")
                .help("give `makes` as a weight, and amounts by weight without doses per litre"),
        ],
        Trouble::Count { .. } => vec![
            Diagnostic::error(Code::TooManyOpen, "the rules of this card do not fit its open parts")
                .at(card.name.span, "this card"),
        ],
        Trouble::Singular => vec![alike(card, balance)],
        Trouble::Negative(short) => out_of_reach(card, balance, short),
    }
}

/// Why no masses give the pH that is asked for.
pub fn no_ph_masses(card: &Formula, balance: &Balance<'_>, index: usize, why: &NoMasses) -> Vec<Diagnostic> {
    let asked = balance.goals.get(index).map_or(f64::NAN, |g| g.1);
    match why {
        NoMasses::Others(lines, goals, why) => trouble(card, &Balance { lines, goals, ..balance.clone() }, why),
        NoMasses::NoPh(why) => vec![no_ph(card, asked, why)],
        NoMasses::OutOfReach(least, most) => vec![ph_out_of_reach(card, asked, least, most)],
    }
}

/// A pH that cannot be computed cannot be aimed at.
pub fn no_ph(card: &Formula, asked: f64, why: &NoPh) -> Diagnostic {
    Diagnostic::error(Code::PropertyUnknown, format!("{} cannot be aimed at: {why}", goal_words(TargetKind::Ph, asked)))
        .at(goal_span(card, TargetKind::Ph), "no pH can be computed for this product")
        .help(
            "aim at titratable acid instead (acid = \"6 g/L\"), measure the pH of the finished batch with a meter, \
             and note it under [measured]",
        )
}

fn ph_out_of_reach(card: &Formula, asked: f64, least: &ph::End, most: &ph::End) -> Diagnostic {
    let name = |i: usize| card.last.parts.get(i).map_or("?", |p| p.label.value.as_str());
    let words = |end: &ph::End| match &end.ph {
        Ok(ph) => goal_words(TargetKind::Ph, *ph),
        Err(why) => format!("no pH ({why})"),
    };
    // The end that is nearer to what was asked, and there the part that stands at zero.
    let off = |end: &ph::End| end.ph.as_ref().map_or(f64::INFINITY, |ph| (ph - asked).abs());
    let near = if off(most) <= off(least) { most } else { least };
    let limit = match near.without {
        Some(part) => format!("at {} there is no `{}` left to take away", words(near), name(part)),
        None => format!("{} is as far as more of it goes", words(near)),
    };
    let sourer = near.ph.as_ref().is_ok_and(|ph| *ph > asked);
    Diagnostic::error(
        Code::OutOfReach,
        format!(
            "{} cannot be reached: these parts reach {} to {}",
            goal_words(TargetKind::Ph, asked),
            words(most),
            words(least)
        ),
    )
    .at(goal_span(card, TargetKind::Ph), limit)
    .help(if sourer {
        "take a stronger acid or less of what buffers it (juice, minerals), or ask for a higher pH"
    } else {
        "what is written already is sourer than that: take less of it, or ask for a lower pH"
    })
}

/// The targets do not tell the open parts apart.
fn alike(card: &Formula, balance: &Balance<'_>) -> Diagnostic {
    let open: Vec<_> =
        card.last.parts.iter().zip(balance.lines).filter(|(_, l)| l.rule == Rule::Open).map(|(p, _)| p).collect();
    let names: Vec<_> = open.iter().map(|p| p.label.value.as_str()).collect();
    let kinds: Vec<_> = balance.goals.iter().map(|(k, _)| k.key()).collect();
    let said = if kinds.is_empty() {
        format!("the size alone does not tell {} apart", listed(&names))
    } else {
        format!("{} cannot be found from {}", listed(&names), kinds.join(" and "))
    };
    let mut diagnostic = Diagnostic::error(Code::NotTold, said);
    for part in open {
        diagnostic = diagnostic.at(part.amount.span, "open");
    }
    diagnostic.help(
        "a target must be something that an open part brings (sugar for brix, spirit for abv, acid for acid), \
         and two parts of the same make-up cannot both be open",
    )
}

/// A target outside what the parts reach.
fn out_of_reach(card: &Formula, balance: &Balance<'_>, short: &[usize]) -> Vec<Diagnostic> {
    let name = |i: usize| card.last.parts.get(i).map_or("?", |p| p.label.value.as_str());
    let mut all = Vec::new();
    for (index, &(kind, asked)) in balance.goals.iter().enumerate() {
        let Some(reach) = reach::of_goal(balance, index) else { continue };
        let inside = asked >= reach.low.value && asked <= reach.high.value;
        if inside {
            continue;
        }
        let end: End = if asked > reach.high.value { reach.high } else { reach.low };
        let with = if balance.goals.len() > 1 { ", with the other targets held" } else { "" };
        let mut title = format!(
            "{} cannot be reached: these parts reach {} to {}{with}",
            goal_words(kind, asked),
            goal_words(kind, reach.low.value),
            goal_words(kind, reach.high.value)
        );
        if let Some((part, value)) = reach::strongest(balance, index).filter(|_| asked > reach.high.value) {
            title.push_str(&format!("; strongest part: `{}`, {}", name(part), goal_words(kind, value)));
        }
        let diagnostic = Diagnostic::error(Code::OutOfReach, title)
            .at(
                goal_span(card, kind),
                format!("at {} there is no `{}` left to take away", goal_words(kind, end.value), name(end.without)),
            )
            .help(if asked > reach.high.value {
                "take a stronger part, or ask for less"
            } else {
                "thin it with another part, take a weaker one, or ask for more"
            });
        all.push(diagnostic);
    }
    if all.is_empty() {
        let names: Vec<_> = short.iter().map(|&i| name(i)).collect();
        let fixed = balance.lines.iter().any(|l| matches!(l.rule, Rule::Fixed(g) if g > 0.0));
        let mut diagnostic =
            Diagnostic::error(Code::OutOfReach, format!("the card asks for less than nothing of {}", listed(&names)));
        for &i in short {
            if let Some(part) = card.last.parts.get(i) {
                diagnostic = diagnostic.at(part.amount.span, "would have to be taken out again");
            }
        }
        all.push(diagnostic.help(if fixed {
            "the amounts that are written already bring more than the targets and the size allow: make more, or lower them"
        } else {
            "these targets contradict each other with these parts: change one of them, or add a part that brings what is missing"
        }));
    }
    all
}
