//! A recipe that is strained before the rest goes in, told without headings, in two: what is strained is made first, and all
//! that it gives goes into the rest.

use crate::card;
use crate::diagnostic::any_error;
use crate::solver::{Options, solve};
use crate::units::Literal;
use crate::units::display::grouped;
use crate::units::told::clauses;

use super::draft::{Draft, DraftPart, DraftStage, Remark};
use super::names::Names;
use super::speaks::{names_it, says_all};
use super::words::WordList;

/// What the first of the two is called; another where the house has that name.
const CALLED: [&str; 3] = ["infusion", "strained infusion", "what is strained"];

/// Parts that are first named, or listed, behind the straining go in behind it.
pub(super) fn in_two(draft: &mut Draft, names: Names<'_>) {
    // The parts of one ratio stand in one list.
    let in_ratio = |part: &DraftPart| {
        part.amount.as_deref().is_some_and(|amount| matches!(names.reads(amount), Ok(Literal::Parts(..))))
    };
    if draft.is_complete || !draft.stages.is_empty() || draft.last.parts.iter().any(in_ratio) {
        return;
    }
    let steps: Vec<Vec<&str>> =
        draft.steps.iter().map(|step| clauses(step).into_iter().map(|clause| clause.text).collect()).collect();
    let is_strained = |clause: &str| WordList::Strain.within(clause);
    let at = steps.iter().enumerate().find_map(|(step, all)| Some((step, all.iter().position(|c| is_strained(c))?)));
    let Some((step, clause)) = at else { return };
    let until = steps.get(step).and_then(|all| all.get(..=clause)).unwrap_or_default();
    let before: Vec<&str> = steps.iter().take(step).flatten().chain(until).copied().collect();
    let after: Vec<&str> = steps.iter().skip(step).flatten().copied().skip(clause + 1).collect();
    let is_in = |part: &DraftPart, all: &[&str]| all.iter().any(|clause| names_it(part.of(), clause));
    let is_listed = draft.last.parts.iter().any(|part| part.is_behind);
    let is_later = |part: &DraftPart| part.is_behind || !is_in(part, &before) && is_in(part, &after);
    let all_in = before.iter().any(|clause| says_all(clause) || clause.to_lowercase().contains("together"));
    if all_in && !is_listed || !draft.last.parts.iter().any(&is_later) {
        return;
    }
    let strains = |part: &DraftPart| names.is_strained_out(part.of());
    let (later, first): (Vec<_>, Vec<_>) = draft.last.parts.iter().cloned().partition(&is_later);
    let has_both = first.iter().any(strains) && first.iter().any(|part| !strains(part));
    let name = CALLED.into_iter().find(|name| !names.knows(name));
    let strains_again = later.iter().any(strains) && !is_listed;
    let (true, false, Some(name)) = (has_both, strains_again, name) else { return };
    // Where the straining stands in the middle of a step, the step is told with the rest.
    let last = until.last().map(|clause| (*clause).to_owned());
    let mut kept = draft.steps.split_off(step + 1);
    let mut stage = DraftStage { name: Some(name.to_owned()), parts: first, ..DraftStage::default() };
    stage.steps = std::mem::take(&mut draft.steps);
    if let Some((front, rest)) = stage.steps.pop().and_then(|step| parted_behind(&step, &last?)) {
        stage.steps.push(front);
        kept.splice(0..0, rest);
    }
    draft.steps = kept;
    draft.last.parts = later;
    draft.stages.push(stage);
}

/// A step up to the end of a clause, and what it says behind that.
fn parted_behind(step: &str, clause: &str) -> Option<(String, Option<String>)> {
    let end = step.find(clause)? + clause.len();
    let (front, rest) = step.split_at_checked(end)?;
    let rest = rest.trim_start_matches(|c: char| matches!(c, '.' | ',' | ';' | '!' | ')') || c.is_whitespace());
    let rest = ["then ", "and then ", "and "].iter().find_map(|word| rest.strip_prefix(word)).unwrap_or(rest);
    let begins = rest.chars().next().map(|first| first.to_uppercase().collect::<String>());
    let rest = begins.map(|first| first + rest.get(first_len(rest)..).unwrap_or_default());
    Some((format!("{front}."), rest))
}

fn first_len(text: &str) -> usize {
    text.chars().next().map_or(0, char::len_utf8)
}

/// How much the first of the two gives, once it is known what is strained.
pub(super) fn measured(draft: &mut Draft, names: Names<'_>) {
    let [stage] = draft.stages.as_slice() else { return };
    let Some(name) = stage.name.as_deref().filter(|name| CALLED.contains(name)) else { return };
    if draft.is_complete || draft.last.parts.iter().any(|part| part.of() == name) {
        return;
    }
    // where it cannot be computed it is asked, as of any stage that no part names
    let Some(grams) = gives(stage, names) else { return };
    let amount = format!("{} g", grouped(grams, 1).replace(',', ""));
    let said = Remark::Assumed("all that it gives, as computed: weigh yours".to_owned());
    let part = DraftPart { label: name.to_owned(), amount: Some(amount), remarks: vec![said], ..DraftPart::default() };
    draft.last.parts.insert(0, part);
}

/// The grams that a stage gives, where nothing of it is open.
pub(super) fn gives(stage: &DraftStage, names: Names<'_>) -> Option<f64> {
    let parts = stage.parts.iter().map(|part| part.amount.as_deref().map(|amount| part.line(amount).toml));
    let parts: Option<Vec<String>> = parts.collect();
    let text = format!("name = \"-\"\n[parts]\n{}\n", parts?.join("\n"));
    let (card, found) = card::read_by("".into(), text.into(), &names.customs());
    let outcome = solve(&card.filter(|_| !any_error(&found))?, names.house, &Options::default());
    outcome.solved.filter(|_| !any_error(&outcome.diagnostics)).map(|solved| solved.bottled().total_grams())
}
