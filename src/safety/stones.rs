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

/// "Not pitted", "ohne zu entsteinen", "stones and all": the fruit is whole when it goes in.
pub(super) fn stay_in(words: &[NameWord]) -> bool {
    /// So many words at the most stand between the two.
    const REACH: usize = 2;
    let forbids = |word: &NameWord| StepWord::Not.has(&word.text) || StepWord::Forbid.has(&word.text);
    let near = |at: usize, list: StepWord| {
        let all = words.iter().enumerate().skip(at.saturating_sub(REACH)).take(2 * REACH + 1);
        all.filter(|(near, _)| *near != at).any(|(_, word)| list.has(&word.text))
    };
    words.iter().enumerate().any(|(at, word)| {
        let before = &words[at.saturating_sub(REACH)..at];
        let unstoned = StepWord::Unstoned.has(&word.text)
            || StepWord::Stoned.has(&word.text) && (word.denied || before.iter().any(forbids));
        unstoned || StepWord::HardPart.has(&word.text) && !word.denied && near(at, StepWord::Included)
    })
}
