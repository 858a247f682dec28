//! What can be said of a draft only when all of it is read: what is open, which stage is the last, names met twice.

use std::collections::HashMap;

use crate::input::key;
use crate::spelling::fold;
use crate::units::display::short;
use crate::units::{Literal, in_grams, in_millilitres, literal};

use super::draft::{Draft, DraftLine, DraftPart, DraftStage, Remark};
use super::drink;
use super::names::Names;
use super::parted::in_ratio;

pub(super) fn finish(draft: &mut Draft, names: Names<'_>) {
    last_stage(draft);
    unknown_that_are_stages(draft);
    used(draft, names);
    open(draft);
    let basis = draft.basis.filter(|_| !draft.is_of_two);
    for stage in draft.stages.iter_mut().chain([&mut draft.last]) {
        of_ratio(stage, basis);
        once(stage);
    }
    makes(draft, names);
    drink::how(draft);
    if draft.last.parts.is_empty() && draft.last.asked.is_empty() {
        draft
            .last
            .asked
            .push(DraftLine::question("", "no line says how much of what goes in: \"white sugar\" = \"450 g\""));
    }
}

/// The parts that stand under no other heading, or else under the last one, are what is bottled.
fn last_stage(draft: &mut Draft) {
    draft.stages.retain(|stage| *stage != DraftStage { name: stage.name.clone(), ..DraftStage::default() });
    if !draft.last.parts.is_empty() || !draft.last.asked.is_empty() {
        return;
    }
    if let Some(stage) = draft.stages.pop() {
        draft.steps.splice(0..0, stage.steps);
        draft.last.keys.extend(stage.keys);
        draft.last.loss.extend(stage.loss);
        (draft.last.parts, draft.last.asked) = (stage.parts, stage.asked);
    }
}

fn names_of_stages(draft: &Draft) -> Vec<String> {
    draft.stages.iter().filter_map(|stage| stage.name.as_deref()).map(fold).collect()
}

/// A part that is a stage of this very card is known.
fn unknown_that_are_stages(draft: &mut Draft) {
    let made = names_of_stages(draft);
    for part in draft.stages.iter_mut().chain([&mut draft.last]).flat_map(|stage| &mut stage.parts) {
        let own = part.of().strip_prefix("the ").unwrap_or(part.of()).to_owned();
        if made.contains(&fold(&own)) {
            if own != part.of() {
                part.of = Some(own);
            }
            part.remarks.retain(|remark| !matches!(remark, Remark::Question(_) | Remark::Unknown(_)));
        }
    }
}

/// A stage that no part names goes into the last one: how much of it, nobody has said.
fn used(draft: &mut Draft, names: Names<'_>) {
    let parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let named: Vec<String> = parts.map(|part| fold(part.of())).collect();
    for name in draft.stages.iter().filter_map(|stage| stage.name.clone()).collect::<Vec<_>>() {
        if !named.contains(&fold(&name)) {
            if draft.makes {
                draft.last.parts.push(DraftPart { label: name, ..DraftPart::default() });
            } else {
                let stage = draft.stages.iter().find(|stage| stage.name.as_ref() == Some(&name));
                let all = match stage.is_some_and(|stage| !in_ratio(stage, names)) {
                    true => format!("all of it: {} = \"all\"", key(&name)),
                    false => format!("{} = \"… ml\"", key(&name)),
                };
                let asks = format!("how much of it goes in? {all}");
                draft.last.asked.push(DraftLine::question(&name, asks));
            }
        } else if names.knows(&name) && !draft.is_complete {
            let said = format!("`{name}` is made above; the house knows that name too");
            draft.last.asked.push(DraftLine::default().with(Remark::Said(said)));
        }
    }
}

/// A part without an amount is solved for where the card can find it, and asked for where it cannot.
fn open(draft: &mut Draft) {
    let rules = draft.targets.iter().filter(|line| !line.toml.is_empty()).count() + usize::from(draft.makes);
    let count = draft.last.parts.iter().filter(|part| part.amount.is_none()).count();
    let can = count <= rules;
    for (is_last, stage) in draft.stages.iter_mut().map(|stage| (false, stage)).chain([(true, &mut draft.last)]) {
        let (known, unknown) =
            stage.parts.drain(..).partition::<Vec<_>, _>(|part| part.amount.is_some() || is_last && can);
        stage.parts = known;
        let is_asked = |part: &DraftPart| {
            let line = format!("{} = \"… ", key(&part.label));
            let remarks = stage.asked.iter().flat_map(|line| &line.remarks);
            remarks.into_iter().any(|remark| matches!(remark, Remark::Question(asked) if asked.contains(&line)))
        };
        let unknown: Vec<DraftPart> = unknown.into_iter().filter(|part| !is_asked(part)).collect();
        stage.asked.extend(unknown.into_iter().map(|part| {
            let asks = format!("how much? {} = \"… g\"", key(&part.label));
            DraftLine::question(&part.label, asks)
        }));
        for part in stage.parts.iter_mut().filter(|part| part.amount.is_none()) {
            part.amount = Some("as needed".to_owned());
            part.remarks.push(Remark::Assumed("no amount is given: it is solved for".to_owned()));
        }
    }
}

fn of_ratio(stage: &mut DraftStage, basis: Option<&str>) {
    let is_open = |amount: &String| matches!(literal::parse(amount), Ok(Literal::Parts(_, None)));
    let mut asked = false;
    for part in &mut stage.parts {
        let Some(amount) = part.amount.as_mut().filter(|amount| is_open(amount)) else { continue };
        match basis {
            Some(basis) => {
                amount.push(' ');
                amount.push_str(basis);
            }
            None => asked = true,
        }
    }
    if asked {
        let asks = "the ratio: by weight or by volume? write \"2 parts by weight\" into each line of it";
        stage.asked.push(DraftLine::question("", asks));
    }
}

/// Of two lines of one name the second gets a label of its own.
fn once(stage: &mut DraftStage) {
    let mut met: HashMap<String, usize> = HashMap::new();
    for part in &mut stage.parts {
        let times = met.entry(part.label.clone()).or_default();
        *times += 1;
        if *times > 1 {
            let of = part.of().to_owned();
            part.label = format!("{}, {times}", part.label);
            part.of = Some(of);
        }
    }
}

/// So many times what the lines come to, a yield is of more than they make (ours: a line is rounded, and nothing swells so far).
const MORE_THAN_ALL: f64 = 1.5;

/// What counted fruit brings at the most, ml or g of one (ours).
const HEAVY_PIECE: f64 = 200.0;

/// What all lines come to at the most, ml: no gram of what is mixed fills much more than one. `None` where a line is open.
fn most_of_lines(draft: &Draft, names: Names<'_>) -> Option<f64> {
    let stages = || draft.stages.iter().chain([&draft.last]);
    let of_line =
        |part: &DraftPart| match names.reads(part.amount.as_deref().filter(|_| !part.is_stage).unwrap_or("all")) {
            Ok(Literal::Mass(mass)) => Some(in_grams(mass)),
            Ok(Literal::Volume(volume)) => Some(in_millilitres(volume)),
            Ok(Literal::Bottles(count, each)) => Some(count * in_millilitres(each)),
            Ok(Literal::Pieces(count)) => Some(count * HEAVY_PIECE),
            Ok(Literal::All) if part.is_stage || part.amount.is_some() => Some(0.0),
            _ => None,
        };
    let is_all_read = stages().all(|stage| stage.asked.is_empty());
    stages()
        .filter(|_| is_all_read)
        .flat_map(|stage| &stage.parts)
        .map(of_line)
        .sum::<Option<f64>>()
        .filter(|all| *all > 0.0)
}

/// "About 700 ml" beside amounts that are all given: they decide. Where they cannot come to that, it is asked.
fn makes(draft: &mut Draft, names: Names<'_>) {
    let is_fixed = |part: &DraftPart| {
        let read = part.amount.as_deref().map(literal::parse);
        // what only the reader of a card understands is counted
        !matches!(
            read,
            Some(Ok(Literal::AsNeeded
                | Literal::Parts(..)
                | Literal::Concentration(_)
                | Literal::VolumeShare(_)
                | Literal::Percent(_)))
                | None
        )
    };
    let all = draft.last.parts.iter().all(is_fixed) && !draft.last.parts.is_empty();
    if draft.is_complete || !all {
        return;
    }
    draft.makes = false;
    let most = most_of_lines(draft, names);
    let is_too_much = |toml: &str| {
        let size = toml.trim_start_matches("makes = ").trim_matches('"');
        let size = match names.reads(size).ok()? {
            Literal::Mass(mass) => in_grams(mass),
            Literal::Volume(volume) => in_millilitres(volume),
            Literal::Bottles(count, each) => count * in_millilitres(each),
            _ => return None,
        };
        most.filter(|most| size > MORE_THAN_ALL * most)
    };
    for line in draft.keys.iter_mut().filter(|line| line.toml.starts_with("makes = ")) {
        let said = match line.remarks.first() {
            Some(Remark::Assumed(said)) => said.clone(),
            _ => format!("the recipe says {}", line.toml.trim_start_matches("makes = ")),
        };
        *line = DraftLine::default().with(match is_too_much(&line.toml) {
            Some(most) => Remark::Question(format!(
                "{said}, and the lines come to no more than {} ml: is one missing, or are they for less? write them for what you make, and \
                 delete this question",
                short(most.round())
            )),
            None => Remark::Said(format!("{said}: the amounts decide how much it is")),
        });
    }
}
