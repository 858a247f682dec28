//! The stones of fruit, which hold a poison that crushing sets free: whether a clause of a method cracks them, or leaves them in.

use crate::spelling::NameWord;

use super::step_words::StepWord;

/// "Crack a few stones", "einige Kerne knacken": nobody cracks but those of the fruit.
pub(super) fn are_cracked(words: &[NameWord]) -> bool {
    /// So many words at the most stand between the verb and its thing.
    const REACH: usize = 4;
    let has = |list: StepWord, at: usize| words.get(at).is_some_and(|word| list.has(&word.text));
    let stones = |at: &usize| has(StepWord::HardPart, *at);
    let cracks = |verb: usize| {
        let near = words.len().min(verb + 1 + REACH);
        // "crush it with a stone"
        let behind = (verb + 1..near).take_while(|at| !has(StepWord::With, *at)).any(|at| stones(&at));
        behind || (verb.saturating_sub(REACH)..verb).any(|at| stones(&at)) && verb + 1 == words.len()
    };
    (0..words.len()).any(|at| has(StepWord::Cracking, at) && cracks(at))
}

/// "Not pitted", "ohne zu entsteinen": fruit is whole when it goes in, by all words of a clause.
pub(super) fn are_left(said: &[NameWord]) -> bool {
    /// So many words at the most stand between the two.
    const REACH: usize = 2;
    let forbids = |word: &NameWord| StepWord::Not.has(&word.text) || StepWord::Forbid.has(&word.text);
    said.iter().enumerate().any(|(at, word)| {
        let before = &said[at.saturating_sub(REACH)..at];
        StepWord::Unstoned.has(&word.text)
            || StepWord::Stoned.has(&word.text) && (word.denied || before.iter().any(forbids))
    })
}

/// "Stones and all", "samt Steinen": by the words that nothing forbids and nobody takes out.
pub(super) fn are_included(words: &[NameWord]) -> bool {
    /// So many words at the most stand between the two.
    const REACH: usize = 2;
    words.iter().enumerate().any(|(at, word)| {
        let near = words.iter().enumerate().skip(at.saturating_sub(REACH)).take(at.min(REACH) + 1 + REACH);
        let is_included = near.filter(|(near, _)| *near != at).any(|(_, word)| StepWord::Included.has(&word.text));
        StepWord::HardPart.has(&word.text) && is_included
    })
}
