//! A size that a step says beside no name: "the juice (about 600 ml)", "loosen with 60 ml". Nobody reads it as a part, and it must
//! not be lost. The same of a ratio: "mix kombucha and sugar 1:1".

use crate::diagnostic::Code;
use crate::input::key;
use crate::units::Literal;
use crate::units::display::short;
use crate::units::told::first_told;

use super::alike::alike;
use super::amounts::is_size;
use super::beside::is_ratio;
use super::boiled_down::{is_heated, is_reduced, until_a_size};
use super::draft::{Draft, DraftLine, DraftPart};
use super::filled::filled;
use super::names::Names;
use super::ordinary::is_vessel;
use super::share::known;
use super::speaks::{names_it, told_in};
use super::strains::{Piece, strains};
use super::words::WordList;

/// A size has so many words at the most, and what it is the size of stands so near behind it (ours).
const MOST_SIZE_WORDS: usize = 4;
const MOST_VESSEL_WORDS: usize = 3;

/// What is to be asked of the size in what is left of a clause; `before` is the clause before it.
pub(super) fn size_alone(left: &str, before: &str, draft: &Draft, names: Names<'_>) -> Option<DraftLine> {
    let words: Vec<&str> = left.split_whitespace().collect();
    // "60 degrees" is how hot, or how strong
    let is_double = |text: &str| {
        let is_degrees = text.split(' ').nth(1).is_some_and(|unit| WordList::Degrees.has(unit));
        !is_degrees && names.reads(text).is_err_and(|e| e.code == Code::AmbiguousUnit)
    };
    let plain = (0..words.len()).find_map(|at| {
        (1..=MOST_SIZE_WORDS).rev().find_map(|n| {
            let text = words.get(at..at + n)?.join(" ");
            let begins = text.starts_with(|c: char| c.is_numeric());
            let is_read = begins && (names.reads(&text).is_ok_and(is_size) || is_double(&text));
            is_read.then_some((at, at + n, text))
        })
    });
    let (from, to, size) = plain?;
    // "250 ml bottles" is read whole
    let of_size = words.get(from..).unwrap_or_default().iter().take(to - from + MOST_VESSEL_WORDS);
    let is_vessel_near = of_size.copied().any(is_vessel)
        || words.get(..from).unwrap_or_default().iter().any(|word| is_vessel(word))
        || from == 0 && before.split(' ').any(is_vessel);
    let is_of_glass = [WordList::Drinks, WordList::Each, WordList::Glass].iter().any(|list| list.within(left));
    let is_poured = words.first().is_some_and(|first| WordList::Poured.has(first)) || is_of_glass;
    let is_boiled_down = is_reduced(left) || is_heated(before) && until_a_size(&words);
    let is_elsewhere = is_boiled_down || filled(left, names).is_some() || WordList::ToppedUp.is_said_in(left);
    let parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let is_same = |amount: &str| alike(amount, &size, names);
    let says_what_comes = WordList::Gives.is_said_in(left);
    let is_listed = !says_what_comes && parts.filter_map(|part| part.amount.as_deref()).any(is_same);
    let made = draft.keys.iter().find_map(|line| line.toml.strip_prefix("makes = "));
    let is_made = made.is_some_and(|made| is_same(made.trim_matches('"')));
    let front = words.get(..from).unwrap_or_default();
    if is_vessel_near || is_poured || is_elsewhere || is_listed || is_made || is_of_list(left, front, draft, names) {
        return None;
    }
    // what a strainer or a press gives
    let gives = says_what_comes || [left, before].into_iter().any(gives_juice);
    let asks = match gives {
        true => {
            "is that how much comes out? the sheet counts what the solids keep: weigh them wet and write holds = \
                 (wet - dry) / dry beside them, below zero where juice is pressed out (-0.4); or write the juice as a part in \
                 place of the fruit"
        }
        false => "of what is that? what goes in is a line of its own, with its amount",
    };
    Some(DraftLine::guess(left, asks))
}

/// "100 ml of the juice", "50 ml of the peel spirit", "the remaining 200 ml": some of what a typed card has.
fn is_of_list(left: &str, front: &[&str], draft: &Draft, names: Names<'_>) -> bool {
    let parts: Vec<DraftPart> =
        draft.stages.iter().chain([&draft.last]).flat_map(|stage| stage.parts.clone()).collect();
    let names_one = || told_in(&parts, &[&Piece { text: left, end: left.len(), is_last: true }], names).contains(&true);
    let names_stage = || draft.stages.iter().filter_map(|stage| stage.name.as_deref()).any(|name| names_it(name, left));
    let is_rest = front.last().is_some_and(|word| WordList::Rest.has(word));
    draft.is_typed && (is_rest || WordList::OfThe.is_said_in(left) && (names_one() || names_stage()))
}

/// "Expect to lose about 15 %": what the solids keep is counted without it.
pub(super) fn loss_told(clause: &str) -> Option<DraftLine> {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let is_share = |literal| matches!(literal, Literal::Percent(_)).then_some(());
    let (share, ()) = first_told(&words, is_share).filter(|_| WordList::Loses.within(clause))?;
    let asks =
        format!("is that more than what the solids keep, which is counted? then [loss] left_behind = \"{share}\"");
    Some(DraftLine::guess(clause, asks))
}

/// "Bring it down to 25 % with water", "auf 40 % herabsetzen": a strength that a step ends at, and no name of the list.
pub(super) fn strength_alone(left: &str, draft: &Draft, names: Names<'_>) -> Option<DraftLine> {
    let words: Vec<&str> = left.split_whitespace().collect();
    let abv = strength_in(&words, names).filter(|_| !WordList::Loses.within(left))?;
    let parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    let listed = parts.flat_map(|part| {
        let said = format!("{} {}", part.of(), part.amount.as_deref().unwrap_or_default());
        strength_of(&said.split_whitespace().collect::<Vec<_>>())
    });
    // a range says that of itself
    let aimed = draft.targets.iter().filter_map(|line| line.toml.strip_prefix("abv = "));
    if listed.chain(aimed.map(str::to_owned)).any(|told| told.is_empty() || told == abv) {
        return None;
    }
    // "20 % dilution" is a share of water
    if words.iter().any(|word| WordList::Dilution.has(word)) {
        let has_water = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
        let mut has_water = has_water.filter(|part| draft.is_typed && names.same(part.of(), "water"));
        let asks = "how much water is that? a line of its own: water = \"… ml\"";
        return has_water.next().is_none().then(|| DraftLine::question(left, asks));
    }
    let asks = format!("is that the strength it ends at? then water = \"as needed\" and abv = {abv} under [target]");
    Some(DraftLine::question(left, asks))
}

/// The strength that a clause of the method ends at.
pub(super) fn strength_in(words: &[&str], names: Names<'_>) -> Option<String> {
    strength_of(words).or_else(|| degrees_of_strength(words, names))
}

/// "Portare a 30 gradi con acqua", "ramener à 30 degrés avec de l'eau": with water those are of strength.
fn degrees_of_strength(words: &[&str], names: Names<'_>) -> Option<String> {
    let at = words.iter().position(|word| WordList::DegreesCelsius.has(word))?;
    let number = at.checked_sub(1).and_then(|at| words.get(at)).filter(|number| number.parse::<f64>().is_ok())?;
    let with = words.iter().position(|word| WordList::RinsedWith.has(word))?;
    let is_water = |name: &String| names.same(name, "water");
    (with + 1..words.len()).find_map(|at| known(words.get(at..)?, names)).filter(is_water)?;
    Some((*number).to_owned())
}

/// The first strength that words tell, % vol.
fn strength_of(words: &[&str]) -> Option<String> {
    let is_strength = |literal| match literal {
        Literal::Percent(share) => Some(short(100.0 * share)),
        Literal::Abv(abv) => Some(short(abv)),
        Literal::Proof(proof) => Some(short(proof / 2.0)),
        _ => None,
    };
    first_told(words, is_strength).map(|(_, abv)| abv)
}

/// What is to be asked of a ratio in what is left of a clause, but where the list has all that it names.
pub(super) fn ratio_alone(left: &str, draft: &Draft, names: Names<'_>) -> Option<DraftLine> {
    let words: Vec<&str> = left.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).collect();
    let parts = || draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    // "the 2:1 syrup" is a name
    let is_name = |word: &str| parts().any(|part| part.of().contains(word));
    let is_ratio = words.len() > 1 && words.iter().any(|word| is_ratio(word) && !is_name(word));
    if !is_ratio && !WordList::EqualParts.is_said_in(left) {
        return None;
    }
    let mut named: Vec<String> = Vec::new();
    let mut at = 0;
    while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
        let found = known(rest, names);
        at += found.as_ref().map_or(1, |name| name.split(' ').count());
        named.extend(found.filter(|name| !named.contains(name)));
    }
    let is_listed = |name: &String| parts().any(|part| part.amount.is_some() && names.same(part.of(), name));
    let lines: Vec<String> = named.iter().map(|name| format!("{} = \"… g\"", key(name))).collect();
    let asks = format!("a ratio: how much of each goes in? a line each: {}", lines.join(" and "));
    (named.is_empty() || !named.iter().all(is_listed))
        .then(|| DraftLine::guess(left, asks.trim_end_matches([':', ' '])))
}

/// "Press the quinces", "the juice".
fn gives_juice(text: &str) -> bool {
    let is_juice = |word: &str| word.eq_ignore_ascii_case("juice") || WordList::Juice.has(word);
    strains(text) || WordList::Squeezed.within(text) || text.split(' ').any(is_juice)
}
