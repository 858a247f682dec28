//! What fills a batch up to its size, and to which: "water to 1 l", "top up with water to 1 litre", "make up to 70cl with water".

use crate::input::key;
use crate::units::Literal;

use super::alike::alike;
use super::draft::{Draft, DraftLine, DraftPart, Remark};
use super::keys;
use super::names::Names;
use super::speaks::told_in;
use super::strains::{Piece, pieces};
use super::words::WordList;
use crate::spelling::fold;
use crate::units::told::first_told;

/// The thing, and the size.
#[derive(Debug, PartialEq)]
pub(super) struct FilledUp {
    pub name: String,
    pub size: String,
}

/// So many words a size has at most: "1 1/2 US pints".
const MOST_SIZE_WORDS: usize = 4;

pub(super) fn filled(text: &str, names: Names<'_>) -> Option<FilledUp> {
    let words: Vec<&str> = text.trim_end_matches(['.', '!']).split_whitespace().collect();
    let is_to = |word: &&str| matches!(word.to_lowercase().as_str(), "to" | "auf");
    let is_size = |size: &String| matches!(names.reads(size), Ok(Literal::Volume(_) | Literal::Mass(_)));
    let (at, end, size) = words.iter().enumerate().filter(|(_, word)| is_to(word)).find_map(|(at, _)| {
        let from = words.get(at + 1..)?.iter().position(|word| !WordList::Fill.has(word))? + at + 1;
        (1..=MOST_SIZE_WORDS).rev().find_map(|n| {
            let size = in_figures(words.get(from..from + n)?);
            let starts = size.starts_with(|c: char| c.is_numeric());
            (starts && is_size(&size)).then_some((at, from + n, size))
        })
    })?;
    let kept = |words: &[&str]| {
        let kept = words.iter().map(|word| word.trim_matches(','));
        kept.filter(|word| !WordList::Fill.has(word)).collect::<Vec<_>>().join(" ")
    };
    let (front, behind) = (kept(words.get(..at)?), kept(words.get(end..)?));
    let name = match (front.is_empty(), behind.is_empty()) {
        (false, true) => front,
        (true, false) => behind,
        _ => return None,
    };
    let known = if names.knows(&name) { Some(name) } else { names.plain(&name) };
    let name = known.filter(|name| !name.contains(|c: char| c.is_ascii_digit()))?;
    (!text.contains(" of ")).then_some(FilledUp { name, size })
}

/// "A litre", "un litro" as "1 litre".
fn in_figures(words: &[&str]) -> String {
    match words.split_first() {
        Some((one, unit)) if WordList::One.has(one) || matches!(one.to_lowercase().as_str(), "a" | "one" | "einen") => {
            format!("1 {}", unit.join(" "))
        }
        _ => words.join(" "),
    }
}

/// "Auf 500 ml auffüllen": what fills it up nobody has said.
fn is_filled_with_what(text: &str, names: Names<'_>) -> bool {
    let words: Vec<&str> = text.trim_end_matches(['.', '!']).split_whitespace().collect();
    let is_size = |literal| matches!(literal, Literal::Volume(_) | Literal::Mass(_)).then_some(());
    WordList::ToppedUp.is_said_in(text) && first_told(&words, is_size).is_some() && filled(text, names).is_none()
}

/// Whether that is the size that the batch makes by its key.
fn is_made(size: &str, draft: &Draft, names: Names<'_>) -> bool {
    let made = draft.keys.iter().find_map(|line| line.toml.strip_prefix("makes = "));
    made.is_some_and(|made| alike(made.trim_matches('"'), size, names))
}

/// The size that it is filled up to is what the batch makes; two that differ are asked.
pub(super) fn makes(size: &str, draft: &mut Draft, names: Names<'_>) {
    let said = |line: &DraftLine| line.toml.strip_prefix("makes = ").map(|said| said.trim_matches('"').to_owned());
    let before = draft.keys.iter().find_map(said).filter(|_| draft.makes);
    match before {
        Some(before) if names.reads(&before) != names.reads(size) => {
            let asks = format!("filled up to {size}, and it makes {before}: which one?");
            draft.last.asked.push(DraftLine::question("", asks));
        }
        Some(_) => {}
        None => {
            keys::read(&format!("makes: {size}"), draft, false);
        }
    }
}

/// A stage that its own steps fill up to a size: how much that took, its list does not say.
fn in_stages(draft: &mut Draft, names: Names<'_>) {
    for stage in draft.stages.iter_mut().filter(|_| !draft.is_complete) {
        let is_listed = |name: &str| draft.is_typed && stage.parts.iter().any(|part| fold(part.of()) == fold(name));
        let pieces: Vec<Piece<'_>> = stage.steps.iter().flat_map(|step| pieces(step)).collect();
        let asks = |piece: &Piece<'_>| match filled(piece.text, names) {
            Some(found) if is_listed(&found.name) => None,
            Some(found) => Some(format!("how much of it was that? weigh: {} = \"… g\"", key(&found.name))),
            None => is_filled_with_what(piece.text, names).then(|| FILLED_WITH_WHAT.to_owned()),
        };
        let asked: Vec<DraftLine> =
            pieces.iter().filter_map(|piece| Some(DraftLine::question(piece.bare(), asks(piece)?))).collect();
        // what our stage gives is what the strainer gave, and it is filled up behind that
        if stage.is_ours { &mut draft.last.asked } else { &mut stage.asked }.extend(asked);
    }
}

/// Who fills up has not said with what.
const FILLED_WITH_WHAT: &str = "with what, and how much of it was that? a line of its own: water = \"… g\"";

/// A step that fills up with what the list has no amount of.
pub(super) fn in_steps(draft: &mut Draft, names: Names<'_>) {
    in_stages(draft, names);
    let steps = draft.steps.clone();
    let all: Vec<Piece<'_>> = steps.iter().flat_map(|step| pieces(step)).collect();
    for (at, piece) in all.iter().enumerate() {
        let Some(found) = filled(piece.text, names) else {
            if !draft.is_complete && is_filled_with_what(piece.text, names) {
                draft.last.asked.push(DraftLine::question(piece.bare(), FILLED_WITH_WHAT));
            }
            continue;
        };
        let is_known = |part: &&DraftPart| fold(part.of()) == fold(&found.name);
        // a typed card says in `makes` how far it fills up
        if draft.is_typed && is_made(&found.size, draft, names) && draft.last.parts.iter().any(|part| is_known(&part)) {
            continue;
        }
        let behind: Vec<&Piece<'_>> = all.iter().skip(at + 1).collect();
        let is_other = |part: &DraftPart| fold(part.of()) != fold(&found.name);
        let goes_in = told_in(&draft.last.parts, &behind, names);
        // "top up to 500 g with water", and the sugar goes in behind it: that is not how much it makes
        if draft.last.parts.iter().zip(goes_in).any(|(part, goes_in)| goes_in && is_other(part)) {
            let asks = format!("how much of it was that? weigh: {} = \"… g\"", key(&found.name));
            draft.last.asked.push(DraftLine::question(piece.bare(), asks));
            continue;
        }
        makes(&found.size, draft, names);
        let same = |part: &&DraftPart| fold(part.of()) == fold(&found.name);
        match draft.last.parts.iter().find(same).map(|part| part.amount.is_some()) {
            Some(false) => {}
            Some(true) => {
                let asks = format!(
                    "a step fills up with {} to {}: is what the list has of it all of that, or is it \"as needed\"?",
                    found.name, found.size
                );
                draft.last.asked.push(DraftLine::question("", asks));
            }
            None => {
                let said = format!("a step fills up to {} with it", found.size);
                let remarks = vec![Remark::Assumed(said)];
                draft.last.parts.push(DraftPart { label: found.name, remarks, ..DraftPart::default() });
            }
        }
    }
}
