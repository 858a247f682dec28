//! What the steps make in a pan of its own while the rest steeps: "boil the sugar and the water and let it cool" in front of the straining,
//! and the syrup goes into what ran through.

use crate::card::{Part, Stage};
use crate::larder::Form;
use crate::vocabulary::Kind;

use super::names::Names;
use super::put_in_behind::told;
use super::speaks::says_all;
use super::strains::Piece;
use super::words::WordList;

/// Which of the parts of a stage the steps in front of its straining make something of and join to nothing there: so it goes in behind.
/// Without sugar it is no syrup, and where no step names what the rest stands in, or adds the syrup `after` the straining, nobody can
/// tell.
pub(super) fn set_apart(stage: &Stage, before: &[Piece<'_>], after: &[Piece<'_>], names: Names<'_>) -> Vec<bool> {
    let sentences: Vec<&[Piece<'_>]> = before.split_inclusive(|piece| piece.is_last).collect();
    let told: Vec<Vec<bool>> = sentences.iter().map(|sentence| told(stage, sentence, names)).collect();
    let is_strained = |told: &[bool]| named(stage, told).any(Part::is_strained);
    let apart = together_with(&told, stage.parts.iter().map(|part| is_sweet(part, names)).collect());
    let is_apart: Vec<bool> = told.iter().map(|told| share(told, &apart)).collect();
    // "toss with the sugar and leave overnight" names no water: the sugar draws it out of what is there, and no syrup is made
    let is_syrup = named(stage, &apart).any(|part| is_stood_in(part, names))
        || sentences.iter().zip(&is_apart).any(|(sentence, is_apart)| {
            *is_apart && sentence.iter().any(|piece| WordList::Syrup.is_said_in(piece.text))
        });
    // what the strained things stand in is told of another sentence
    let stands = told.iter().flatten().zip(stage.parts.iter().zip(&apart).cycle());
    let stands = stands.filter(|(told, (part, apart))| **told && is_stood_in(part, names) && !**apart).count() > 0;
    // "steep for 3 weeks" names nothing, and what it stood in is all that is no syrup
    let stands = stands
        || after.iter().any(|piece| adds(piece.text))
            && stage.parts.iter().zip(&apart).any(|(part, apart)| is_stood_in(part, names) && !apart);
    let first = is_apart.iter().position(|is_apart| *is_apart).unwrap_or(sentences.len());
    let behind = sentences.iter().zip(&told).zip(&is_apart).enumerate().skip(first);
    let mut behind = behind.map(|(_, ((sentence, told), is_apart))| (*sentence, told.as_slice(), *is_apart));
    let is_joined = behind.any(|(sentence, told, is_apart)| {
        let stands_in = named(stage, told).any(|part| is_stood_in(part, names));
        let all = sentence.iter().any(|piece| says_all(piece.text));
        all || if is_apart {
            joins_at_its_end(stage, sentence, names)
        } else {
            joins(sentence, stands_in, is_strained(told))
        }
    });
    let is_one = named(stage, &apart).any(Part::is_strained) || !is_apart.contains(&true);
    // "boil the sugar and the water, cool. Add the fruit and the gin. Strain, bottle": where else would it have gone
    let goes_in =
        after.iter().any(|piece| adds(piece.text) || puts_in(piece.text) && !WordList::BottleOf.within(piece.text));
    if stands && goes_in && is_syrup && !is_joined && !is_one { apart } else { vec![false; stage.parts.len()] }
}

fn named<'s>(stage: &'s Stage, told: &[bool]) -> impl Iterator<Item = &'s Part> {
    stage.parts.iter().zip(told.to_vec()).filter(|(_, told)| *told).map(|(part, _)| part)
}

fn is_sweet(part: &Part, names: Names<'_>) -> bool {
    let kind = names.house.larder.find(&part.of.value).and_then(|known| known.kind);
    matches!(kind, Some(Kind::Sugar | Kind::Syrup))
}

/// What something strained may stand in: flowers and citric acid that go into a syrup stand in the syrup.
fn is_stood_in(part: &Part, names: Names<'_>) -> bool {
    let form = names.house.larder.find(&part.of.value).map(|known| known.form);
    !part.is_strained() && form != Some(Form::Solid)
}

/// These parts and all that a sentence names with one of them.
fn together_with(told: &[Vec<bool>], mut parts: Vec<bool>) -> Vec<bool> {
    loop {
        let before = parts.clone();
        for told in told.iter().filter(|told| share(told, &before)) {
            parts.iter_mut().zip(told).for_each(|(part, told)| *part |= told);
        }
        if parts == before {
            return parts;
        }
    }
}

fn share(one: &[bool], other: &[bool]) -> bool {
    one.iter().zip(other).any(|(one, other)| *one && *other)
}

/// "Pour the syrup over", "add the peel", "mix": behind the syrup, and it speaks of nothing else that is poured.
fn joins(sentence: &[Piece<'_>], stands_in: bool, is_strained: bool) -> bool {
    let is_syrup = sentence.iter().any(|piece| WordList::Syrup.is_said_in(piece.text));
    is_syrup || !stands_in && (is_strained || sentence.iter().any(|piece| puts_in(piece.text)))
}

/// "Boil the sugar with the water and add", "… and pour over".
fn joins_at_its_end(stage: &Stage, sentence: &[Piece<'_>], names: Names<'_>) -> bool {
    let nothing = |piece: &&Piece<'_>| !told(stage, std::slice::from_ref(piece), names).contains(&true);
    sentence.iter().skip(1).filter(nothing).any(|piece| puts_in(piece.text) && !WordList::Until.within(piece.text))
}

/// "Add the syrup", "stir in the syrup"; "bottle the syrup" and "pour into bottles" add nothing.
fn adds(text: &str) -> bool {
    puts_in(text) && WordList::Syrup.is_said_in(text)
}

fn puts_in(text: &str) -> bool {
    [WordList::Join, WordList::Mixed, WordList::PutIn].into_iter().any(|list| list.within(text))
}
