//! Why a card cannot be met, in words: which target, what range its parts reach, which part limits it.

use crate::card::{Card, TargetKind};
use crate::diagnostic::{Code, Diagnostic, Span};
use crate::mixture::acidity::ph::NoPh;

use crate::units::display::grouped;

use super::balance::{BalanceError, BalanceLine, MassBalance, MassRule, TargetValue, amount_for};
use super::card::{target_figure, target_words};
use super::ph::{self, NoMasses};
use super::reach::{self, ReachEnd};

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

fn target_span(card: &Card, kind: TargetKind) -> Span {
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

/// What a line of the last stage is called, and where its amount stands: a part, or the water that boils off.
fn line_of(card: &Card, index: usize) -> (&str, Span) {
    let own = card.last.parts.get(index).map(|p| (p.label.value.as_str(), p.amount.span));
    own.unwrap_or(("evaporated", card.last.loss.evaporated_as_needed.unwrap_or(card.name.span)))
}

/// Names and places of what is open.
fn open_lines<'a>(card: &'a Card, lines: &[BalanceLine]) -> Vec<(&'a str, Span)> {
    lines.iter().enumerate().filter(|(_, l)| l.rule == MassRule::Open).map(|(i, _)| line_of(card, i)).collect()
}

/// What is wrong with an early stage.
pub fn stage_trouble(trouble: &BalanceError, span: Span) -> Diagnostic {
    match trouble {
        BalanceError::NoDensity(why) => {
            Diagnostic::error(Code::NoDensity, format!("the density of this stage cannot be computed ({why})"))
                .at(span, "this stage")
                .help("write its amounts by weight, without doses per litre")
        }
        BalanceError::Negative(_) | BalanceError::Singular | BalanceError::Count { .. } => {
            Diagnostic::error(Code::TooManyOpen, "the amounts of this stage do not add up")
                .at(span, "this stage")
                .help("give every part of a stage an amount, or all of them one ratio; doses and shares must leave room for a liquid")
        }
    }
}

/// The card could be solved for any size, and states none.
pub fn no_size(card: &Card, ratio: bool) -> Diagnostic {
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

/// Shares and doses that only a batch of nothing would meet.
pub fn not_the_whole(card: &Card) -> Diagnostic {
    let mut diagnostic =
        Diagnostic::error(Code::NotTold, "every amount is a share of the batch, and together they are not all of it");
    for part in &card.last.parts {
        diagnostic = diagnostic.at(part.amount.span, "a share of the finished batch");
    }
    diagnostic.help("write \"as needed\" for the part that makes up the rest, often the water")
}

/// More parts are open than there are targets.
pub fn too_few_rules(card: &Card, lines: &[BalanceLine], targets: &[TargetValue], has_size: bool) -> Diagnostic {
    let open = open_lines(card, lines);
    let names: Vec<_> = open.iter().map(|(name, _)| *name).collect();
    let ratio = lines.iter().any(|l| matches!(l.rule, MassRule::Ratio(_)));
    let unknowns = open.len() + usize::from(ratio);
    let rules = targets.len() + usize::from(has_size);
    let missing = unknowns.saturating_sub(rules);
    let mut choices: Vec<String> = Vec::new();
    if !has_size {
        choices.push("makes = \"1 L\"".to_owned());
    }
    let brings = |kind: TargetKind| lines.iter().any(|l| amount_for(kind, &l.joins).abs() > 1e-6);
    let offers = [
        (TargetKind::Brix, "brix = 50"),
        (TargetKind::Abv, "abv = 18"),
        (TargetKind::Sugar, "sugar = \"250 g/L\""),
        (TargetKind::Acid, "acid = \"4 g/L\""),
    ];
    for (kind, offer) in offers {
        if !targets.iter().any(|(k, _)| *k == kind) && brings(kind) {
            choices.push(offer.to_owned());
        }
    }
    let ask = if missing == 1 { "one more rule is".to_owned() } else { format!("{missing} more rules are") };
    let also = if ratio { ", and the size of the ratio" } else { "" };
    let mut diagnostic = Diagnostic::error(
        Code::TooManyOpen,
        format!(
            "{} left open{also}; {rules} rule{} not enough to fix {}: {ask} needed",
            listed_are(&names),
            if rules == 1 { " is" } else { "s are" },
            if unknowns == 1 { "it" } else { "them" },
        ),
    );
    for (_, place) in &open {
        diagnostic = diagnostic.at(*place, "open");
    }
    if open.is_empty() {
        diagnostic = diagnostic.at(card.name.span, "this card");
    }
    diagnostic.help(format!("give one of them an amount (\"300 g\"), or add a rule: {}", choices.join(", or ")))
}

/// A target that fixed amounts have decided already.
pub fn target_differs(
    card: &Card,
    balance: &MassBalance<'_>,
    (kind, asked): TargetValue,
    gives: f64,
) -> Option<Diagnostic> {
    if agrees(kind, asked, gives) {
        return None;
    }
    let open: Vec<_> = open_lines(card, balance.lines).into_iter().map(|(name, _)| name).collect();
    let title = format!("these amounts give {}, not {}", target_words(kind, gives), target_words(kind, asked));
    let diagnostic = Diagnostic::error(Code::TargetMissed, title);
    Some(if open.is_empty() {
        diagnostic
            .at(target_span(card, kind), "this is not what the amounts make")
            .help("write \"as needed\" for the part that may change, or correct the target")
    } else {
        let other: Vec<_> = balance.targets.iter().map(|(kind, _)| kind.key()).collect();
        let by = if other.is_empty() { "the size".to_owned() } else { other.join(" and ") };
        diagnostic
            .at(target_span(card, kind), format!("one target too many: {} found from {by}", listed_are(&open)))
            .help("take this target out, or leave another part open that can bring it about: \"as needed\"")
    })
}

fn listed_are(names: &[&str]) -> String {
    format!("{} {}", listed(names), if names.len() == 1 { "is" } else { "are" })
}

/// A yield that the amounts do not make.
pub fn yield_differs(span: Span, asked: f64, gives: f64, unit: &str) -> Option<Diagnostic> {
    let over = asked / gives - 1.0;
    let said = format!("the amounts make {} {unit}, the card says {} {unit}", grouped(gives, 0), grouped(asked, 0));
    if over > YIELD_ROUNDING {
        Some(
            Diagnostic::error(Code::YieldImpossible, said)
                .at(span, format!("{:.0} % more than these parts can make", 100.0 * over))
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

/// A size by volume of what is dry.
pub fn dry(span: Span) -> Diagnostic {
    Diagnostic::error(Code::YieldImpossible, "these parts make something dry, and the card asks for a volume of it")
        .at(span, "a volume")
        .help("add the liquid that is missing, or ask for a weight (makes = \"500 g\")")
}

/// The batch has no volume that can be computed.
pub fn no_volume(span: Span) -> Diagnostic {
    Diagnostic::error(Code::NoDensity, "this batch cannot be brought to that volume: its density cannot be computed")
        .at(span, "this card")
        .help("ask for a weight instead (--make \"1 kg\")")
}

/// Why the last stage has no answer.
pub fn trouble(card: &Card, balance: &MassBalance<'_>, trouble: &BalanceError) -> Vec<Diagnostic> {
    match trouble {
        BalanceError::NoDensity(why) => vec![
            Diagnostic::error(Code::NoDensity, format!("the density of the product cannot be computed ({why})"))
                .at(card.name.span, "this card")
                .help("is there enough water or spirit in it? For what is no liquid give `makes` and all amounts by weight"),
        ],
        BalanceError::Count { .. } => vec![
            Diagnostic::error(Code::TooManyOpen, "the rules of this card do not fit its open parts")
                .at(card.name.span, "this card"),
        ],
        BalanceError::Singular => vec![alike(card, balance)],
        BalanceError::Negative(short) => out_of_reach(card, balance, short),
    }
}

/// Why no masses give the pH that is asked for.
pub fn no_ph_masses(card: &Card, balance: &MassBalance<'_>, index: usize, why: &NoMasses) -> Vec<Diagnostic> {
    let asked = balance.targets.get(index).map_or(f64::NAN, |g| g.1);
    match why {
        NoMasses::Others(lines, targets, why) => trouble(card, &MassBalance { lines, targets, ..balance.clone() }, why),
        NoMasses::NoPh(why) => vec![no_ph(card, asked, why)],
        NoMasses::OutOfReach(least, most) => vec![ph_out_of_reach(card, asked, least, most)],
    }
}

/// A pH that cannot be computed cannot be aimed at.
pub fn no_ph(card: &Card, asked: f64, why: &NoPh) -> Diagnostic {
    Diagnostic::error(
        Code::PropertyUnknown,
        format!("{} cannot be aimed at: {why}", target_words(TargetKind::Ph, asked)),
    )
    .at(target_span(card, TargetKind::Ph), "no pH can be computed for this product")
    .help(
        "aim at titratable acid instead (acid = \"6 g/L\"), measure the pH of the finished batch with a meter, \
             and note it under [measured]",
    )
}

fn ph_out_of_reach(card: &Card, asked: f64, least: &ph::PhEnd, most: &ph::PhEnd) -> Diagnostic {
    let name = |i: usize| card.last.parts.get(i).map_or("?", |p| p.label.value.as_str());
    let words = |end: &ph::PhEnd| match &end.ph {
        Ok(ph) => target_words(TargetKind::Ph, *ph),
        Err(why) => format!("no pH ({why})"),
    };
    // The end that is nearer to what was asked, and there the part that stands at zero.
    let off = |end: &ph::PhEnd| end.ph.as_ref().map_or(f64::INFINITY, |ph| (ph - asked).abs());
    let near = if off(most) <= off(least) { most } else { least };
    let limit = match near.without {
        Some(part) => format!("at {} there is no `{}` left to take away", words(near), name(part)),
        None => format!("{} is as far as more of it goes", words(near)),
    };
    let sourer = near.ph.as_ref().is_ok_and(|ph| *ph > asked);
    // Without its acid a batch has no pH that can be given: then one end is all there is to say.
    let range = match (&most.ph, &least.ph) {
        (Ok(_), Ok(_)) => format!("{} to {}", words(most), words(least)),
        _ if sourer => format!("{} at the lowest", words(near)),
        _ => format!("{} at the highest", words(near)),
    };
    Diagnostic::error(
        Code::OutOfReach,
        format!("{} cannot be reached: these parts reach {range}", target_words(TargetKind::Ph, asked)),
    )
    .at(target_span(card, TargetKind::Ph), limit)
    .help(if sourer {
        "take a stronger acid or less of what buffers it (juice, minerals), or ask for a higher pH"
    } else {
        "what is written already is sourer than that: take less of it, or ask for a lower pH"
    })
}

/// The targets do not tell the open parts apart.
fn alike(card: &Card, balance: &MassBalance<'_>) -> Diagnostic {
    if let Some(nothing) = nothing_brings(card, balance) {
        return nothing;
    }
    let open = open_lines(card, balance.lines);
    let names: Vec<_> = open.iter().map(|(name, _)| *name).collect();
    let kinds: Vec<_> = balance.targets.iter().map(|(k, _)| k.key()).collect();
    let said = if kinds.is_empty() {
        format!("the size alone does not tell {} apart", listed(&names))
    } else {
        format!("{} cannot be found from {}", listed(&names), kinds.join(" and "))
    };
    let mut diagnostic = Diagnostic::error(Code::NotTold, said);
    for (_, place) in open {
        diagnostic = diagnostic.at(place, "open");
    }
    diagnostic.help(match same_make_up(balance) {
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

/// A target for which there is nothing on the card.
fn nothing_brings(card: &Card, balance: &MassBalance<'_>) -> Option<Diagnostic> {
    let brings = |kind, l: &BalanceLine| amount_for(kind, &l.joins) > 1e-9;
    let open_brings = |kind| balance.lines.iter().any(|l| l.rule == MassRule::Open && brings(kind, l));
    let &(kind, asked) = balance.targets.iter().find(|(kind, asked)| *asked > 0.0 && !open_brings(*kind))?;
    let (what, for_example) = match kind {
        TargetKind::Abv => ("alcohol", "a spirit"),
        TargetKind::Acid => ("acid", "citric acid or a juice"),
        TargetKind::Brix | TargetKind::Sugar => ("sugar", "white sugar"),
        TargetKind::Ph => return None,
    };
    let written = balance.lines.iter().position(|l| brings(kind, l)).map(|i| line_of(card, i));
    let diagnostic = |title: String| Diagnostic::error(Code::OutOfReach, title);
    Some(match written {
        Some((name, place)) => {
            diagnostic(format!("`{}` cannot be met by what is open: no open part brings {what}", kind.key()))
                .at(target_span(card, kind), "set by the amounts that are written")
                .at(place, format!("brings {what}"))
                .help(format!("write \"as needed\" for `{name}`, or take the target `{}` out", kind.key()))
        }
        None => {
            diagnostic(format!("{} cannot be reached: no part of this card brings {what}", target_words(kind, asked)))
                .at(target_span(card, kind), "nothing to reach it with")
                .help(format!("add {for_example} as a part, or take this target out"))
        }
    })
}

/// Two open parts that differ in nothing.
fn same_make_up(balance: &MassBalance<'_>) -> Option<(usize, usize)> {
    let open: Vec<_> = balance.lines.iter().enumerate().filter(|(_, l)| l.rule == MassRule::Open).collect();
    open.iter().enumerate().find_map(|(n, (a, one))| {
        let same = |(_, other): &&(usize, &BalanceLine)| one.joins == other.joins && one.keeps == other.keeps;
        open.iter().skip(n + 1).find(same).map(|(b, _)| (*a, *b))
    })
}

/// A target that the batch is past before any water has boiled off.
fn thinner_than_unboiled(card: &Card, balance: &MassBalance<'_>, short: &[usize]) -> Option<Diagnostic> {
    let place = card.last.loss.evaporated_as_needed?;
    let (&[boiled_off], &[(kind, asked)]) = (short, balance.targets) else { return None };
    (boiled_off == card.last.parts.len()).then_some(())?;
    let unboiled = reach::of_target(balance, 0).filter(|r| r.low.without == boiled_off)?.low.value;
    let title = format!(
        "{} cannot be reached by boiling down: the batch has {} before any water goes up",
        target_words(kind, asked),
        target_words(kind, unboiled)
    );
    Some(
        Diagnostic::error(Code::OutOfReach, title)
            .at(target_span(card, kind), "thinner than what goes into the pan")
            .at(place, "water would have to be added, not taken away")
            .help("ask for more, or add water = \"as needed\" and leave `evaporated` out"),
    )
}

/// A target that would take more water away than there is.
pub fn too_little_water(card: &Card) -> Diagnostic {
    let place = card.last.loss.evaporated_as_needed.unwrap_or(card.name.span);
    Diagnostic::error(Code::OutOfReach, "there is not enough water in these parts to boil off")
        .at(place, "all of it would have to go, and more")
        .help("ask for less: no syrup is boiled down to nothing but its solids")
}

/// A target outside what the parts reach.
fn out_of_reach(card: &Card, balance: &MassBalance<'_>, short: &[usize]) -> Vec<Diagnostic> {
    if let Some(early) = thinner_than_unboiled(card, balance, short) {
        return vec![early];
    }
    let name = |i: usize| line_of(card, i).0;
    let in_the_way = reach::most_that_fits(balance, short).map(|(part, now, most)| {
        format!(
            "`{}` is in the way: at most {} g of it leaves room for the rest, the card has {} g; use less of it, or make more",
            name(part),
            grouped(most, 0),
            grouped(now, 0)
        )
    });
    let mut all = Vec::new();
    for (index, &(kind, asked)) in balance.targets.iter().enumerate() {
        let Some(reach) = reach::of_target(balance, index) else { continue };
        let too_high = asked > reach.high.value;
        if !too_high && asked >= reach.low.value {
            continue;
        }
        let end: ReachEnd = if too_high { reach.high } else { reach.low };
        let (low, high) = (target_words(kind, reach.low.value), target_words(kind, reach.high.value));
        let range = if reach.whole && low != high {
            format!("{} to {high}", target_figure(kind, reach.low.value))
        } else if too_high {
            format!("at most {high}")
        } else {
            format!("at least {low}")
        };
        let with = if balance.targets.len() > 1 { " with the other targets held" } else { "" };
        let mut title = format!("{} cannot be reached: these parts reach {range}{with}", target_words(kind, asked));
        if let Some((part, value)) = reach::strongest(balance, index).filter(|_| too_high) {
            title.push_str(&format!("; strongest part: `{}`, {}", name(part), target_words(kind, value)));
        }
        let diagnostic = Diagnostic::error(Code::OutOfReach, title).at(
            target_span(card, kind),
            format!("at {} there is no `{}` left to take away", target_words(kind, end.value), name(end.without)),
        );
        let help = match (&in_the_way, too_high) {
            (Some(help), _) => help.as_str(),
            (None, true) => "take a stronger part, or ask for less",
            (None, false) => "thin it with another part, take a weaker one, or ask for more",
        };
        all.push(diagnostic.help(help));
    }
    if all.is_empty() {
        let names: Vec<_> = short.iter().map(|&i| name(i)).collect();
        let fixed = balance.lines.iter().any(|l| matches!(l.rule, MassRule::Fixed(g) if g > 0.0));
        let mut diagnostic =
            Diagnostic::error(Code::OutOfReach, format!("the card asks for less than nothing of {}", listed(&names)));
        for &i in short {
            diagnostic = diagnostic.at(line_of(card, i).1, "would have to be taken out again");
        }
        all.push(diagnostic.help(match in_the_way {
            Some(help) => help,
            None if fixed => "the amounts that are written bring more than the targets and the size allow: make more, or use less of them".to_owned(),
            None => "these targets contradict each other with these parts: change one of them, or add a part that brings what is missing".to_owned(),
        }));
    }
    all
}
