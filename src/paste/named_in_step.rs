//! What a step puts in without an amount: "stir in the honey", "infuse with thyme", "sweeten to taste".

use crate::input::key;
use crate::spelling;
use crate::vocabulary::{Kind, Word};

use super::draft::{Draft, DraftLine, DraftPart};
use super::names::Names;
use super::putting::{is_small, puts_in};
use super::share::known;
use super::speaks::{names_it, told_in};
use super::strains::Piece;
use super::unknown_in_step::{phrase, unexplained};
use super::words::WordList;

/// "Stir in the honey", "Honig einrühren": what is put in of which no line and no step has an amount.
pub(super) fn named_alone(left: &str, ends: bool, draft: &Draft, names: Names<'_>) -> Vec<DraftLine> {
    let words: Vec<&str> = left.split_whitespace().collect();
    let is_denied = words.iter().any(|word| WordList::Unless.has(word));
    // "rinse the glass with absinthe": what is known and coats a glass is judged as what goes on it
    let is_coat = |_: &usize| draft.is_typed && !ends && WordList::Glass.within(left);
    let coats = with(&words, WordList::Coats).filter(is_coat);
    let from = match ends {
        true => Some(0),
        false => (1..words.len())
            .find(|at| puts_in(words.get(..*at).unwrap_or_default()))
            .or_else(|| with(&words, WordList::Flavours).filter(|_| draft.is_typed))
            .or(coats),
    };
    let Some(mut at) = from.filter(|_| !is_denied) else { return Vec::new() };
    let parts: Vec<DraftPart> =
        draft.stages.iter().chain([&draft.last]).flat_map(|stage| stage.parts.iter().cloned()).collect();
    let stages = || draft.stages.iter().filter_map(|stage| stage.name.as_deref());
    let kind_of = |part: &DraftPart| names.house.larder.find(part.of()).and_then(|known| known.kind);
    let is_named = |name: &str| {
        // "the acids" are those of the list
        let said = spelling::words(name);
        if said.last().is_some_and(|last| parts.iter().any(|part| kind_of(part).is_some_and(|of| of.word() == last))) {
            return true;
        }
        let piece = Piece { text: name, end: name.len(), is_last: true };
        stages().any(|stage| names_it(stage, name))
            || told_in(&parts, &[&piece], names).contains(&true)
            || said.iter().any(|word| is_cut_of(word, &parts))
    };
    let is_listed = |name: &str| {
        let by_larder = || names.house.larder.find(name).is_some_and(|known| is_named(&known.name));
        parts.iter().any(|part| names.same(part.of(), name)) || is_named(name) || by_larder()
    };
    let is_at_guest = WordList::Glass.within(left);
    // soda water is none of the water of the list
    let is_other_soda = |name: &str| {
        let known = names.house.larder.find(name).filter(|known| known.kind == Some(Kind::Soda));
        known.is_some() && !parts.iter().any(|part| names.same(part.of(), name) || kind_of(part) == Some(Kind::Soda))
    };
    // "add the date to the bottle" writes it
    let is_written = |name: &str| WordList::Date.has(name) && WordList::Bottled.within(left);
    let mut asked = Vec::new();
    let mut begins = true;
    while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
        let is_joint = |word: &&str| WordList::And.has(word) || WordList::Between.has(word);
        // "mit Klarspüler abrunden"
        let small = rest.iter().take_while(|word| is_small(word) || draft.is_typed && ends && is_joint(word)).count();
        begins |= rest.iter().take(small).any(is_joint);
        let behind = rest.get(small..).and_then(|rest| rest.split(is_joint).next()).unwrap_or_default();
        let Some(name) = known(behind, names) else {
            if !draft.is_typed {
                break;
            }
            let named = phrase(behind);
            let is_whole = named.len() == behind.len() && !behind.is_empty();
            asked.extend(nobody_knows(&named, begins, (&is_named, &is_listed), names));
            if !is_whole {
                break;
            }
            (at, begins) = (at + small + behind.len(), false);
            continue;
        };
        begins = false;
        // ice cools, and is poured away
        if coats.is_none()
            && (is_other_soda(&name) && !is_at_guest || !is_listed(&name))
            && !WordList::Glass.has(&name)
            && !is_written(&name)
        {
            let asks = format!("how much of it goes in? {} = \"… g\"", key(&name));
            let line = DraftLine::question(&name, asks);
            asked.push(DraftLine { is_guess: WordList::AsLiked.is_said_in(left), ..line });
        }
        let long = behind.iter().position(|word| name.ends_with(word.trim_matches(','))).map_or(1, |last| last + 1);
        at += small + long;
    }
    asked
}

/// "Zitronenscheiben" are of the Zitronen of the list.
fn is_cut_of(word: &str, parts: &[DraftPart]) -> bool {
    /// A shorter word before the cut is rather a part of another one.
    const SHORTEST: usize = 4;
    let heads = CUTS.iter().filter_map(|cut| word.strip_suffix(cut)).filter(|head| head.len() >= SHORTEST);
    let is_it =
        |own: &String, head: &str| own.len() >= SHORTEST && (own.starts_with(head) || head.starts_with(own.as_str()));
    let mut own = parts.iter().flat_map(|part| spelling::words(part.of()));
    heads.into_iter().any(|head| own.any(|own| is_it(&own, head)))
}

/// What German calls a piece of fruit, behind its name; folded, from memory.
const CUTS: [&str; 12] = [
    "scheibe", "scheiben", "stuck", "stucke", "stucken", "wurfel", "viertel", "halfte", "halften", "spalten",
    "streifen", "ringe",
];

/// What a phrase names that stands in no list: by a word of it that the house knows, or by none. `begins`: nothing before it in its
/// place was one.
fn nobody_knows(
    named: &[&str],
    begins: bool,
    (is_named, is_listed): (impl Fn(&str) -> bool, impl Fn(&str) -> bool),
    names: Names<'_>,
) -> Option<DraftLine> {
    let name = Some(named).filter(|_| begins).and_then(unexplained).filter(|_| !is_named(&named.join(" ")))?;
    // "the beautiful thyme"
    let inside = (1..named.len()).find_map(|at| known(named.get(at..)?, names));
    match inside {
        Some(inside) if is_listed(&inside) => None,
        Some(inside) => Some(DraftLine::question(&name, format!("how much of it goes in? {} = \"… g\"", key(&inside)))),
        None => {
            let asks = format!("what is that, and how much of it goes in? {} = \"… g\"", key(&name));
            Some(DraftLine { is_unknown: true, ..DraftLine::question(&name, asks) })
        }
    }
}

/// "Infuse the gin with thyme", "parfumer la liqueur avec du thym": where the thing begins that flavours.
fn with(words: &[&str], verbs: WordList) -> Option<usize> {
    let with = words.iter().position(|word| WordList::RinsedWith.has(word))?;
    verbs.is_said_in(&words.join(" ")).then_some(with + 1)
}

/// "Sweeten to taste", where nothing sweet is on the list.
pub(super) fn sweetened(left: &str, draft: &Draft, names: Names<'_>) -> Option<DraftLine> {
    let mut parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let is_sweet = |part: &DraftPart| {
        let kind = names.house.larder.find(part.of()).and_then(|known| known.kind);
        matches!(kind, Some(Kind::Sugar | Kind::Syrup | Kind::Honey)) || names.house.card(part.of()).is_some()
    };
    let asks = "with what, and how much of it? a line of its own: sugar = \"… g\"";
    (WordList::Sweetened.within(left) && !parts.any(is_sweet)).then(|| DraftLine::question(left, asks))
}
