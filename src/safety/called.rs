//! What a step calls by the first word of its line: "combine the rye" of a card that pours rye whiskey.

use crate::spelling::{fold, words};

use super::step_words::StepWord;

/// The text with the whole names of such lines in it: a word alone may name another thing, which brings what the line does not.
pub(crate) fn by_whole_names(text: &str, lines: &[&str]) -> String {
    let said: Vec<&str> = text.split_whitespace().collect();
    let bare = |at: usize| said.get(at).map(|word| fold(word));
    let whole = |at: usize| {
        let is_one = at.checked_sub(1).and_then(bare).is_some_and(|before| is_article(&before));
        let ends = said.get(at)?.ends_with(|c: char| c.is_ascii_punctuation());
        let goes_on = bare(at + 1).is_some_and(|next| !is_between(&next));
        let word = bare(at).filter(|_| is_one && (ends || !goes_on))?;
        lines.iter().find(|line| {
            let name = words(line);
            name.len() > 1 && name.first() == Some(&word)
        })
    };
    let word = |at: usize| {
        let written = said.get(at).copied().unwrap_or_default();
        let stop = written.trim_start_matches(|c: char| c.is_alphanumeric());
        whole(at).map_or_else(|| written.to_owned(), |line| format!("{line}{stop}"))
    };
    (0..said.len()).map(word).collect::<Vec<_>>().join(" ")
}

fn is_article(word: &str) -> bool {
    StepWord::Determiner.has(word) || StepWord::Small.has(word)
}

/// Behind the name of a thing another one, or what is done with it, is told.
fn is_between(word: &str) -> bool {
    [StepWord::Join, StepWord::With, StepWord::Into, StepWord::Small, StepWord::Next].iter().any(|list| list.has(word))
}
