//! What makes a thing hot whatever the verb: the stove, a steep that is called hot, a hot pan that it goes into, a flame.

use super::strains::strains;
use super::unknown_in_step::ends_phrase;
use super::words::WordList;
use crate::units::told::clauses;

/// "On the hob", "infuser à chaud", "deglaze with the rum", "pour the rum into the hot pan", "let the rum bubble in the pan".
pub(super) fn is_made_hot(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    is_on_the_stove(text)
        || steeps_hot(&words)
        || WordList::Deglazed.within(text)
        || meets_heat(&words)
        || bubbles_in_a_pan(text)
}

/// "Let the vodka bubble in the pan": in a jar it would work.
fn bubbles_in_a_pan(text: &str) -> bool {
    WordList::Bubbles.within(text) && WordList::HotThing.within(text) && !WordList::Unless.within(text)
}

/// "On the hob", never "not on the hob", "auf der Heizung nicht stehen lassen".
fn is_on_the_stove(text: &str) -> bool {
    let Some((front, behind)) = WordList::Stove.round(text) else { return false };
    let ends = behind.split(' ').next_back().is_some_and(|word| WordList::Unless.has(word));
    let is_denied = behind.split_whitespace().next().is_some_and(|word| WordList::NotBehind.has(word));
    !ends && !is_denied && !front.split(' ').any(|word| WordList::Unless.has(word))
}

/// "Steep hot for an hour", "heiß ziehen lassen", "infuser à chaud"; never "steep in hot water".
fn steeps_hot(words: &[&str]) -> bool {
    let is = |at: usize, list: WordList| words.get(at).is_some_and(|word| list.has(word));
    let ends = |at: usize| words.get(at).is_none_or(|word| ends_phrase(word) || WordList::And.has(word));
    let behind = |at: usize| {
        is(at + 1, WordList::Hot) && ends(at + 2) || is(at + 1, WordList::CalledHow) && is(at + 2, WordList::Hot)
    };
    let before = |at: usize| at.checked_sub(1).is_some_and(|at| is(at, WordList::Hot));
    (0..words.len()).any(|at| is(at, WordList::Steeps) && (behind(at) || before(at)))
}

/// "Into the hot pan", "over the hot caramel".
fn meets_heat(words: &[&str]) -> bool {
    let is_hot = |pair: &[&str]| match pair {
        [one, other] => {
            WordList::CalledHot.has(one) && WordList::HotThing.has(other)
                || WordList::HotThing.has(one) && WordList::CalledHotBehind.has(other)
        }
        _ => false,
    };
    words.windows(2).any(is_hot)
}

/// Whether a step sets light to what it makes: "let it burn for ten seconds".
pub(crate) fn burns(step: &str) -> bool {
    clauses(step).iter().any(|clause| {
        let front = WordList::Burns.round(clause.text).map(|(front, _)| front);
        front.is_some_and(|front| !front.split(' ').any(|word| WordList::Unless.has(word)))
    })
}

/// The step that heats what a straining before it left, wet with what steeped: "simmer the solids in the water". `is_hot` says whether
/// a text heats anything.
pub(crate) fn heats_solids<'s>(
    steps: impl Iterator<Item = &'s String>,
    is_hot: impl Fn(&str) -> bool,
) -> Option<&'s String> {
    let mut is_strained = false;
    for step in steps {
        for clause in clauses(step) {
            if is_strained && WordList::Solids.within(clause.text) && is_hot(clause.text) {
                return Some(step);
            }
            is_strained |= strains(clause.text);
        }
    }
    None
}

/// "Boiled spirit", "rhum bouilli": whether what a stage is called says that it was heated.
pub(crate) fn is_called_boiled(name: &str) -> bool {
    name.split_whitespace().any(|word| WordList::CalledBoiled.has(word))
}
