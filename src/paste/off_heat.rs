//! A recipe of which some is heated and the rest goes in behind the heat, told without headings, in two: "off the heat, add the
//! spirit", "reduce the juice by half, stir in the sugar". What was not heated must not stand in the hot pan.

use crate::units::spans::{SpanEnd, time};

use super::boiled_down::{is_heated, is_reduced};
use super::draft::{Draft, DraftLine, DraftPart, DraftStage};
use super::names::Names;
use super::parted::{asked_of, in_ratio, parted_behind};
use super::speaks::{before_until, names_it, says_all, told_in};
use super::strained::is_poured;
use super::strains::{Piece, pieces, strains};
use super::words::WordList;

/// What the hot one is called; another where the house has that name.
const CALLED: [&str; 3] = ["base", "hot base", "what is heated"];

pub(super) fn in_two(draft: &mut Draft, names: Names<'_>) {
    let is_parted = draft.stages.iter().any(|stage| !stage.is_ours);
    if draft.is_complete || is_parted || in_ratio(&draft.last, names) {
        return;
    }
    let Some(name) = CALLED.into_iter().find(|name| !names.knows(name)) else { return };
    let Some(end) = end_of_heat(&draft.steps, &draft.last.parts) else { return };
    let steps: Vec<Vec<Piece<'_>>> = draft.steps.iter().map(|step| pieces(step)).collect();
    let all: Vec<(usize, &Piece<'_>)> =
        steps.iter().enumerate().flat_map(|(step, all)| all.iter().map(move |piece| (step, piece))).collect();
    let Some((before, after)) = all.split_at_checked(end) else { return };
    let [before, after] = [before, after].map(|pieces| pieces.iter().map(|(_, piece)| *piece).collect::<Vec<_>>());
    let open: Vec<DraftPart> = draft.last.asked.iter().map(asked_of).collect();
    let told = |parts: &[DraftPart]| -> Vec<(bool, bool)> {
        let [is_before, is_after] = [&before, &after].map(|pieces| told_in(parts, pieces, names));
        is_before.into_iter().zip(is_after).collect()
    };
    let (of_parts, of_asked) = (told(&draft.last.parts), told(&open));
    let in_all = before.iter().any(|piece| says_all(piece.text));
    // what the list has went in with all of it; what only a step adds did not
    let is_later = |(part, told): (&DraftPart, &(bool, bool))| *told == (false, true) && (part.is_added || !in_all);
    let of_later: Vec<bool> = draft.last.parts.iter().zip(&of_parts).map(is_later).collect();
    let has_later = of_later.contains(&true) || of_asked.contains(&(false, true));
    // a stage that stands above was made before anything is heated
    let has_first = of_parts.iter().chain(&of_asked).any(|(before, _)| *before);
    let is_first_stage = draft.stages.iter().any(|stage| stage.is_ours && stage.name.is_some());
    // butter that is browned and poured into the spirit is washed with, and no base
    let is_hot = |(part, (before, _)): (&DraftPart, &(bool, bool))| *before && !names.is_fat(part.of());
    let has_more = draft.last.parts.iter().zip(&of_parts).any(is_hot) || of_asked.iter().any(|(before, _)| *before);
    if !(has_more || in_all || is_first_stage) || !has_later || !(in_all || has_first || is_first_stage) {
        return;
    }
    let Some((step, last)) = all.get(end - 1).map(|(step, piece)| (*step, piece.end)) else { return };
    let is_whole = all.get(end).is_none_or(|(next, _)| *next != step);
    let mut kept = draft.steps.split_off(step + 1);
    let mut stage = DraftStage { name: Some(name.to_owned()), is_ours: true, ..DraftStage::default() };
    stage.steps = std::mem::take(&mut draft.steps);
    if !is_whole && let Some((front, rest)) = stage.steps.pop().and_then(|step| parted_behind(&step, last)) {
        stage.steps.push(front);
        kept.splice(0..0, rest);
    }
    draft.steps = kept;
    let (mut unnamed, mut unnamed_last) = (Vec::new(), Vec::new());
    let parts = std::mem::take(&mut draft.last.parts).into_iter().zip(of_parts).zip(of_later);
    for ((part, (is_before, is_after)), is_later) in parts {
        if !is_before && !is_after && !in_all {
            let asks = "the steps do not name it: does it go in before the heat, or behind it?";
            unnamed.push(DraftLine::question(part.of(), asks));
        }
        if is_later { &mut draft.last.parts } else { &mut stage.parts }.push(part);
    }
    // what the strainer gave is what is heated, but where the pan has a liquid of its own: "boil the sugar and the water"
    let is_used = |name: &str| stage.parts.iter().chain(&draft.last.parts).any(|part| part.of() == name);
    let made = draft.stages.iter().filter_map(|made| made.name.clone()).filter(|name| !is_used(name));
    let goes_in = made.map(|label| DraftPart { label, is_stage: true, ..DraftPart::default() });
    let goes_in: Vec<DraftPart> = goes_in.collect();
    if stage.parts.iter().any(is_poured) {
        let asks = format!("is it in the hot pan too? then it stands in the stage `{name}`, and not here");
        unnamed_last.extend(goes_in.iter().map(|part| DraftLine::question(&part.label, asks.clone())));
        draft.last.parts.splice(0..0, goes_in);
    } else {
        stage.parts.splice(0..0, goes_in);
    }
    let asked = std::mem::take(&mut draft.last.asked).into_iter().zip(of_asked);
    let (inside, rest): (Vec<_>, Vec<_>) = asked.partition(|(_, told)| *told == (true, false));
    let lines = |all: Vec<(DraftLine, (bool, bool))>| all.into_iter().map(|(line, _)| line).collect::<Vec<_>>();
    stage.asked = lines(inside);
    stage.asked.extend(unnamed);
    draft.last.asked = lines(rest);
    draft.last.asked.extend(unnamed_last);
    draft.stages.push(stage);
}

/// So many pieces of the steps are done when the heat is over; `None` where none is, or nothing says that it ends.
fn end_of_heat(steps: &[String], parts: &[DraftPart]) -> Option<usize> {
    let all: Vec<Piece<'_>> = steps.iter().flat_map(|step| pieces(step)).collect();
    let ends = |piece: &Piece<'_>| WordList::HeatEnds.is_said_in(piece.text);
    // "boil for a minute and let it cool"
    let is_both = |piece: &Piece<'_>| WordList::HeatEnds.round(piece.text).is_some_and(|(front, _)| is_heated(front));
    let is_hot = |piece: &Piece<'_>| {
        let is_still = ["while warm", "still warm", "noch warm"].iter().any(|still| piece.text.contains(still));
        is_heated(piece.text) && (!ends(piece) || is_both(piece)) && !is_still
    };
    let heated = all.iter().rposition(is_hot)?;
    let hot = heated + all.get(heated..).map_or(0, |from| more_in_pan(from, parts));
    if all.get(hot).is_some_and(is_both) {
        return Some(hot + 1);
    }
    let behind = || all.iter().enumerate().skip(hot + 1);
    let marked = behind().find(|(_, piece)| ends(piece)).map(|(at, piece)| {
        // "Kill heat." is the end of it; "off the heat, stir in the sugar" begins what is done behind it
        let names_one = |piece: &Piece<'_>| parts.iter().any(|part| names_it(part.of(), piece.text));
        // "strips of ginger in, off the heat"
        let goes_in = |n: &usize| {
            all.get(*n).is_some_and(|piece| *n > hot && !piece.is_last && names_one(piece) && !strains(piece.text))
        };
        let begins = (0..at).rev().take_while(goes_in).last();
        match begins {
            Some(begins) => begins,
            None if piece.is_last && !names_one(piece) => at + 1,
            None => at,
        }
    });
    marked.or_else(|| {
        let is_down = all.get(heated..=hot).is_some_and(|pan| pan.iter().any(|piece| is_reduced(piece.text)));
        let joins = |piece: &Piece<'_>| WordList::Join.within(piece.text) || WordList::Mixed.within(piece.text);
        behind().find(|(_, piece)| is_down && joins(piece)).map(|(at, _)| at)
    })
}

/// So many pieces go on with the list of what is heated: "simmer ginger, sugar and water for 20 minutes, cool".
fn more_in_pan(from: &[Piece<'_>], parts: &[DraftPart]) -> usize {
    // "simmer the ginger for 20 minutes, lemon juice, off the heat": the heat has had its time by then
    let goes_on = |piece: &Piece<'_>| {
        let words: Vec<&str> = piece.text.split_whitespace().collect();
        !piece.is_last && time(&words, SpanEnd::Least).is_none() && before_until(piece.text) == piece.text
    };
    let does = |text: &str| {
        let mut said = text.split(' ');
        let (first, next) = (said.next().unwrap_or_default(), said.next());
        // "juice, sugar": what has its verb's name
        let is_thing = next.is_none_or(|next| WordList::And.has(next)) && parts.iter().any(|p| names_it(p.of(), first));
        let begins = WordList::Step.has(first) && !is_thing;
        let puts_in = [WordList::PutIn, WordList::Join, WordList::Mixed].into_iter().any(|list| list.within(text));
        begins || puts_in || WordList::HeatEnds.is_said_in(text) || strains(text)
    };
    let is_in_list =
        |piece: &Piece<'_>| !does(piece.bare()) && parts.iter().any(|part| names_it(part.of(), piece.text));
    from.iter().zip(from.iter().skip(1)).take_while(|(before, piece)| goes_on(before) && is_in_list(piece)).count()
}
