//! A thing that a step puts in and that nothing explains: no line, no tool, no place, no word of kitchens. "Infuse with zorblat."

use super::ordinary::{is_of_kitchens, is_one, is_vessel};
use super::words::WordList;

/// A name has so many words at the most (ours).
const MOST_NAME_WORDS: usize = 4;

/// The words in which a thing may be named: up to where the sentence goes on with how, where or how long.
pub(super) fn phrase<'a>(words: &[&'a str]) -> Vec<&'a str> {
    let verbs = [WordList::PutIn, WordList::Flavours];
    let goes_on = |word: &&str| ends_phrase(word) || verbs.iter().any(|list| list.has(word));
    // "il succo alla fine"
    let is_end = |at: usize| words.get(at..at + 2).is_some_and(|pair| WordList::HeatEnds.has(&pair.join(" ")));
    words.iter().enumerate().take_while(|&(at, word)| !goes_on(word) && !is_end(at)).map(|(_, word)| *word).collect()
}

/// "For", "until", "into": behind the name of a thing the sentence goes on.
pub(super) fn ends_phrase(word: &str) -> bool {
    let lists = [WordList::Into, WordList::Until, WordList::Each, WordList::PhraseEnds];
    lists.iter().any(|list| list.has(word))
}

/// What of such a phrase nobody knows; `None` where one of its words says what is meant.
pub(super) fn unexplained(phrase: &[&str]) -> Option<String> {
    let bare = |word: &&str| word.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
    let words: Vec<String> = phrase.iter().map(bare).filter(|word| !word.is_empty()).collect();
    let says = |list: WordList| words.iter().any(|word| list.has_singular(word));
    let explains = |word: &String| {
        let lists = [WordList::Thing, WordList::Glass, WordList::Everything];
        is_vessel(word) || lists.iter().any(|list| list.has_singular(word))
    };
    let is_number = |word: &String| word.starts_with(|c: char| c.is_numeric());
    // "slowly", "lentement", "lentamente"
    let is_how = |word: &&String| {
        let ends = ["ly", "mente", "ment"].iter().any(|end| word.ends_with(end) && word.len() > 4);
        ends || WordList::How.has_singular(word)
            || is_of_kitchens(word)
            || WordList::Counted.has_singular(word)
            || is_done(word)
    };
    let said: Vec<&str> = words.iter().filter(|word| !is_how(word)).map(String::as_str).collect();
    let is_name = !said.is_empty() && said.iter().all(|word| word.chars().count() > 2);
    // "abkühlen lassen", "far raffreddare", "keep going"
    let is_end = |word: Option<&String>| word.is_some_and(|word| WordList::Lets.has(word));
    if is_end(words.first()) || is_end(words.last()) {
        return None;
    }
    if words.iter().any(explains) || words.iter().any(is_number) || says(WordList::Rest) || !is_name {
        return None;
    }
    // "some", "dentro una"
    let is_before = |word: &&&str| is_one(word) || WordList::BeforeThing.has(word);
    let name = phrase.iter().skip(phrase.iter().take_while(is_before).count());
    Some(name.take(MOST_NAME_WORDS).copied().collect::<Vec<_>>().join(" "))
}

/// "Strained", "chopped", "stirring": what is done to it, or with it.
fn is_done(word: &str) -> bool {
    [WordList::Step, WordList::Wait, WordList::Heat, WordList::Strain, WordList::Mixed]
        .iter()
        .any(|list| list.within(word))
}
