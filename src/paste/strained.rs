//! What of the parts is taken out again: plants in the strainer, fat that is lifted off, the curd of milk; and what is poured
//! because it is brewed.

use crate::diagnostic::listed;
use crate::larder::Form;
use crate::spelling::words;
use crate::units::spans::{SpanEnd, time};
use crate::units::{Literal, Reading, literal};
use crate::vocabulary::{Kind, Portion};

use super::boiled_down::is_heated;
use super::draft::{Draft, DraftLine, DraftPart, DraftStage, Remark};
use super::drink::says_how;
use super::names::Names;
use super::speaks::names_it;
use super::strains::{Piece, is_denied, pieces, strains};
use super::taken_out::{pulls, stands};
use super::words::WordList;

/// "1.2 L assam tea" is the brew, where the name alone is that of the leaves.
pub(super) fn brewed(draft: &mut Draft, names: Names<'_>) {
    for part in draft.stages.iter_mut().chain([&mut draft.last]).flat_map(|stage| &mut stage.parts) {
        if part.of.is_none()
            && is_poured(part)
            && let Some(brew) = names.brew_of(&part.label)
        {
            part.remarks.push(Remark::Assumed(format!("poured, so it is brewed: {brew}")));
            part.of = Some(brew);
        }
        let by_volume =
            part.amount.as_deref().is_some_and(|amount| matches!(names.reads(amount), Ok(Literal::Volume(_))));
        let poured = names.house.larder.poured_of(&part.label).filter(|_| part.of.is_none() && by_volume);
        if let Some(poured) = poured.filter(|_| names.house.card(&part.label).is_none()) {
            part.remarks.push(Remark::Assumed(format!("measured by volume, so it is {poured}")));
            part.of = Some(poured);
        }
    }
}

/// Marks what is strained out.
pub(super) fn strained(draft: &mut Draft, steps: &[String], names: Names<'_>) {
    let all: Vec<Piece<'_>> = steps.iter().flat_map(|step| pieces(step)).collect();
    let anywhere = all.iter().any(|piece| strains(piece.text));
    // "do not strain": what is in it stays in
    let never = !anywhere && all.iter().any(|piece| is_denied(piece.text));
    let is_hot = steps.iter().any(|step| is_heated(step));
    let is_lifted = all.iter().any(|piece| WordList::Lift.within(piece.text));
    let parts: Vec<DraftPart> =
        draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts).cloned().collect();
    let is_drink = says_how(draft);
    let mut asked: Vec<&mut DraftPart> = Vec::new();
    for stage in draft.stages.iter_mut().chain([&mut draft.last]) {
        washed_with_fat(stage, steps, names);
        for part in &mut stage.parts {
            // "2 tbsp black tea" in what is strained are leaves: the brew is poured
            let why = match anywhere {
                true if !is_poured(part) => Some("is strained out"),
                false if is_hot && portion(part).is_some_and(Portion::is_spoon) && names.is_tea(part.of()) => {
                    Some("is steeped by the spoon")
                }
                _ => None,
            };
            if let Some((why, leaves)) = why.zip(names.leaves_of(part.of())) {
                part.remarks.push(Remark::Assumed(format!("{} {why}: {leaves}", part.of())));
                part.label = leaves;
            }
            if part.strained.is_none() && may_be_curd(part, &parts, &all, names) {
                let asks = "does it curdle and stay behind? then strained = true here and washed = \"milk\" above";
                part.remarks.push(Remark::Question(asks.to_owned()));
            }
            let knows = names.knows(part.of());
            if part.strained.is_some() || knows && !names.is_strained_out(part.of()) {
                continue;
            }
            match (knows, anywhere) {
                (true, _) if is_left_in(part, &all) => {
                    part.remarks.push(Remark::Assumed("stays in, as the recipe says".to_owned()));
                }
                (true, _) if never => part.remarks.push(Remark::Assumed("stays in: it is not strained".to_owned())),
                (true, _) if is_sieved(part, &all, names) => {
                    let asks = "most of what is blended passes a sieve: does it stay in? else strained = true";
                    part.remarks.push(Remark::Question(asks.to_owned()));
                }
                (true, false) if is_taken_out(part, &all) => {
                    part.strained = Some(true);
                    part.remarks.push(Remark::Assumed("taken out again, as the steps say".to_owned()));
                }
                (true, true) => {
                    part.strained = Some(true);
                    part.remarks.push(Remark::Assumed("strained out with the rest".to_owned()));
                }
                (true, false) if !is_drink && names.is_never_bottled(part.of()) && !is_pinch(part) => {
                    (part.strained, part.strained_is_assumed) = (Some(true), true);
                    let taken = "strained out before bottling; true where it is, false where it stays in";
                    part.remarks.push(Remark::Assumed(taken.to_owned()));
                }
                (true, false) => asked.push(part),
                (false, true) if !is_poured(part) => {
                    part.remarks.push(Remark::Question("is it strained out? then strained = true".to_owned()));
                }
                (false, _) if is_lifted && !is_poured(part) => {
                    let asks =
                        "is it lifted off again? then strained = true here, and washed = \"fat\" above if it is a fat";
                    part.remarks.push(Remark::Question(asks.to_owned()));
                }
                (false, _) => {}
            }
        }
    }
    let called = listed(asked.iter().map(|part| &part.label));
    let asks = match asked.len() {
        1 => "does it stay in? else strained = true".to_owned(),
        _ => format!("do {called} stay in? else strained = true on each of these lines that does not"),
    };
    asked.into_iter().take(1).for_each(|first| first.remarks.push(Remark::Question(asks.clone())));
}

/// "Leave the vanilla in the bottle", "the herbs stay in", behind the last straining: in front of it they may be said to steep so.
fn is_left_in(part: &DraftPart, all: &[Piece<'_>]) -> bool {
    let strained = all.iter().rposition(|piece| strains(piece.text)).unwrap_or(0);
    let does = |text: &str| WordList::Lets.within(text) || WordList::Stays.within(text);
    let is_said =
        |piece: &Piece<'_>| WordList::InIt.is_said_in(piece.text) && does(piece.text) && !tells_time(piece.text);
    let own = words(&part.label);
    let names = |piece: &Piece<'_>| words(piece.text).iter().any(|said| said.chars().count() > 2 && own.contains(said));
    all.get(strained..).unwrap_or_default().iter().any(|piece| is_said(piece) && names(piece))
}

/// What measures it, where that is no unit.
fn portion(part: &DraftPart) -> Option<Portion> {
    let read = part.amount.as_deref().and_then(|amount| literal::read(amount).ok());
    read.and_then(|read| read.measure).and_then(|measure| measure.portion)
}

/// A pinch of pepper is ground, and drunk.
fn is_pinch(part: &DraftPart) -> bool {
    portion(part) == Some(Portion::Pinch)
}

fn tells_time(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    time(&words, SpanEnd::Least).is_some()
}

/// Whether curd of this milk may be left in a strainer: something that may curdle it is there with it by then.
fn may_be_curd(part: &DraftPart, parts: &[DraftPart], all: &[Piece<'_>], names: Names<'_>) -> bool {
    let last = all.iter().rposition(|piece| strains(piece.text));
    let Some((before, behind)) = last.and_then(|at| all.split_at_checked(at + 1)) else { return false };
    let is_told = |pieces: &[Piece<'_>], part: &DraftPart| {
        pieces.iter().any(|piece| names_it(part.of(), piece.text) || names_it(&part.label, piece.text))
    };
    // what only the steps behind the last straining name no strainer sees
    let is_there = |part: &DraftPart| is_told(before, part) || !is_told(behind, part);
    let curdles = |other: &&DraftPart| other.label != part.label && !names.curdles_no_milk(other.of());
    names.may_curdle(part.of()) && is_there(part) && parts.iter().filter(curdles).any(is_there)
}

/// Fruit that is blended and goes through a sieve is not what is left in it.
fn is_sieved(part: &DraftPart, all: &[Piece<'_>], names: Names<'_>) -> bool {
    let known = names.house.larder.find(part.of());
    let is_flesh = known.is_some_and(|known| known.kind == Some(Kind::Fruit) && known.form == Form::Solid);
    let blended = all.iter().position(|piece| WordList::Blended.within(piece.text));
    let behind = blended.and_then(|at| all.get(at..)).unwrap_or_default();
    is_flesh && behind.iter().any(|piece| strains(piece.text) && WordList::Sieve.within(piece.text))
}

/// "Remove the peel."
fn is_taken_out(part: &DraftPart, all: &[Piece<'_>]) -> bool {
    let names = |piece: &&Piece<'_>| names_it(part.of(), piece.text);
    let mut behind = all.iter().skip_while(|piece| !names(piece)).skip(1);
    let is_pulled = |at: usize, piece: &Piece<'_>| {
        let stood = all.get(..=at).unwrap_or_default().iter().any(|piece| stands(piece.text));
        pulls(piece.text) && stood
    };
    behind.any(|piece| WordList::Lift.within(piece.text) && names(&piece))
        || all.iter().enumerate().any(|(at, piece)| names(&piece) && is_pulled(at, piece))
}

/// Fat in a spirit is there for its taste and is lifted off again.
fn washed_with_fat(stage: &mut DraftStage, steps: &[String], names: Names<'_>) {
    let is_told = |stage: &DraftStage| stage.keys.iter().any(|line| line.toml.starts_with("washed"));
    if is_told(stage) || !stage.parts.iter().any(|part| names.is_spirit(part.of())) {
        return;
    }
    let is_lifted = steps
        .iter()
        .flat_map(|step| pieces(step))
        .any(|piece| WordList::Lift.within(piece.text) || strains(piece.text));
    for part in stage.parts.iter_mut().filter(|part| part.strained.is_none() && names.is_fat(part.of())) {
        if !is_lifted {
            let asks = "is it lifted off again? then strained = true here and washed = \"fat\" above";
            part.remarks.push(Remark::Question(asks.to_owned()));
            continue;
        }
        part.strained = Some(true);
        part.remarks.push(Remark::Assumed("lifted off again".to_owned()));
        if is_browned(part, steps) {
            let asks = "browned, its water is gone: of = \"brown butter\", and what it weighs then";
            part.remarks.push(Remark::Question(asks.to_owned()));
        }
        if !stage.keys.iter().any(|line| line.toml.starts_with("washed")) {
            let said = Remark::Assumed(format!("{} is lifted off again", part.of()));
            stage.keys.push(DraftLine::text("washed", "fat").with(said));
        }
    }
}

/// "Brown the butter": what it weighed before was a sixth of water.
fn is_browned(part: &DraftPart, steps: &[String]) -> bool {
    let tells = |piece: &Piece<'_>| WordList::Browned.within(piece.text) && names_it(part.of(), piece.text);
    !WordList::Browned.within(part.of()) && steps.iter().flat_map(|step| pieces(step)).any(|piece| tells(&piece))
}

/// What is measured by volume is seldom strained out, but for spoons of it.
pub(super) fn is_poured(part: &DraftPart) -> bool {
    let read = part.amount.as_deref().and_then(|amount| literal::read(amount).ok());
    let by_spoon = |read: &Reading| read.measure.is_some_and(|m| m.portion.is_some() && m.spread().is_some());
    read.is_some_and(|read| matches!(read.literal, Literal::Volume(_)) && !by_spoon(&read))
}
