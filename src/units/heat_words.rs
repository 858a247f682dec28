//! How hot something gets, in the words of a kitchen: "simmer 10 min", "bring to the boil", "gently, about 70 °C".

use super::amount_range::range;
use super::boiling::{Boiling, is_one_of};
use super::spans::{SpanEnd, ToldTime, time};
use super::told::first_told;
use super::{Literal, Temperature};
use crate::vocabulary::Bubbles;

/// How hot a simmer and a boil are at the least, °C: 85 to 95 and 100 at sea level (common practice, no source). A pan
/// in the hills boils cooler, and a heat that was not reached must not be counted.
pub(crate) const SIMMER_C: u32 = 85;
pub(crate) const BOIL_C: u32 = 95;

/// How hot such a pan is at the least, °C.
pub(crate) const fn least_celsius(bubbles: Bubbles) -> u32 {
    match bubbles {
        Bubbles::Simmer => SIMMER_C,
        Bubbles::Boil => BOIL_C,
    }
}

/// What such words say.
pub(crate) struct HeatWords {
    pub hot: WordHeat,
    /// How long; of a pan that boils first and simmers then, of the simmer.
    pub long: Option<ToldTime>,
}

/// How hot.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum WordHeat {
    /// In degrees.
    Told(Temperature),
    /// By what the pan does.
    Bubbles(Bubbles),
}

/// None where a word stands there that may say another thing: "do not boil", "boiling water over the sugar", "below 70 °C".
pub(crate) fn heat_words(written: &str) -> Option<HeatWords> {
    let words: Vec<&str> = written.split([',', ';']).flat_map(as_far_as_it_goes).collect();
    let (words, degrees) = match degrees(&words) {
        Some((said, told)) => (without(&words, &said), Some(told)),
        None => (words, None),
    };
    let long = time(&words, SpanEnd::Least).filter(|told| !told.is_phrase);
    let words = match &long {
        Some(told) => without(&words, &told.written),
        None => words,
    };
    let any = |what: Boiling| words.iter().any(|word| is(what, word));
    // "65 °C, don't boil"
    let may_deny = degrees.is_some() && [Boiling::Simmer, Boiling::Boil, Boiling::Cook].into_iter().any(any);
    let known = [Boiling::Simmer, Boiling::Boil, Boiling::Cook, Boiling::Melts, Boiling::Idle];
    let is_known = |word: &&str| known.iter().any(|what| is(*what, word)) || may_deny && is(Boiling::Not, word);
    if !words.iter().all(is_known) {
        return None;
    }
    let hot = match degrees {
        Some(told) => WordHeat::Told(told),
        None if any(Boiling::Simmer) => WordHeat::Bubbles(Bubbles::Simmer),
        None if any(Boiling::Boil) => WordHeat::Bubbles(Bubbles::Boil),
        None => return None,
    };
    Some(HeatWords { hot, long })
}

fn is(what: Boiling, word: &str) -> bool {
    is_one_of(what, word) || is_one_of(what, done(word))
}

/// The words of a piece but those that say how far it goes ("simmer until the berries pop"); a boil is no end of one.
fn as_far_as_it_goes(piece: &str) -> Vec<&str> {
    let trim = |word: &'_ str| word.trim_matches(|c: char| matches!(c, '.' | ':' | '(' | ')')).len();
    let words: Vec<&str> = piece.split_whitespace().filter(|word| trim(word) > 0).collect();
    let bubbles = |words: &[&str]| {
        words.iter().any(|word| [Boiling::Simmer, Boiling::Boil].into_iter().any(|what| is(what, word)))
    };
    match words.iter().position(|word| is(Boiling::Until, word)) {
        Some(at) if bubbles(&words[..at]) && !bubbles(&words[at..]) => words[..at].to_vec(),
        Some(at) => words.iter().enumerate().filter(|(n, _)| *n != at).map(|(_, word)| *word).collect(),
        None => words,
    }
}

/// Whether a text says that nothing was heated: "no", "none", "à froid".
pub(crate) fn is_unheated(written: &str) -> bool {
    is_one_of(Boiling::Unheated, written)
}

/// The degrees that stand there, and as what; of a range the less.
fn degrees(words: &[&str]) -> Option<(String, Temperature)> {
    let of = |literal| match literal {
        Literal::Temperature(told) => Some(told),
        _ => None,
    };
    let in_range = |at: usize| {
        let rest = words.get(at..)?;
        let found = range(rest)?;
        let (_, told) = first_told(&found.ends[0].split(' ').collect::<Vec<_>>(), of)?;
        // the unit behind the second number
        let long = rest.len() + 1 - found.ends[0].split(' ').count();
        Some((rest.get(..long + 1).unwrap_or(rest).join(" "), told))
    };
    (0..words.len()).find_map(in_range).or_else(|| first_told(words, of))
}

/// "Simmered", "boiling", "kochend": as the word that is in the table.
fn done(word: &str) -> &str {
    ["ed", "ing", "d"].iter().find_map(|end| word.strip_suffix(end)).unwrap_or(word)
}

/// The words without those that read as an amount.
fn without<'w>(words: &[&'w str], said: &str) -> Vec<&'w str> {
    let own: Vec<&str> = said.split(' ').collect();
    let at = words.windows(own.len()).position(|some| some == own).unwrap_or(words.len());
    words.iter().enumerate().filter(|(n, _)| !(at..at + own.len()).contains(n)).map(|(_, word)| *word).collect()
}
