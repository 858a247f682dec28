//! A syrup that a step makes of some of the parts before it goes into the rest: "make a syrup with the water and the sugar, boil it".

use super::boiled_down::is_heated;
use super::draft::{Draft, DraftPart, DraftStage};
use super::names::Names;
use super::speaks::{says_all, told_in};
use super::strains::{Piece, pieces, strains};
use super::words::WordList;

/// What it is called; the second where the house has the first.
const CALLED: [&str; 2] = ["syrup", "syrup of this"];

pub(super) fn syrup(draft: &mut Draft, names: Names<'_>) {
    let of_syrup = |part: &DraftPart| WordList::Syrup.has(part.of().rsplit(' ').next().unwrap_or_default());
    if draft.is_complete || !draft.stages.is_empty() || draft.last.parts.iter().any(of_syrup) {
        return;
    }
    let Some(name) = CALLED.into_iter().find(|name| !names.knows(name)) else { return };
    let told: Vec<Piece<'_>> = draft.steps.iter().flat_map(|step| pieces(step)).collect();
    for (at, step) in draft.steps.iter().enumerate() {
        let all = pieces(step);
        let texts: Vec<&str> = told.iter().map(|piece| piece.text).collect();
        let from = draft.steps.iter().take(at).map(|step| pieces(step).len()).sum::<usize>();
        let is_apart = |n: usize, text: &str| {
            let (before, later) = (texts.get(..from + n), texts.get(from + n + 1..));
            let (before, later) = (before.unwrap_or_default(), later.unwrap_or_default());
            makes(text) || is_boiled_apart(&draft.last.parts, before, text, later, names)
        };
        let Some(made) = all.iter().enumerate().find(|(n, piece)| is_apart(*n, piece.text)).map(|(n, _)| n) else {
            continue;
        };
        let start = all.iter().take(made).rposition(|piece| piece.is_last).map_or(0, |at| at + 1);
        let ends = |piece: &Piece<'_>| piece.is_last || WordList::Join.within(piece.text);
        let end =
            all.iter().enumerate().skip(made).find(|(_, piece)| piece.is_last).map_or(all.len(), |(at, _)| at + 1);
        let joins =
            all.iter().enumerate().skip(made + 1).take(end - made - 1).find(|(_, piece)| ends(piece) && !piece.is_last);
        let end = joins.map_or(end, |(at, _)| at);
        let sentence: Vec<&Piece<'_>> = all.iter().skip(start).take(end - start).collect();
        let told = told_in(&draft.last.parts, &sentence, names);
        let count = told.iter().filter(|told| **told).count();
        if count < 2 || count == told.len() || sentence.iter().any(|piece| says_all(piece.text)) {
            continue;
        }
        let from = start.checked_sub(1).and_then(|before| all.get(before)).map_or(0, |piece| piece.end);
        let to = sentence.last().map_or(step.len(), |piece| piece.end);
        let Some((front, said, behind)) = cut(step, from, to) else { return };
        let kept: Vec<String> = [front, behind].into_iter().filter(|text| !text.is_empty()).collect();
        let parts = std::mem::take(&mut draft.last.parts);
        let (inside, rest): (Vec<_>, Vec<_>) = parts.into_iter().zip(told).partition(|(_, told)| *told);
        let only = |all: Vec<(DraftPart, bool)>| all.into_iter().map(|(part, _)| part).collect::<Vec<_>>();
        draft.last.parts = only(rest);
        draft.last.parts.push(DraftPart { label: name.to_owned(), is_stage: true, ..DraftPart::default() });
        draft.steps.splice(at..=at, kept);
        let (name, steps) = (Some(name.to_owned()), vec![said]);
        draft.stages.push(DraftStage { name, steps, parts: only(inside), is_ours: true, ..DraftStage::default() });
        return;
    }
}

/// "Boil the water with the sugar", while other parts stand elsewhere and are strained behind it into what is called the syrup.
fn is_boiled_apart(parts: &[DraftPart], before: &[&str], piece: &str, later: &[&str], names: Names<'_>) -> bool {
    let told = |text: &str| told_in(parts, &[&Piece { text, end: 0, is_last: true }], names);
    let inside = told(piece);
    let is_elsewhere = |text: &&str| told(text).iter().zip(&inside).any(|(there, here)| *there && *here);
    let stands = before.iter().any(|text| told(text).contains(&true)) && !before.iter().any(is_elsewhere);
    let is_syrup = |text: &&str| text.split_whitespace().any(|word| WordList::Syrup.has(word));
    let is_strained = later.iter().any(|text| strains(text)) && !before.iter().any(|text| strains(text));
    is_heated(piece) && stands && is_strained && later.iter().any(is_syrup)
}

/// "Make a syrup", "Sirup kochen".
fn makes(text: &str) -> bool {
    let is_made = text.split_whitespace().any(|word| WordList::Make.has(word));
    is_made && text.split_whitespace().any(|word| WordList::Syrup.has(word))
}

/// A step in three: what stands before a sentence, the sentence, and what stands behind it.
fn cut(step: &str, from: usize, to: usize) -> Option<(String, String, String)> {
    let is_mark = |c: char| matches!(c, '.' | ',' | ';' | '!' | ' ');
    let sentence = |text: &str| {
        let bare = text.trim_matches(is_mark);
        if bare.is_empty() { String::new() } else { format!("{bare}.") }
    };
    let behind = step.get(to..)?;
    Some((sentence(step.get(..from)?), sentence(step.get(from..to)?), behind.trim_start_matches(is_mark).to_owned()))
}
