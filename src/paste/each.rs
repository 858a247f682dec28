//! "250 g each of sugar and water", "je 100 g Zucker und Wasser", "gin, vermouth: 300 ml each": one amount of several things, a line
//! each.

use crate::units::Literal;

use super::names::Names;
use super::words::WordList;

/// An amount has so many words at the most (ours).
const MOST_WORDS: usize = 3;

pub(super) fn each(text: &str, names: Names<'_>) -> Option<Vec<String>> {
    let (amount, things) =
        text.split_once(" each of ").map(owned).or_else(|| in_front(text, names)).or_else(|| behind(text, names))?;
    let is_joint = |word: &str| WordList::And.has(word);
    let parted: Vec<&str> = things.split_whitespace().map(|word| if is_joint(word) { "," } else { word }).collect();
    let parted = parted.join(" ");
    let things: Vec<&str> = parted.split(',').map(str::trim).filter(|thing| !thing.is_empty()).collect();
    let is_list = is_size(&amount, names) && things.len() > 1 && things.iter().any(|thing| names.knows(thing));
    is_list.then(|| things.iter().map(|thing| format!("{amount} {thing}")).collect())
}

/// The amount behind the word for each: "je 100 g Zucker und Wasser".
fn in_front(text: &str, names: Names<'_>) -> Option<(String, String)> {
    let (each, rest) = text.split_once(' ')?;
    let words: Vec<&str> = rest.split_whitespace().collect();
    let n = (1..=MOST_WORDS).rev().find(|&n| words.get(..n).is_some_and(|front| is_size(&front.join(" "), names)))?;
    let (amount, things) = words.split_at_checked(n).filter(|_| WordList::Each.has(each))?;
    Some((amount.join(" "), things.join(" ")))
}

/// The amount behind them all: "gin, sweet vermouth: 300 ml each", "Gin und Wermut, je 300 ml".
fn behind(text: &str, names: Names<'_>) -> Option<(String, String)> {
    let words: Vec<&str> = text.trim_end_matches('.').split_whitespace().collect();
    let apiece = |words: &[&str]| WordList::Apiece.has(&words.join(" "));
    let ends = (1..=2).find_map(|n| words.split_at_checked(words.len().checked_sub(n)?).filter(|(_, end)| apiece(end)));
    let front = ends.map_or(words.as_slice(), |(front, _)| front);
    let front =
        front.split_last().filter(|(of, _)| **of == "of" || WordList::Of.has(of)).map_or(front, |(_, front)| front);
    let at = (1..front.len()).find(|&at| is_size(&front[at..].join(" "), names))?;
    let (things, amount) = front.split_at_checked(at)?;
    let (things, is_said) = match things.split_last() {
        Some((each, things)) if ends.is_none() => (things, WordList::Apiece.has(each)),
        _ => (things, true),
    };
    let things = things.join(" ");
    let things = WordList::EqualParts
        .at_the_start(&things)
        .then(|| WordList::EqualParts.end_in(&things))
        .flatten()
        .map_or(things.as_str(), |end| things[end..].trim_start());
    let is_mark = |c: char| matches!(c, ':' | ',' | '-' | '–' | '—' | '=' | ' ');
    is_said.then(|| (amount.join(" "), things.trim_end_matches(is_mark).to_owned()))
}

fn is_size(amount: &str, names: Names<'_>) -> bool {
    matches!(names.reads(amount), Ok(Literal::Mass(_) | Literal::Volume(_)))
}

fn owned((amount, things): (&str, &str)) -> (String, String) {
    (amount.to_owned(), things.to_owned())
}
