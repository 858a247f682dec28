//! The verbs of a step that put something in: "add", "stir in", "zugeben" at the end of its clause.

use crate::units::measured_by_hand;
use crate::units::told::Clause;

use super::ordinary::is_one;
use super::words::WordList;

/// "Blend with two spoons of nut butter and strain": what is done with all of it behind the last "and" is none of what goes in.
pub(super) fn without_what_follows(clause: Clause<'_>) -> Clause<'_> {
    /// So many words at the most name it ("and strain well").
    const MOST_WORDS: usize = 2;
    let cut = || {
        let at = clause.words.iter().rposition(|word| WordList::And.has(word)).filter(|at| *at > 0)?;
        let tail = clause.words.get(at + 1..).filter(|tail| (1..=MOST_WORDS).contains(&tail.len()))?;
        let is_end =
            tail.iter().all(|word| [WordList::NotPutIn, WordList::Step, WordList::How].iter().any(|of| of.has(word)));
        let end = clause.text.rfind(&format!(" {} ", clause.words[at]))?;
        (is_end && WordList::NotPutIn.has(tail[0])).then_some((at, clause.text.get(..end)?))
    };
    match cut() {
        Some((at, text)) => Clause { text, words: clause.words[..at].to_vec(), ..clause },
        None => clause,
    }
}

/// "250 ml Gin, 100 ml Wasser und eine Prise Salz zugeben": whether the verb that puts in ends the clause, or one behind it of its
/// sentence that goes on with the list.
pub(super) fn ends_in_verb(all: &[Clause<'_>], at: usize) -> bool {
    let has_verb = |clause: &Clause<'_>| {
        let ends = |n: usize| clause.words.len().checked_sub(n).and_then(|at| clause.words.get(at..));
        [1, 2].into_iter().filter_map(ends).any(|verb| WordList::PutIn.has(&verb.join(" ")))
    };
    let goes_on = |clause: &Clause<'_>| {
        let begins =
            clause.words.first().is_some_and(|first| first.starts_with(|c: char| c.is_numeric()) || is_one(first));
        begins && !has_verb(clause) && !clause.is_last
    };
    let Some(behind) = all.get(at..) else { return false };
    behind.iter().find(|clause| !goes_on(clause)).is_some_and(has_verb)
}

/// "A sprig of thyme.", "Un chorrito de ron.": a sentence of an amount and its thing, and of no verb, puts it in.
pub(super) fn is_verbless(all: &[Clause<'_>], at: usize) -> bool {
    /// So many words at the most stand in front of what is taken by hand: "a good big handful".
    const MOST_WORDS: usize = 4;
    const VERBS: [WordList; 9] = [
        WordList::Step,
        WordList::Wait,
        WordList::Heat,
        WordList::Strain,
        WordList::Mixed,
        WordList::PutIn,
        WordList::Flavours,
        WordList::NotPutIn,
        WordList::Gives,
    ];
    let Some(clause) = all.get(at).filter(|clause| clause.is_last) else { return false };
    let begins = at.checked_sub(1).and_then(|before| all.get(before)).is_none_or(|before| before.is_last);
    let is_amount = |first: &&&str| is_one(first) || first.starts_with(|c: char| c.is_numeric());
    let by_hand =
        |word: &&str| WordList::Handful.has_singular(word) || WordList::Sprig.has(word) || measured_by_hand(word);
    begins
        && clause.words.first().filter(is_amount).is_some()
        && clause.words.iter().take(MOST_WORDS).any(by_hand)
        && !VERBS.iter().any(|list| list.within(clause.text))
}

/// "Infuse with", "drop in": a verb of two words.
pub(super) fn ends_in_pair(piece: &str, word: &str) -> bool {
    let last = piece.rsplit(' ').next().unwrap_or_default();
    WordList::PutIn.has(&format!("{last} {word}"))
}

/// What joins a thing to the one before it, or stands in front of its amount.
pub(super) fn is_small(word: &&str) -> bool {
    [WordList::Small, WordList::And, WordList::Article, WordList::More].iter().any(|list| list.has(word))
}

/// Whether the words end in a verb that puts in what stands behind them.
pub(super) fn puts_in(front: &[&str]) -> bool {
    let small = front.iter().rev().take_while(|word| is_small(word) && !WordList::And.has(word)).count();
    let front = front.get(..front.len() - small).unwrap_or_default();
    let ends = |n: usize| front.len().checked_sub(n).and_then(|at| front.get(at..));
    [1, 2].into_iter().filter_map(ends).any(|verb| WordList::PutIn.has(&verb.join(" ")))
}
