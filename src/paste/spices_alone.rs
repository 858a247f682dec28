//! "For the spice mix:" over nothing but dry plants is a list, and no stage: nothing is poured there that a strainer could give back.
//! They go in with the one thing that is made besides.

use crate::spelling::words;
use crate::units::told::clauses;
use crate::vocabulary::Kind;

use super::draft::{Draft, DraftPart, DraftStage, Remark};
use super::method::all_steps;
use super::names::Names;
use super::words::WordList;

pub(super) fn put_in(draft: &mut Draft, names: Names<'_>) {
    let steps = all_steps(draft);
    let is_list = |stage: &DraftStage| {
        stage.steps.is_empty()
            && stage.keys.is_empty()
            && stage.asked.is_empty()
            && !stage.parts.is_empty()
            && stage.parts.iter().all(|part| part.amount.is_some() && is_dry(part, names))
            && !stage.name.as_deref().is_some_and(|name| is_measured(name, draft, &steps))
    };
    let Some(at) = draft.stages.iter().position(is_list).filter(|_| !draft.is_complete) else { return };
    let is_there = |stage: &DraftStage| !stage.parts.is_empty() || !stage.asked.is_empty();
    let others = draft.stages.iter().enumerate().filter(|(n, _)| *n != at).map(|(_, stage)| stage);
    // of two others nobody can tell which
    if others.chain([&draft.last]).filter(|stage| is_there(stage)).count() != 1 {
        return;
    }
    let DraftStage { name, parts, .. } = draft.stages.remove(at);
    let said = Remark::Assumed(format!("all of the {}", name.as_deref().unwrap_or("list")));
    let parts = parts.into_iter().map(|mut part| {
        part.remarks.push(said.clone());
        part
    });
    if let Some(into) = draft.stages.iter_mut().chain([&mut draft.last]).find(|stage| is_there(stage)) {
        into.parts.splice(0..0, parts);
    }
}

/// What gives no juice of its own.
fn is_dry(part: &DraftPart, names: Names<'_>) -> bool {
    use Kind::{Bark, Flower, Herb, Leaf, Peel, Seed, Spice, Tea};
    let kind = names.house.larder.find(part.of()).and_then(|known| known.kind);
    let is_kind = kind.is_some_and(|kind| [Bark, Flower, Herb, Leaf, Peel, Seed, Spice, Tea].contains(&kind));
    is_kind && names.is_strained_out(part.of())
}

/// "Add 2 tbsp of the spice mix": not all of it goes in, or may.
fn is_measured(name: &str, draft: &Draft, steps: &[String]) -> bool {
    let own = words(name);
    let names_it = |text: &str| words(text).windows(own.len().max(1)).any(|said| said == own.as_slice());
    let parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let asked = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.asked);
    // "toast the spice mix" is of all of it
    let is_some = |text: &str| text.contains(|c: char| c.is_numeric()) || WordList::Half.within(text);
    let in_question = |remark: &Remark| matches!(remark, Remark::Question(said) if names_it(said));
    parts.into_iter().any(|part| names_it(part.of()))
        || asked.into_iter().any(|line| line.remarks.iter().any(in_question))
        || steps.iter().flat_map(|step| clauses(step)).any(|clause| names_it(clause.text) && is_some(clause.text))
}
