//! A recipe that is strained before the rest goes in, told without headings, in two: what is strained is made first, and all
//! that it gives goes into the rest.

use crate::spelling::fold;
use crate::units::Literal;

use super::boiled_down::is_heated;
use super::draft::{Draft, DraftLine, DraftPart, DraftStage, Remark};
use super::names::Names;
use super::share::share;
use super::sharing::{SharedPart, shared};
use super::speaks::{exception, names_it, says_all, told_in};
use super::strained::is_poured;
use super::strains::{Piece, pieces, strains};
use super::words::WordList;

/// What the first of the two is called; another where the house has that name.
const CALLED: [&str; 3] = ["infusion", "strained infusion", "what is strained"];

/// Parts that are first named, or listed, behind the straining go in behind it.
pub(super) fn in_two(draft: &mut Draft, names: Names<'_>) {
    // The parts of one ratio stand in one list.
    let in_ratio = |part: &DraftPart| {
        part.amount.as_deref().is_some_and(|amount| matches!(names.reads(amount), Ok(Literal::Parts(..))))
    };
    let is_parted = draft.stages.iter().any(|stage| !stage.is_ours);
    if draft.is_complete || is_parted || draft.last.parts.iter().any(in_ratio) {
        return;
    }
    let Some(two) = two_lists(draft, names) else { return };
    draft.last.asked.extend(two.asked.iter().cloned());
    if two.is_one {
        return;
    }
    let Some(name) = CALLED.into_iter().find(|name| !names.knows(name)) else { return };
    // Where the straining stands in the middle of a step, the step is told with the rest.
    let mut kept = draft.steps.split_off(two.step + 1);
    let mut stage =
        DraftStage { name: Some(name.to_owned()), parts: two.first, is_ours: true, ..DraftStage::default() };
    stage.steps = std::mem::take(&mut draft.steps);
    let is_of_first = |at: usize| two.is_asked_first.get(at) == Some(&true);
    let open = std::mem::take(&mut draft.last.asked);
    let (inside, rest): (Vec<_>, Vec<_>) = open.into_iter().enumerate().partition(|(at, _)| is_of_first(*at));
    stage.asked = inside.into_iter().map(|(_, line)| line).collect();
    draft.last.asked = rest.into_iter().map(|(_, line)| line).collect();
    if let Some((front, rest)) = stage.steps.pop().and_then(|step| parted_behind(&step, two.end)) {
        stage.steps.push(front);
        kept.splice(0..0, rest);
    }
    draft.steps = kept;
    draft.last.parts = two.later;
    draft.stages.push(stage);
}

/// What is strained and what goes in behind it, and where in which step the straining ends.
struct TwoLists {
    first: Vec<DraftPart>,
    later: Vec<DraftPart>,
    asked: Vec<DraftLine>,
    /// Which of the lines that are asked already the steps name before the straining.
    is_asked_first: Vec<bool>,
    /// Whether it is put together at once all the same.
    is_one: bool,
    step: usize,
    end: usize,
}

fn two_lists(draft: &Draft, names: Names<'_>) -> Option<TwoLists> {
    let parts = &draft.last.parts;
    let steps: Vec<Vec<Piece<'_>>> = draft.steps.iter().map(|step| pieces(step)).collect();
    let pieces: Vec<(usize, &Piece<'_>)> =
        steps.iter().enumerate().flat_map(|(step, all)| all.iter().map(move |piece| (step, piece))).collect();
    let first = pieces.iter().position(|(_, piece)| strains(piece.text))?;
    let (step, _) = pieces.get(first)?;
    // "strain, squeeze the solids"
    let goes_on = |(of, piece): &&(usize, &Piece<'_>)| of == step && strains(piece.text);
    let at = first + pieces.iter().skip(first + 1).take_while(goes_on).count();
    let (_, strained) = pieces.get(at)?;
    let (before, after) = pieces.split_at_checked(at + 1)?;
    let [before, after] = [before, after].map(|pieces| pieces.iter().map(|(_, piece)| *piece).collect::<Vec<_>>());
    let open: Vec<DraftPart> = draft.last.asked.iter().map(asked_of).collect();
    // what a step puts in stands there by its whole name: of orange flower water "hot water" before it says nothing
    let stands_in = |of: &str, pieces: &[&Piece<'_>]| pieces.iter().any(|piece| fold(piece.text).contains(&fold(of)));
    let told = |of: &[DraftPart], pieces: &[&Piece<'_>], is_of_step: &dyn Fn(&DraftPart) -> bool| {
        let told = told_in(of, pieces, names).into_iter().zip(of);
        told.map(|(told, part)| told && (!is_of_step(part) || stands_in(part.of(), pieces))).collect::<Vec<bool>>()
    };
    let [is_before, is_after] = [&before, &after].map(|pieces| told(parts, pieces, &|part| part.is_added));
    let is_asked_of_step = |part: &DraftPart| stands_in(part.of(), &before) || stands_in(part.of(), &after);
    let [asked_before, asked_after] = [&before, &after].map(|pieces| told(&open, pieces, &is_asked_of_step));
    let says_all = |piece: &&Piece<'_>| says_all(piece.text) || piece.text.to_lowercase().contains("together");
    let excepted: Vec<Piece<'_>> = before
        .iter()
        .filter_map(|piece| {
            let text = piece.text.get(exception(piece.text)?.len()..)?;
            Some(Piece { text, end: piece.end, is_last: piece.is_last })
        })
        .collect();
    let is_left_out = told_in(parts, &excepted.iter().collect::<Vec<_>>(), names);
    // "everything but the sugar" is what cannot be counted too
    let is_asked_left_out = told_in(&open, &excepted.iter().collect::<Vec<_>>(), names);
    let says_all_first = before.iter().any(says_all);
    let is_asked_later = asked_before.iter().zip(&asked_after).any(|(before, after)| !before && *after);
    let of_first = |(told, out): (&bool, bool)| *told || says_all_first && !out;
    let asked_before: Vec<bool> = asked_before.iter().zip(is_asked_left_out).map(of_first).collect();
    let is_asked_first: Vec<bool> =
        asked_before.iter().zip(&asked_after).map(|(before, after)| *before && !after).collect();
    let is_excepted = !excepted.is_empty();
    let is_listed = parts.iter().any(|part| part.is_behind);
    // "strain, add the rest": what nothing before has named
    let is_rest = !is_excepted && after.iter().any(|piece| says_others(piece.text, parts, names));
    let in_all = before.iter().any(|piece| says_all(piece) && exception(piece.text).is_none());
    let all_at_once = in_all && !is_excepted;
    // "stir in the sugar", where a part that nobody knows is all that may be meant
    let joins = |piece: &&Piece<'_>| WordList::Join.within(piece.text) || WordList::Mixed.within(piece.text);
    let names_none = |piece: &&Piece<'_>| !told_in(parts, &[piece], names).contains(&true);
    let puts_in_unnamed = after.iter().any(|piece| joins(piece) && names_none(piece));
    // "earl grey tea" in grams is that of the leaves
    let is_leaves = |part: &DraftPart| !is_poured(part) && names.leaves_of(part.of()).is_some();
    let is_out = |part: &DraftPart| names.is_strained_out(part.of()) || is_leaves(part);
    let (mut first, mut later, mut asked) = (Vec::new(), Vec::new(), Vec::new());
    for (at, part) in parts.iter().enumerate() {
        let is = |told: &[bool]| told.get(at) == Some(&true);
        match shared(part, &before, &after, names).filter(|_| is(&is_before) && is(&is_after)) {
            Some(SharedPart::Told([one, other])) => {
                first.push(one);
                later.push(other);
                continue;
            }
            Some(SharedPart::Asked(line)) => asked.push(line),
            None => {}
        }
        let is_unnamed =
            !in_all && !is_excepted && !is(&is_before) && !is(&is_after) && !names.knows(part.of()) && !part.is_stage;
        let is_later = part.is_behind
            || is_unnamed && puts_in_unnamed
            || is(&is_left_out)
            || is_rest && !is(&is_before)
            || part.is_stage && !is(&is_before)
            || !is(&is_before) && is(&is_after) && (part.is_added || !all_at_once);
        if is_unnamed && !part.is_behind && !is_rest {
            let asks = "the steps do not name it: does it go in before the straining, or behind it?";
            asked.push(DraftLine::question(part.of(), asks));
        }
        if is_out(part) && is(&is_before) && used_again(at, &after, &is_before, parts, names) {
            let asks = "the steps use it again once it is strained: make that a [[stage]] of its own";
            asked.push(DraftLine::question(part.of(), asks));
        }
        if is_later { &mut later } else { &mut first }.push(part.clone());
    }
    // what nobody knows may be what the strainer holds back
    let may_be_out = |part: &DraftPart| is_out(part) || !names.knows(part.of()) && !part.is_stage && !is_poured(part);
    let has_out = first.iter().any(may_be_out) || is_asked_first.contains(&true);
    let asked_first = is_asked_first.iter().filter(|is_first| **is_first).count();
    let has_both = has_out && (first.iter().any(|part| !is_out(part)) || asked_first > 1);
    // what is put in behind a straining is strained out again where there is a second one
    let is_lifted = |text: &str| {
        let mut out = later.iter().filter(|part| is_out(part));
        WordList::Lift.within(text) && out.any(|part| names_it(part.of(), text))
    };
    let again = after.iter().any(|piece| strains(piece.text) || is_lifted(piece.text));
    let stays = later.iter().any(is_out) && !is_listed && !again;
    // "weigh it and add twice its weight of sugar": what nobody can say before it is strained goes in behind it
    let waits = after.iter().any(|piece| share(piece.text, names).is_some());
    let is_added = later.iter().any(|part| part.is_added) || is_asked_later;
    let is_one =
        all_at_once && !is_listed && !waits && !is_added || later.is_empty() && !waits && !is_asked_later || stays;
    Some(TwoLists { first, later, asked, is_asked_first, is_one: is_one || !has_both, step: *step, end: strained.end })
}

/// "Simmer the strained peel in the water": a part that was strained out is heated again, with what nothing before has named.
fn used_again(at: usize, after: &[&Piece<'_>], before: &[bool], parts: &[DraftPart], names: Names<'_>) -> bool {
    after.iter().filter(|piece| is_heated(piece.text)).any(|piece| {
        let told = told_in(parts, &[piece], names);
        let is_new = |(n, part): (usize, &DraftPart)| {
            is_poured(part) && told.get(n) == Some(&true) && before.get(n) == Some(&false)
        };
        told.get(at) == Some(&true) && parts.iter().enumerate().any(is_new)
    })
}

/// What a line that is asked speaks of.
pub(super) fn asked_of(line: &DraftLine) -> DraftPart {
    let read = line.remarks.iter().find_map(|remark| match remark {
        Remark::Question(asked) => asked.split_once(": ").map(|(read, _)| read),
        _ => None,
    });
    DraftPart { label: read.unwrap_or_default().to_owned(), ..DraftPart::default() }
}

/// "Add the rest", "and everything else"; "the rest of the sugar" is of that alone.
fn says_others(text: &str, parts: &[DraftPart], names: Names<'_>) -> bool {
    let Some(at) = WordList::Others.end_in(text) else { return false };
    let behind = Piece { text: text.get(at..).unwrap_or_default(), end: 0, is_last: false };
    !told_in(parts, &[&behind], names).contains(&true)
}

/// A step up to the end of a piece, and what it says behind that.
pub(super) fn parted_behind(step: &str, end: usize) -> Option<(String, Option<String>)> {
    let (front, rest) = step.split_at_checked(end)?;
    let rest = rest.trim_start_matches(|c: char| matches!(c, '.' | ',' | ';' | '!' | ')') || c.is_whitespace());
    let is_joint = |word: &str| WordList::And.has(word) || word.eq_ignore_ascii_case("then");
    let mut rest = rest;
    while let Some((_, behind)) = rest.split_once(' ').filter(|(word, _)| is_joint(word)) {
        rest = behind;
    }
    let begins = rest.chars().next().map(|first| first.to_uppercase().collect::<String>());
    let rest = begins.map(|first| first + rest.get(first_len(rest)..).unwrap_or_default());
    Some((format!("{front}."), rest))
}

fn first_len(text: &str) -> usize {
    text.chars().next().map_or(0, char::len_utf8)
}

/// What is made first goes in whole, once it is known what is strained.
pub(super) fn all_of_it(draft: &mut Draft, names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    // how much all of a ratio is, nobody can say: it is asked, as of any stage that no part names
    let has_size = |stage: &&DraftStage| !in_ratio(stage, names);
    let made: Vec<(String, bool)> = draft
        .stages
        .iter()
        .rev()
        .filter(has_size)
        .filter_map(|stage| Some((stage.name.clone()?, stage.is_ours)))
        .collect();
    for (name, is_ours) in made {
        let whole = |part: &mut DraftPart| {
            part.amount = Some("all".to_owned());
            part.remarks.insert(0, Remark::Assumed("all that it gives".to_owned()));
        };
        let stages = draft.stages.iter_mut().chain([&mut draft.last]);
        match stages.flat_map(|stage| &mut stage.parts).find(|part| part.of() == name) {
            Some(part) => {
                if part.is_stage && part.amount.is_none() {
                    whole(part);
                }
                continue;
            }
            None if !is_ours => continue,
            None => {}
        }
        let mut part = DraftPart { label: name, is_stage: true, ..DraftPart::default() };
        whole(&mut part);
        draft.last.parts.insert(0, part);
    }
}

/// Whether a stage is a ratio, that has no size of its own.
pub(super) fn in_ratio(stage: &DraftStage, names: Names<'_>) -> bool {
    let is_share = |part: &DraftPart| {
        part.amount.as_deref().is_some_and(|amount| matches!(names.reads(amount), Ok(Literal::Parts(..))))
    };
    stage.parts.iter().any(is_share)
}
