//! What the steps of a recipe say of heat, of time, and of what is strained out again.

use crate::card::{Card, Stage};
use crate::house::House;
use crate::units::told::{Clause, clauses};
use crate::units::{Literal, Temperature, literal};

use super::draft::{Draft, DraftLine, DraftPart, DraftStage, Remark};
use super::heated::{denies, heat_at, heats, is_of_heat};
use super::heated_parts::LIQUID;
use super::in_turn::in_turn;
use super::names::Names;
use super::parted::asked_of;
use super::strained::strained;
use super::strains::{pieces, strains};
use super::waited::{StrainedWhen, Waited, wait};
use super::words::WordList;

/// Reads the steps into keys of the last stage, and marks what is strained.
pub(super) fn read(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    strained(draft, &all_steps(draft), names);
    for stage in &mut draft.stages {
        let steps = std::mem::take(&mut stage.steps);
        heat_and_time(&steps, (true, false), None, stage, names);
        stage.steps = steps;
    }
    // the steps below stages are of all of them: which one is heated they do not say
    let is_one = draft.stages.iter().all(|stage| stage.is_ours);
    // what our stage gives is in that pan too, and no step calls it by its name
    let ran_through = (is_one && !draft.stages.is_empty()).then_some(LIQUID);
    heat_and_time(&draft.steps, (is_one, true), ran_through, &mut draft.last, names);
    filled_hot(draft);
}

pub(super) fn all_steps(draft: &Draft) -> Vec<String> {
    draft.stages.iter().flat_map(|stage| &stage.steps).chain(&draft.steps).cloned().collect()
}

fn heat_and_time(
    steps: &[String],
    (of_one, is_end): (bool, bool),
    ran_through: Option<&str>,
    stage: &mut DraftStage,
    names: Names<'_>,
) {
    // what of the list could not be counted may be in the pan, or not
    let open: Vec<DraftPart> = stage.asked.iter().map(asked_of).collect();
    let is_of_list = |part: &&DraftPart| part.label.starts_with(|c: char| c.is_numeric());
    let parts = stage.parts.iter().chain(open.iter().filter(is_of_list)).map(DraftPart::of);
    let parts: Vec<&str> = parts.chain(ran_through).collect();
    let heats = heats(steps, &parts, of_one, names);
    let stands = stage.parts.iter().any(|part| part.strained == Some(true) || names.is_strained_out(part.of()));
    let (takes, at) = in_turn(waits(steps, is_end, stands, names));
    for (key, found) in [("heated", heats), ("takes", takes), ("at", at.into_iter().collect())] {
        if !stage.keys.iter().any(|line| line.toml.starts_with(&format!("{key} "))) {
            stage.keys.extend(one_of(found));
        }
    }
}

/// How long it stands, each time that the steps say so. `is_end`: when they are done all is; `stands`: plants are in it.
fn waits(steps: &[String], is_end: bool, stands: bool, names: Names<'_>) -> Vec<Waited> {
    // what keeps so long behind the straining stands in its sentence: "strain and store for 3 weeks"
    let steps: Vec<Vec<Clause<'_>>> =
        steps.iter().map(|step| pieces(step).into_iter().map(Clause::from).collect()).collect();
    let strained: Vec<bool> = steps.iter().flatten().map(|clause| strains(clause.text)).collect();
    let mut waits = Vec::new();
    let mut place = 0;
    for (n, step) in steps.iter().enumerate() {
        for (at, clause) in step.iter().enumerate() {
            let (before, later) = strained.split_at(place);
            let before = before.contains(&true);
            let is_done = is_end && (before || !stands) && is_last_sentence(&steps, n, at);
            let when = StrainedWhen { before, later: later.contains(&true), is_done };
            place += 1;
            if !denies(clause.text) && heat_at(step, at, names).is_none() && !is_of_heat(step, at, names) {
                waits.extend(wait(step, at, when, names));
            }
        }
    }
    waits
}

/// How cold each stage of a card stands while it takes its time, by the step that tells of that time; where it says so itself, nothing.
pub(crate) fn places_told(card: &Card, house: &House) -> Vec<Option<Temperature>> {
    let names = Names::of(house, "");
    let value = |line: &DraftLine| {
        let (_, value) = line.toml.split_once(" = ")?;
        literal::parse(value.trim_matches('"')).ok()
    };
    let of_stage = |stage: &Stage| {
        let takes = stage.takes.as_ref().filter(|_| stage.at.is_none())?;
        let steps = if stage.steps.is_empty() { &card.steps } else { &stage.steps };
        let is_it = |wait: &Waited| matches!(value(&wait.takes), Some(Literal::Time(time)) if time == takes.time);
        let wait = waits(steps, false, true, names).into_iter().find(is_it)?;
        wait.at.as_ref().and_then(value).and_then(|at| if let Literal::Temperature(at) = at { Some(at) } else { None })
    };
    card.all_stages().map(of_stage).collect()
}

/// Whether sentences stand before that of a clause, and behind it none but how it is kept and used.
pub(super) fn is_last_sentence(steps: &[Vec<Clause<'_>>], n: usize, at: usize) -> bool {
    let Some(step) = steps.get(n) else { return false };
    let is_first = n == 0 && !step.iter().take(at).any(|clause| clause.is_last);
    let behind = step.iter().skip(at).skip_while(|clause| !clause.is_last).skip(1);
    let mut behind = behind.chain(steps.iter().skip(n + 1).flatten()).filter(|clause| !clause.words.is_empty());
    // "Refrigerate, 1 month." is how it is kept, whatever stands before it
    let mut before = step.iter().take(at + 1).rev().skip(1).take_while(|clause| !clause.is_last);
    let begins = before.next().or(step.get(at)).and_then(|clause| clause.words.first());
    let is_kept = begins.is_some_and(|first| WordList::Fridge.has(first));
    (is_kept || !is_first) && behind.all(|clause| WordList::Life.within(clause.text))
}

/// The first of several; of each other that says something else it is asked which one counts.
fn one_of(found: Vec<DraftLine>) -> Vec<DraftLine> {
    let mut kept: Vec<DraftLine> = Vec::new();
    for line in found {
        if line.toml.is_empty() {
            if !kept.contains(&line) {
                kept.push(line);
            }
        } else if kept.iter().all(|other| other.toml.is_empty()) {
            kept.push(line);
        } else if let Some(same) = kept.iter_mut().find(|other| is_alike(&other.toml, &line.toml)) {
            // what is open of the second is open of both
            let open = line.remarks.into_iter().filter(|remark| matches!(remark, Remark::Question(_)));
            let open: Vec<Remark> = open.filter(|remark| !same.remarks.contains(remark)).collect();
            same.remarks.extend(open);
        } else {
            kept.push(DraftLine::question("", format!("the steps also say {}: which one counts?", line.toml)));
        }
    }
    kept
}

/// Whether two lines say one value: "12 h" and "12 hrs".
fn is_alike(one: &str, other: &str) -> bool {
    let value = |toml: &str| toml.split_once(" = ").and_then(|(_, value)| literal::parse(value.trim_matches('"')).ok());
    one == other || value(one).is_some_and(|one| value(other) == Some(one))
}

/// "Pour hot into bottles": how hot it was then nobody has said, and what is filled warm is not filled hot.
fn filled_hot(draft: &mut Draft) {
    let steps = all_steps(draft);
    let is_hot = |clause: &str| {
        let lower = clause.to_lowercase();
        WordList::Hot.within(clause) && WordList::Bottled.within(clause) && !lower.contains("hot water")
    };
    let is_told = draft.keep.iter().any(|line| line.toml.starts_with("fill"));
    if !is_told && steps.iter().flat_map(|step| clauses(step)).any(|clause| is_hot(clause.text)) {
        let said = "not counted as filled hot: if it was 85 °C or more when closed, write [keep] fill = \"hot\"";
        draft.keep.push(DraftLine::default().with(Remark::Assumed(said.to_owned())));
    }
}
