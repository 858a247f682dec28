//! Whether a sentence of the method strains: "do not strain" does not, "strain if you like" leaves it open, and "strain and stir in
//! the sugar" is two things, one behind the other.

use crate::units::Literal;
use crate::units::told::{Clause, clauses, first_told};

use super::words::WordList;

/// So many words in front of a straining a word that denies it stands at the most (ours): "there is no need to strain".
const MOST_BETWEEN: usize = 5;

/// So many words from "through" a sieve is named at the most: "through a very fine chinois".
const REACH: usize = 4;

/// A part of a step in which one thing is done.
pub(super) struct Piece<'a> {
    pub text: &'a str,
    /// Where it ends in its step.
    pub end: usize,
    /// Whether a full stop stands behind it.
    pub is_last: bool,
}

impl<'a> Piece<'a> {
    /// Without the word that joins it to the one before.
    pub(super) fn bare(&self) -> &'a str {
        self.text.split_once(' ').filter(|(word, _)| WordList::And.has(word)).map_or(self.text, |(_, rest)| rest)
    }
}

impl<'a> From<Piece<'a>> for Clause<'a> {
    fn from(piece: Piece<'a>) -> Self {
        Self { text: piece.text, words: piece.bare().split_whitespace().collect(), is_last: piece.is_last }
    }
}

/// The clauses of a step; what is put in behind a straining, or strained into, is a piece of its own.
pub(super) fn pieces(step: &str) -> Vec<Piece<'_>> {
    let mut all: Vec<Piece<'_>> = Vec::new();
    let mut from = 0;
    for clause in clauses(step) {
        let found = step.get(from..).and_then(|rest| rest.find(clause.text)).filter(|_| !clause.words.is_empty());
        let Some(start) = found.map(|at| from + at) else { continue };
        from = start + clause.text.len();
        // "strain, if you like"
        if let Some(before) = all.last_mut().filter(|_| WordList::AsLiked.at_an_end(clause.text).is_some())
            && let Some(text) = step.get(before.end - before.text.len()..from)
        {
            *before = Piece { text, end: from, is_last: clause.is_last };
            continue;
        }
        let cut = cut_behind(clause.text).and_then(|at| Some((at, clause.text.split_at_checked(at)?)));
        match cut {
            Some((at, (front, rest))) => {
                all.push(Piece { text: front.trim_end(), end: start + front.trim_end().len(), is_last: false });
                all.push(Piece { text: rest, end: start + at + rest.len(), is_last: clause.is_last });
            }
            None => all.push(Piece { text: clause.text, end: from, is_last: clause.is_last }),
        }
    }
    all
}

/// Whether it says that something is strained.
pub(super) fn strains(text: &str) -> bool {
    says_it(text).is_some() && !WordList::AsLiked.is_said_in(text)
}

/// "Do not strain."
pub(super) fn is_denied(text: &str) -> bool {
    let denies = words(text).any(|(_, word)| WordList::Unless.has(&word.replace('’', "'")));
    WordList::Unstrained.within(text) || denies && WordList::Strain.within(text) && says_it(text).is_none()
}

/// "Add after straining": it is done behind it.
pub(super) fn is_behind_straining(text: &str) -> bool {
    let mut after = words(text).filter(|(_, word)| WordList::After.has(word));
    after.next().is_some_and(|(at, _)| text.get(at..).is_some_and(strains))
}

/// Where the word ends that strains, and that nothing in front of it denies.
fn says_it(text: &str) -> Option<usize> {
    let words: Vec<(usize, &str)> = words(text).collect();
    let is_denied = |at: usize| {
        let before = words.iter().take(at).rev().take(MOST_BETWEEN);
        before.into_iter().any(|(_, word)| WordList::Unless.has(&word.replace('’', "'")))
    };
    // "simmer the strained peel" strains nothing
    let is_said_of = |at: usize, word: &str| {
        let before = at.checked_sub(1).and_then(|at| words.get(at));
        let is_more = at + 1 < words.len();
        is_more && word.to_lowercase().ends_with("ed") && before.is_some_and(|(_, the)| the.eq_ignore_ascii_case("the"))
    };
    let found = words
        .iter()
        .enumerate()
        .find(|(at, (_, word))| WordList::Strain.within(word) && !is_denied(*at) && !is_said_of(*at, word));
    // "put it through a chinois"; of tea the word says where it is from
    let sieve = words.iter().enumerate().find(|(at, (_, word))| {
        let front = words.iter().take(*at).rev().take(REACH);
        // "durch einen Kaffeefilter"; the list of sieves has verbs ("por 5 minutos y pasar"), so that one counts in English alone
        let mut front = front.into_iter();
        WordList::Passed.within(word) && front.clone().any(|(_, word)| WordList::Through.has(word))
            || WordList::Sieve.within(word) && front.any(|(_, word)| word.eq_ignore_ascii_case("through"))
    });
    let found = found.or(sieve.filter(|(at, _)| !is_denied(*at)));
    let end = found.map(|(_, (at, word))| at + word.len());
    end.or_else(|| WordList::TakenOut.is_said_in(text).then_some(text.len()))
}

/// Where in a clause begins what is done behind the straining: "and stir in the sugar", "into the wine".
fn cut_behind(text: &str) -> Option<usize> {
    let strained = says_it(text)?;
    let is_time = |literal| matches!(literal, Literal::Time(_)).then_some(());
    let found = words(text).filter(|(at, _)| *at > strained).find(|(at, word)| {
        let rest = text.get(at + word.len()..).unwrap_or_default().trim_start();
        let first = rest.split(' ').next().unwrap_or_default();
        let does = WordList::Step.has(first) || WordList::Join.within(rest) || WordList::Mixed.within(rest);
        let is_next = WordList::And.has(word) && does && !strains(rest);
        let said: Vec<&str> = rest.split_whitespace().collect();
        is_next || WordList::Into.has(word) && first_told(&said, is_time).is_none() && !strains(rest)
    });
    found.map(|(at, _)| at)
}

/// The words of a text, and where they begin.
fn words(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let with_places = text.split(' ').scan(0, |at, word| {
        let here = *at;
        *at += word.len() + 1;
        Some((here, word))
    });
    with_places.filter(|(_, word)| !word.is_empty())
}
