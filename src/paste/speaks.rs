//! Whether a clause of the method speaks of a part of the list, or of all of them.

use crate::larder::spoken::taken_of;
use crate::spelling::words;
use crate::vocabulary::{Kind, Word};

use super::draft::DraftPart;
use super::names::Names;
use super::strains::Piece;
use super::words::WordList;

/// "Put everything in a jar"; "all the milk" is the milk.
pub(super) fn says_all(clause: &str) -> bool {
    // "die Milch-Obers-Mischung" is of those two
    let said: Vec<&str> = before_until(clause).split(' ').filter(|word| !word.contains('-')).collect();
    let clause = said.join(" ");
    // "alles" is no plural
    let as_written = clause.split(|c: char| !c.is_alphanumeric()).any(|word| word.eq_ignore_ascii_case("alles"));
    let said = words(&clause);
    // "all the milk" is the milk, and "all day", "all over" are of no part
    let of_one = |at: usize| said.get(at + 1).is_some_and(|next| NOT_ALL.contains(&next.as_str()));
    let is_lot = WordList::TheLot.end_in(&clause).is_some_and(|end| !clause[end..].starts_with(" of "));
    as_written
        || is_lot
        || said.iter().enumerate().any(|(at, word)| WordList::Everything.has(word) && !(word == "all" && of_one(at)))
}

/// Words behind "all" with which it does not mean everything.
const NOT_ALL: [&str; 10] = ["the", "of", "day", "night", "over", "around", "through", "gone", "dissolved", "melted"];

/// "Simmer until it is all gone to mush": what is so by then is no word of what is put in.
pub(super) fn before_until(clause: &str) -> &str {
    let mut words = clause.match_indices(' ').map(|(at, _)| at).filter(|&at| {
        let mut behind = clause.get(at + 1..).unwrap_or_default().split([' ', '\'', '’']);
        let is_until = behind.next().is_some_and(|word| WordList::Until.has(word));
        // "2 bis 3 Wochen" is a range
        is_until && !behind.next().is_some_and(|next| next.starts_with(|c: char| c.is_numeric()))
    });
    words.next().and_then(|at| clause.get(..at)).unwrap_or(clause)
}

/// Whether a clause speaks of a part: by the last word of its name, or by another that says what it is.
pub(super) fn names_it(part: &str, clause: &str) -> bool {
    let said = words(clause);
    let of = taken_of(part).unwrap_or_else(|| part.to_owned());
    let own = without_figures(words(&of));
    let long: Vec<&String> = own.iter().filter(|word| tells_apart(word)).collect();
    long.iter().any(|word| said.contains(word)) || own.last().is_some_and(|last| said.contains(last))
}

/// "Vodka 40 %", "alcool a 95°" without their strength: "add 40 g" and "a fuoco basso" are no words of them, and rum of 40 % no vodka.
fn without_figures(own: Vec<String>) -> Vec<String> {
    let is_figure = |word: &String| word.chars().all(|c| c.is_ascii_digit()) || word.chars().count() == 1;
    if own.iter().all(is_figure) { own } else { own.into_iter().filter(|word| !is_figure(word)).collect() }
}

/// Words of names that say of many things what they are like, and of none what it is.
const TOO_WIDE: [&str; 12] =
    ["white", "red", "green", "black", "fresh", "dried", "ground", "whole", "caster", "golden", "dark", "light"];

/// Whether a word of a name tells its thing from another.
pub(super) fn tells_apart(word: &str) -> bool {
    word.len() > 2 && !TOO_WIDE.contains(&word)
}

/// Whether a clause speaks of a part, and by what kind of thing it is: "the sugar" of demerara, "the spirit" of gin, "the spices".
fn speaks_of(part: &str, clause: &str, names: Names<'_>) -> bool {
    let kind = names.house.larder.find(part).and_then(|known| known.kind);
    names_it(part, clause)
        || kind.is_some_and(|kind| words(clause).iter().any(|word| word == kind.word()))
        || names.is_strained_out(part) && WordList::Plants.within(clause)
}

/// The same of one of several parts: "Korn" is the Doppelkorn where none is Korn alone.
pub(super) fn speaks_of_one(part: &str, parts: &[&str], clause: &str, names: Names<'_>) -> bool {
    let is_a_name = |word: &String| parts.iter().any(|part| words(part).contains(word));
    let in_compound =
        || words(clause).iter().filter(|word| !is_a_name(word)).any(|word| is_compound(&words(part), word));
    speaks_of(part, clause, names) || in_compound()
}

/// Which of the parts the pieces of a method name, each by what parts it from the others: "the almonds" are not the almond extract,
/// "the sugar" is the demerara where there is no other. What is excepted of everything is not named.
pub(super) fn told_in(parts: &[DraftPart], pieces: &[&Piece<'_>], names: Names<'_>) -> Vec<bool> {
    let own: Vec<Vec<String>> = parts.iter().map(|part| own_words(parts, part)).collect();
    let is_a_name = |word: &String| own.iter().any(|own| own.contains(word));
    let mut told = vec![false; parts.len()];
    let mut excepts = false;
    for piece in pieces {
        let begins = piece.text.split(' ').next().is_some_and(|first| WordList::Step.has(first));
        let text = match exception(piece.text) {
            Some(front) => {
                excepts = true;
                front
            }
            None if excepts && !begins => "",
            None => {
                excepts = false;
                piece.text
            }
        };
        let said = words(text);
        let matched: Vec<Vec<&String>> =
            own.iter().map(|own| own.iter().filter(|word| said.contains(word)).collect()).collect();
        // "the lemon peel" is not the lemon juice
        let is_less = |at: &Vec<&String>| {
            matched.iter().any(|other| other.len() > at.len() && at.iter().all(|word| other.contains(word)))
        };
        for (((part, own), matched), told) in parts.iter().zip(&own).zip(&matched).zip(&mut told) {
            let in_compound = || said.iter().filter(|word| !is_a_name(word)).any(|word| is_compound(own, word));
            *told |= !matched.is_empty() && !is_less(matched) || in_compound();
            *told |= is_short_for(part, parts, &said, names) || is_peel(part, parts, &said);
        }
        excepts &= !piece.is_last;
    }
    told
}

/// "Everything except the water and the sugar": what stands in front of the exception.
pub(super) fn exception(text: &str) -> Option<&str> {
    let at = text.char_indices().filter(|(_, c)| *c == ' ').map(|(at, _)| at).find(|&at| {
        let behind = text.get(at + 1..).unwrap_or_default();
        WordList::Except.has(behind.split(' ').next().unwrap_or_default())
            || WordList::Except.at_an_end(behind).is_some_and(|word| behind.to_lowercase().starts_with(word))
    })?;
    text.get(..at).filter(|front| says_all(front))
}

/// The words that name a part and none of the parts that its own name holds.
fn own_words(parts: &[DraftPart], part: &DraftPart) -> Vec<String> {
    let of = |part: &DraftPart| without_figures(words(&taken_of(part.of()).unwrap_or_else(|| part.of().to_owned())));
    let own = of(part);
    let is_inner = |other: &Vec<String>| other.len() < own.len() && other.iter().all(|word| own.contains(word));
    let inner: Vec<String> = parts.iter().map(of).filter(is_inner).flatten().collect();
    let is_last = |at: usize| at + 1 == own.len();
    let says = |(at, word): &(usize, &String)| (is_last(*at) || tells_apart(word)) && !inner.contains(word);
    own.iter().enumerate().filter(says).map(|(_, word)| word.clone()).collect()
}

/// "Essig" of "Apfelessig", "Kaffee" of "Kaffeebohnen": a word of so many letters at the least (ours).
fn is_compound(own: &[String], said: &str) -> bool {
    const FEWEST_LETTERS: usize = 4;
    let is_long = said.chars().count() >= FEWEST_LETTERS;
    is_long && own.iter().any(|own| own.len() > said.len() && (own.ends_with(said) || own.starts_with(said)))
}

/// "Le scorze", of the one part that is peel.
fn is_peel(part: &DraftPart, parts: &[DraftPart], said: &[String]) -> bool {
    let of_peel = |part: &DraftPart| WordList::Peel.within(part.of());
    of_peel(part)
        && said.iter().any(|word| WordList::Peel.has_folded(word))
        && parts.iter().filter(|other| of_peel(other)).count() == 1
}

/// "The sugar", "the alcohol", of the one part that is of that kind.
fn is_short_for(part: &DraftPart, parts: &[DraftPart], said: &[String], names: Names<'_>) -> bool {
    let kind = |part: &DraftPart| names.house.larder.find(part.of()).and_then(|known| known.kind);
    let Some(of) = kind(part) else { return false };
    let short = |word: &String| match of {
        Kind::Sugar => WordList::Sweet.has_folded(word),
        Kind::Spirit => WordList::Strong.has_folded(word) || word == of.word(),
        _ => word == of.word(),
    };
    let is_plant = || names.is_strained_out(part.of()) && said.iter().any(|word| WordList::Plants.has_folded(word));
    let is_one = || parts.iter().filter(|other| kind(other) == Some(of)).count() == 1;
    said.iter().any(short) && is_one() || is_plant()
}
