//! What a garnish, the rim of a glass and a last step put on a drink, in words: how it is cut and on what it lies left out.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::card::Card;
use crate::spelling::{fold, words};
use crate::vocabulary::{Allergen, is_qualifier, table};

#[derive(Deserialize)]
struct DressingRow {
    word: String,
    says: Option<Says>,
}

/// What a word says beside that it is no food.
#[derive(Clone, Copy, PartialEq, Eq, Deserialize)]
enum Says {
    #[serde(rename = "puts on")]
    PutsOn,
    #[serde(rename = "rim")]
    Rim,
    #[serde(rename = "ends")]
    Ends,
    #[serde(rename = "tail")]
    Tail,
}

static WORDS: LazyLock<HashMap<String, Option<Says>>> = LazyLock::new(|| {
    let rows: Vec<DressingRow> = table::rows("dressing-words.csv", include_str!("data/dressing-words.csv"));
    rows.into_iter().map(|row| (fold(&row.word), row.says)).collect()
});

/// What stands in front of the cut in one German word, as it may be called alone: "limettenscheibe", "minzzweig".
pub(crate) fn heads(word: &str) -> Vec<String> {
    /// A shorter word in front is rather a part of another one (ours).
    const SHORTEST: usize = 4;
    let tails = WORDS.iter().filter(|(_, says)| **says == Some(Says::Tail));
    let heads = tails.filter_map(|(tail, _)| word.strip_suffix(tail.as_str())).filter(|head| head.len() >= SHORTEST);
    let called = |head: &str| [head.to_owned(), format!("{head}e"), head.trim_end_matches(['n', 's']).to_owned()];
    heads.flat_map(called).collect()
}

/// Where it is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum DressedBy {
    /// All of it is put on.
    Garnish,
    /// What stands behind "with", or beside a rim.
    Glass,
    /// What stands behind a word that puts it on ("garnish with").
    Step,
}

#[derive(Deserialize)]
struct UsualRow {
    word: String,
    brings: Allergen,
}

static USUAL: LazyLock<HashMap<String, Allergen>> = LazyLock::new(|| {
    let rows: Vec<UsualRow> = table::rows("dressing-usual.csv", include_str!("data/dressing-usual.csv"));
    rows.into_iter().map(|row| (fold(&row.word), row.brings)).collect()
});

/// What a thing usually brings where it is put on a glass, though the larder has another under its name.
pub(crate) fn usually_brings(name: &str) -> Option<Allergen> {
    USUAL.get(name).copied()
}

/// Whether a word by itself names no food.
pub(crate) fn is_no_food(word: &str) -> bool {
    WORDS.contains_key(word) || is_qualifier(word) || word.chars().all(|c| c.is_ascii_digit() || "./%".contains(c))
}

/// One thing that is put on a drink.
#[derive(Clone, Debug)]
pub(crate) struct PutOn {
    /// As the card has it.
    pub(crate) said: String,
    /// Its folded words.
    pub(crate) words: Vec<String>,
}

/// All that a card of a drink says is put on it, and where it says so.
pub(crate) fn dressings(card: &Card) -> impl Iterator<Item = (PutOn, DressedBy)> {
    let garnish = card.drink.garnish.iter().map(|text| (text, DressedBy::Garnish));
    let glass = card.drink.glass.iter().map(|text| (text, DressedBy::Glass));
    let steps = card.steps.iter().map(|text| (text, DressedBy::Step));
    let all = garnish.chain(glass).chain(steps);
    all.flat_map(|(text, by)| put_on(text, by).into_iter().map(move |piece| (piece, by)))
}

/// A sweet of starch, fat and lecithin that nobody states, where one sprinkle is a word of how.
const SPRINKLES: &str = "sprinkles";

/// The pieces of a text that are put on a drink.
fn put_on(text: &str, by: DressedBy) -> Vec<PutOn> {
    let pieces = text.split([',', ';', '.', ':', '(', ')', '!', '+', '&', '/']);
    let of = pieces.filter_map(|written| {
        // a picture is no word, and stands for a thing that nobody states
        let pictured = written.chars().any(|c| c > '\u{2FFF}').then(|| written.trim().to_owned());
        let mut all: Vec<String> = words(written).into_iter().chain(pictured).collect();
        let original: Vec<&str> = written.split_whitespace().collect();
        let is_alike = original.len() == all.len();
        for (word, as_written) in all.iter_mut().zip(&original).filter(|_| is_alike) {
            if as_written.eq_ignore_ascii_case(SPRINKLES) {
                SPRINKLES.clone_into(word);
            }
        }
        let (from, to) = span_put_on(&all, by);
        let words = all.get(from..to).filter(|words| !words.is_empty())?.to_vec();
        // where a word of the card is more than one folded word nobody can tell which are meant
        let said = original.get(from..to).filter(|_| is_alike);
        Some(PutOn { said: said.map_or_else(|| words.join(" "), |said| said.join(" ")), words })
    });
    of.collect()
}

/// From which of the words of a piece to which it is put on.
fn span_put_on(piece: &[String], by: DressedBy) -> (usize, usize) {
    let says = |word: &String| WORDS.get(word.as_str()).copied().flatten();
    let end = piece.len();
    match by {
        DressedBy::Garnish => (0, end),
        DressedBy::Glass if piece.iter().any(|word| says(word) == Some(Says::Rim)) => (0, end),
        DressedBy::Glass => (piece.iter().position(|word| word == "with").map_or(end, |at| at + 1), end),
        DressedBy::Step => {
            let begins = |word| matches!(says(word), Some(Says::PutsOn | Says::Rim));
            let from = piece.iter().position(begins).map_or(end, |at| at + 1);
            let ends = piece.iter().enumerate().skip(from).find(|(_, word)| says(word) == Some(Says::Ends));
            (from, ends.map_or(end, |(at, _)| at))
        }
    }
}
