//! An amount that a sentence tells of a thing: "250 ml de gin", "4 cinnamon sticks", "a small spoon of salt".

use crate::input::key;
use crate::units::spans::{SpanEnd, time};
use crate::units::told::begins_with_number;
use crate::units::{Literal, is_container, measured_by_hand};

use super::amounts::{Split, is_size, split};
use super::double::is_double;
use super::names::Names;
use super::ordinary::{is_of_kitchens, is_one, is_vessel};
use super::share::known;
use super::unknown_in_step::unexplained;
use super::words::WordList;

/// How much of what a step says.
pub(super) struct InStep {
    /// As it is written, with what it is of.
    pub said: String,
    /// As a card takes it; `None` where nobody but the maker knows how much that is.
    pub amount: Option<String>,
    pub name: String,
    /// What is to be asked where there is no amount.
    pub asks: String,
    /// Whether it is a weight or a volume of which nobody can say which: "2 oz".
    pub is_double: bool,
}

/// An amount and its thing have so many words at the most, and an amount alone (ours).
const MOST_WORDS: usize = 9;
const MOST_AMOUNT_WORDS: usize = 5;

/// A name that nobody knows is read up to so many words (ours).
const MOST_UNKNOWN_WORDS: usize = 4;

/// What these words begin with, and how many of them it takes; `front` stands before them, and `adds` says that it is put in.
pub(super) fn told_at(front: &[&str], words: &[&str], adds: bool, names: Names<'_>) -> Option<(InStep, usize)> {
    let first = words.first()?;
    let is_number = first.starts_with(|c: char| c.is_numeric())
        || begins_with_number(first) && matches!(names.reads(first), Ok(Literal::Number(_)));
    // "el zumo" is no spoon of it
    let by_hand = measured_by_hand(first) && !WordList::Article.has_as_written(first);
    let begins = is_number || is_one(first) || by_hand || is_taken(words) || WordList::HalfOf.has(first);
    // "simmer 2 more minutes"
    let is_more = is_number && words.get(1).is_some_and(|more| WordList::More.has(more));
    let is_time = || words.get(2).is_some_and(|unit| time(&[*first, *unit], SpanEnd::Least).is_some());
    if !begins || is_more && is_time() {
        return None;
    }
    of_known(words, is_number, names)
        .or_else(|| of_unread(words, is_number, names))
        .or_else(|| of_unknown(front, words, adds, names))
        .or_else(|| adds.then(|| of_a_handful(words, is_number, names)).flatten())
}

/// "A sprig of zorblat", "three zorblats", put in: so much of a thing that nobody knows by name.
fn of_a_handful(words: &[&str], is_number: bool, names: Names<'_>) -> Option<(InStep, usize)> {
    let is_noun =
        |word: &&str| WordList::Handful.has_singular(word) || WordList::Sprig.has(word) || measured_by_hand(word);
    let noun = words.iter().take(MOST_HANDFUL_WORDS).position(is_noun);
    let first = words.first().copied().unwrap_or_default();
    let counted = || is_number && matches!(names.reads(first), Ok(Literal::Number(_)));
    let from = noun.or_else(|| counted().then_some(0))? + 1;
    let small = |word: &&&str| word.eq_ignore_ascii_case("of") || WordList::Of.has(word) || WordList::Article.has(word);
    let from = from + words.get(from..)?.iter().take_while(small).count();
    let ends = |word: &&str| {
        let lists =
            [WordList::And, WordList::Into, WordList::Between, WordList::Step, WordList::PutIn, WordList::Small];
        let behind = [WordList::MakesFor, WordList::Beside, WordList::Until, WordList::More, WordList::Each];
        lists.iter().chain(&behind).any(|list| list.has(word)) || word.eq_ignore_ascii_case("to")
    };
    let name: Vec<&str> =
        words.get(from..)?.iter().take_while(|word| !ends(word)).take(MOST_UNKNOWN_WORDS).copied().collect();
    let long = from + name.len();
    let said = words.get(..long)?.join(" ");
    let is_name = name.iter().all(|word| word.chars().count() > 2 && word.starts_with(char::is_alphabetic));
    let is_it = WordList::OfThe.is_said_in(&said) || time(words.get(..long)?, SpanEnd::Least).is_some();
    if name.is_empty() || !is_name || is_it || name.iter().any(|word| is_vessel(word) || is_of_kitchens(word)) {
        return None;
    }
    let name = unexplained(&name)?;
    let asks = format!("what is that, and how much of it goes in? {} = \"… g\"", key(&name));
    Some((InStep { said, amount: None, name, asks, is_double: false }, long))
}

/// What stands in front of its thing has so many words at the most (ours): "a good big handful".
const MOST_HANDFUL_WORDS: usize = 4;

/// "Juice of 2 limes", "le jus d'un citron".
fn is_taken(words: &[&str]) -> bool {
    let first = words.first().copied().unwrap_or_default();
    let is_part = WordList::Juice.has(first) || WordList::Zest.has(first) || matches!(first, "juice" | "zest" | "peel");
    let behind = words.get(1..3).unwrap_or_default();
    is_part && behind.iter().any(|word| begins_with_number(word) || is_one(word) || word.starts_with("d'un"))
}

/// An amount that a card reads, of a thing that the house knows: in as few words as name it.
fn of_known(words: &[&str], is_number: bool, names: Names<'_>) -> Option<(InStep, usize)> {
    let read = |n: usize| {
        // "a pan and bring it up": what joins the next thing is no word of a name
        let of_name = words.get(..n).filter(|said| !said.last().is_some_and(|last| WordList::And.has(last)))?;
        let said = of_name.join(" ");
        let Split::Amount { amount, name, .. } = split(said.trim_end_matches([',', ':']), names) else { return None };
        // "a jar of honey" is no one of anything
        let is_counted = amount.ends_with(" each");
        let by_hand = is_number || is_taken(words) || !is_counted;
        // "a large pan", which is bread in Spanish
        if is_counted && name.split(' ').any(is_vessel) {
            return None;
        }
        let name = if names.knows(&name) { Some(name) } else { names.plain(&name) };
        Some(InStep {
            said,
            amount: Some(amount),
            name: name.filter(|_| by_hand)?,
            asks: String::new(),
            is_double: false,
        })
    };
    let most = words.len().min(MOST_WORDS);
    let (longest, whole) = (2..=most).rev().find_map(|n| Some((n, read(n)?)))?;
    let same = |n: usize| read(n).filter(|found| found.name == whole.name).map(|found| (found, n));
    (2..longest).find_map(same).or(Some((whole, longest)))
}

/// "A small spoon of salt", "3 glugs of rum", "2 oz gin": how much that is, nobody but the maker knows.
fn of_unread(words: &[&str], is_number: bool, names: Names<'_>) -> Option<(InStep, usize)> {
    let is_of = |word: &&str| word.eq_ignore_ascii_case("of") || WordList::Of.has(word);
    (1..=MOST_AMOUNT_WORDS.min(words.len())).find_map(|n| {
        let (front, behind) = words.split_at_checked(n)?;
        let written = front.join(" ");
        let is_noun = n > 1 && behind.first().is_some_and(is_of) && !front.iter().any(|word| WordList::Syrup.has(word));
        let is_double = is_number && names.reads(&written).is_err_and(|why| is_double(&why));
        let is_time = time(front, SpanEnd::Least).is_some();
        let name = known(behind, names).filter(|_| (is_noun || is_double) && !is_time)?;
        let long = words.len().min(n + behind.iter().take_while(|word| !name.ends_with(**word)).count() + 1);
        let said = words.get(..long)?.join(" ");
        let asks = match split(&said, names) {
            Split::Unread(asks) if is_double => asks,
            _ => format!("how much of it is that? {} = \"… g\"", key(&name)),
        };
        Some((InStep { said, amount: None, name, asks, is_double }, long))
    })
}

/// A weight or a volume that is put in of a thing that nobody knows by name.
fn of_unknown(front: &[&str], words: &[&str], adds: bool, names: Names<'_>) -> Option<(InStep, usize)> {
    let (n, amount) = (1..=MOST_AMOUNT_WORDS.min(words.len())).rev().find_map(|n| {
        let amount = words.get(..n)?.join(" ");
        // "a 500 ml jar"
        (names.reads(&amount).is_ok_and(is_size) && !is_container(&amount)).then_some((n, amount))
    })?;
    // "into a 2 l jar"; "soften it in 50 g of lemon curd"
    let stands_in = front.last().is_some_and(|last| WordList::Between.has(last));
    let is_of_vessel = front.last().is_some_and(|last| is_one(last) || WordList::Into.has(last)) && !stands_in;
    let small = |word: &&&str| word.eq_ignore_ascii_case("of") || WordList::Of.has(word) || WordList::Article.has(word);
    let behind = words.get(n..)?;
    let joint = behind.iter().take_while(small).count();
    let ends = |word: &&str| {
        let is_joint = WordList::And.has(word) || WordList::Into.has(word) || WordList::Between.has(word);
        is_joint || WordList::Step.has(word) || WordList::PutIn.has(word) || WordList::Small.has(word)
    };
    let behind = behind.get(joint..)?;
    let name: Vec<&str> = behind.iter().take_while(|word| !ends(word)).take(MOST_UNKNOWN_WORDS).copied().collect();
    let is_vessel = name.iter().any(|word| is_vessel(word));
    let is_name = name.first().is_some_and(|first| first.starts_with(char::is_alphabetic));
    let long = n + joint + name.len();
    let said = words.get(..long)?.join(" ");
    let found = InStep { said, amount: Some(amount), name: name.join(" "), asks: String::new(), is_double: false };
    let is_it = WordList::OfThe.is_said_in(&found.said);
    ((adds || stands_in) && is_name && !is_vessel && !is_of_vessel && !is_it).then_some((found, long))
}
