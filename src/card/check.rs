//! What can be said of a card as a whole, without a larder.

use std::collections::{HashMap, HashSet};

use crate::diagnostic::{Code, Diagnostic, Span};
use crate::input::{FileReader, Laid, Table, Value};
use crate::spelling::fold;

use super::model::{Amount, Card, Part, Stage};

fn is_open(part: &Part) -> bool {
    part.amount.value == Amount::AsNeeded
}

fn is_ratio(part: &Part) -> bool {
    matches!(part.amount.value, Amount::Parts { .. })
}

/// Checks that a card or a stage has a name; what was read of a name is not empty.
pub(super) fn named<M: Laid>(table: &Table, whose: &str, place: Span, reader: &mut FileReader<'_>) {
    let place = match table.get("name") {
        None if reader.is_renamed("name") => return,
        None => place,
        Some((_, value)) => match &value.value {
            Value::Text(name) if name.trim().is_empty() => value.span,
            _ => return,
        },
    };
    let example = M::LAYOUT.example("name").unwrap_or_default();
    reader.found.push(
        Diagnostic::error(Code::MissingKey, format!("{whose} has no name"))
            .at(place, "a name was expected")
            .help(format!("write for example {example}")),
    );
}

/// Checks a stage by itself: it has amounts or one ratio, and nothing to solve for.
pub(super) fn stage(stage: &Stage, place: &str, span: Span, reader: &mut FileReader<'_>) {
    if stage.parts.is_empty() {
        reader.found.push(
            Diagnostic::error(Code::NoParts, format!("{place} has no parts that can be read"))
                .at(span, "parts were expected in this stage")
                .help(
                    "write parts = { \"white rum\" = \"1 L\", clove = \"12 g\" }, or a heading [stage.parts] below it",
                ),
        );
    }
    for part in stage.parts.iter().filter(|part| is_open(part)) {
        reader.found.push(
            Diagnostic::error(Code::StageRule, format!("{place} leaves the amount of `{}` open", part.label.value))
                .at(part.amount.span, "a stage has amounts or one ratio")
                .help(format!(
                    "only the card's own [parts] can be `as needed`: give it an amount here, or move `{}` to [parts]",
                    part.label.value
                )),
        );
    }
    if let Some(open) = stage.loss.evaporated_as_needed {
        reader.found.push(
            Diagnostic::error(Code::StageRule, format!("{place} leaves open how much evaporates"))
                .at(open, "a stage has no target to boil down to")
                .help("only the card's own [loss] can be `as needed`: write a share here, for example \"20 %\""),
        );
    }
    let parts = &stage.parts;
    if let (Some(ratio), Some(fixed)) = (parts.iter().find(|p| is_ratio(p)), parts.iter().find(|p| p.has_size())) {
        reader.found.push(
            Diagnostic::error(Code::StageRule, format!("{place} mixes a ratio with amounts"))
                .at(ratio.amount.span, "a share of a ratio")
                .at(fixed.amount.span, "an amount")
                .help("write all of them as amounts, or all of them as parts of one ratio"),
        );
    }
}

pub(super) fn check(card: &Card, table: &Table, reader: &mut FileReader<'_>) {
    has_parts(card, table, reader);
    names(card, reader);
    used(card, reader);
    for stage in card.all_stages() {
        shares(stage, reader);
    }
    something_to_find_by(card, table, reader);
}

fn has_parts(card: &Card, table: &Table, reader: &mut FileReader<'_>) {
    let given = table.get("parts");
    // parts that were there and could not be read have been reported one by one
    let is_empty = |value: &Value| matches!(value, Value::Table(t) if t.entries.is_empty());
    let place = match given {
        None if reader.is_renamed("parts") => return,
        None => card.name.span,
        Some((key, value)) if is_empty(&value.value) => key.span,
        Some(_) => return,
    };
    let help = match card.stages.last().and_then(|stage| stage.name.as_ref()) {
        Some(last) => format!(
            "what is bottled stands under [parts], the stages too: {} = \"all\"",
            crate::input::key(&last.value)
        ),
        None => "under the heading [parts] write one line a part: \"white sugar\" = \"2 parts by weight\"".to_owned(),
    };
    let title = if given.is_none() { "the card has no [parts]" } else { "[parts] is empty" };
    reader.found.push(Diagnostic::error(Code::NoParts, title).at(place, "what is it made of?").help(help));
}

fn names(card: &Card, reader: &mut FileReader<'_>) {
    let mut firsts: HashMap<String, Span> = HashMap::new();
    for name in card.stages.iter().filter_map(|stage| stage.name.as_ref()) {
        if let Some(first) = firsts.get(&fold(&name.value)) {
            reader.found.push(
                Diagnostic::error(Code::DuplicateName, format!("two stages are called `{}`", name.value))
                    .at(name.span, "the second")
                    .at(*first, "the first")
                    .help("give one of them another name, so that a part can say which one it means"),
            );
        }
        firsts.entry(fold(&name.value)).or_insert(name.span);
        if fold(&name.value) == fold(&card.name.value) {
            reader.found.push(
                Diagnostic::error(Code::DuplicateName, format!("a stage is called `{}`, as the card is", name.value))
                    .at(name.span, "the stage")
                    .at(card.name.span, "the card")
                    .help("give the stage a name of its own: what it is before it is finished"),
            );
        }
    }
}

fn used(card: &Card, reader: &mut FileReader<'_>) {
    // of two stages with one name the first is meant
    let mut made: HashMap<String, (usize, Span)> = HashMap::new();
    for (at, stage) in card.stages.iter().enumerate() {
        if let Some(name) = &stage.name {
            made.entry(fold(&name.value)).or_insert((at, name.span));
        }
    }
    for (at, stage) in card.all_stages().enumerate() {
        let own = stage.name.as_ref().map(|name| fold(&name.value));
        for part in &stage.parts {
            let of = fold(&part.of.value);
            let made_at = made.get(&of);
            // a part that has the name of the card may be an ingredient: the larder knows
            if own.as_ref() == Some(&of) {
                reader.found.push(
                    Diagnostic::error(Code::OwnPart, format!("`{}` is a part of itself", part.of.value))
                        .at(part.of.span, "this is what is being made")
                        .help(
                            "name what goes in; what is left of an earlier batch needs a name of its own in the larder",
                        ),
                );
            } else if let Some((_, later)) = made_at.filter(|(made_at, _)| *made_at > at) {
                reader.found.push(
                    Diagnostic::error(Code::StageOrder, format!("`{}` is used before it is made", part.of.value))
                        .at(part.of.span, "used here")
                        .at(*later, "made below")
                        .help("put the stages in the order of the work: what is made first stands first"),
                );
            }
        }
    }
    for name in card.stages.iter().filter_map(|stage| stage.name.as_ref()) {
        let takes: Vec<&Part> =
            card.all_parts().map(|(_, part)| part).filter(|part| fold(&part.of.value) == fold(&name.value)).collect();
        if let ([_, _, ..], Some(all)) = (takes.as_slice(), takes.iter().find(|part| part.amount.value == Amount::All))
        {
            let found = Diagnostic::error(Code::StageRule, format!("all of `{}` goes in, and more of it", name.value));
            let found = found.at(all.amount.span, "all of it");
            let others = takes.iter().filter(|part| part.amount.span != all.amount.span);
            let found = others.fold(found, |found, part| found.at(part.amount.span, "and this"));
            reader.found.push(found.help("write how much of it goes in at each of these places: \"300 g\""));
        }
    }
    let named: HashSet<String> = card.all_parts().map(|(_, part)| fold(&part.of.value)).collect();
    for name in card.stages.iter().filter_map(|stage| stage.name.as_ref()) {
        if !named.contains(&fold(&name.value)) {
            reader.found.push(
                Diagnostic::warning(Code::Unused, format!("the stage `{}` goes into nothing", name.value))
                    .at(name.span, "no part below names it")
                    .help(format!(
                        "add it to [parts]: {} = \"all\", or so much of it as goes in",
                        crate::input::key(&name.value)
                    )),
            );
        }
    }
}

/// Percentages of one liquid: what they are of, and that they leave room for the rest.
fn shares(stage: &Stage, reader: &mut FileReader<'_>) {
    let shares: Vec<(&Part, f64)> = stage
        .parts
        .iter()
        .filter_map(|part| match part.amount.value {
            Amount::Share(share) => Some((part, share)),
            _ => None,
        })
        .collect();
    let Some((first, _)) = shares.first() else { return };
    let whole = match &stage.name {
        Some(name) => format!("the weight of the liquid of the stage `{}`", name.value),
        None => "the finished weight".to_owned(),
    };
    let written: Vec<_> = shares.iter().map(|(part, _)| format!("\"{}\"", part.written.text)).collect();
    let verb = if shares.len() == 1 { "is" } else { "are" };
    let title = format!("{} {verb} read as per cent of {whole}", written.join(" and "));
    reader.found.push(
        Diagnostic::note(Code::Understood, title)
            .at(first.amount.span, "grams in 100 g")
            .help("for a weight in each litre write \"50 g/L\"; for a volume in each litre \"50 ml/L\""),
    );
    let total: f64 = shares.iter().filter(|(part, _)| !part.is_strained()).map(|(_, share)| share).sum();
    if shares.len() > 1 && total > 1.0 + 1e-9 {
        let mut diagnostic =
            Diagnostic::error(Code::OutOfRange, format!("the percentages add up to {:.1} % of {whole}", total * 100.0));
        for (part, _) in shares.iter().filter(|(part, _)| !part.is_strained()) {
            diagnostic = diagnostic.at(part.amount.span, "counts towards the 100 %");
        }
        reader.found.push(diagnostic.help("make them add up to 100 % at most, or give one part as \"as needed\""));
    }
}

fn something_to_find_by(card: &Card, table: &Table, reader: &mut FileReader<'_>) {
    let parts = &card.last.parts;
    // a line that slid under the wrong heading may be the one that is missing
    let slid = reader.found.iter().any(|d| d.code == Code::Misplaced);
    let no_target = table.get("target").is_none() && !reader.is_renamed("target") && !slid;
    if parts.iter().all(is_open) && no_target && parts.len() > 1 {
        let mut diagnostic = Diagnostic::error(Code::OpenAmounts, "every amount is `as needed` and there is no target");
        for part in parts {
            diagnostic = diagnostic.at(part.amount.span, "how much?");
        }
        reader.found.push(
            diagnostic
                .help("say what the product shall be, for example [target] brix = 64, or write amounts or a ratio"),
        );
    }
}
