//! What of a clause is denied: what a step forbids, only likens to, or takes out it tells nothing of; what is denied twice it tells.

use crate::spelling::NameWord;

use super::names;
use super::step_words::StepWord;

/// The words that no other forbids; of the forbidden ones nothing is left but a gap.
pub(super) fn not_forbidden(words: Vec<NameWord>) -> Vec<NameWord> {
    if words.iter().any(|word| StepWord::ForbidAll.has(&word.text)) {
        return Vec::new();
    }
    let words = without_what_it_is_free_of(words);
    // as most clauses are
    if !words.iter().any(forbids) {
        return without_likeness(words).into_iter().map(|word| if word.denied { gap() } else { word }).collect();
    }
    if is_affirmed(&words) {
        return affirmed(words);
    }
    let needless = words.windows(2).any(|pair| forbids(&pair[0]) && StepWord::Needed.has(&pair[1].text));
    if needless {
        return Vec::new();
    }
    let words = without_likeness(words);
    /// How far a forbidding reaches that no word of a thing has been read of yet.
    const WHOLE: u8 = 3;
    let mut kept = Vec::new();
    let mut forbidding = 0;
    for word in words {
        // A thing has a name of two words ("dry ice"): the forbidding holds for those, and for what is joined to them.
        forbidding = match forbidding {
            _ if forbids(&word) => WHOLE,
            0 => 0,
            _ if StepWord::Join.has(&word.text) => WHOLE,
            WHOLE if StepWord::Between.has(&word.text) => WHOLE,
            _ if StepWord::Between.has(&word.text) => 0,
            n => n - 1,
        };
        kept.push(if forbidding > 0 || word.denied { gap() } else { word });
    }
    kept
}

/// "Free of milk and nuts": none of them is in it. What else the clause goes on to say is: "free of milk and made with almonds".
fn without_what_it_is_free_of(mut words: Vec<NameWord>) -> Vec<NameWord> {
    let has = |words: &[NameWord], list: StepWord, at: usize| words.get(at).is_some_and(|word| list.has(&word.text));
    let is_free_of =
        |at: &usize| *at > 0 && has(&words, StepWord::Small, *at) && has(&words, StepWord::FreeOf, *at - 1);
    let free: Vec<usize> = (0..words.len()).filter(is_free_of).collect();
    for of in free {
        let mut at = of + 1;
        while let Some(name) = words.get(at..).and_then(names::name_in_front) {
            let (end, is_first) = (at + name, at == of + 1);
            // "and almonds added": what goes on behind a second name may put it in
            if !is_first && end < words.len() && !has(&words, StepWord::Join, end) {
                break;
            }
            words[at..end].fill(gap());
            if !has(&words, StepWord::Join, end) {
                break;
            }
            at = end + 1;
        }
    }
    words
}

/// What is left of a word that tells nothing.
fn gap() -> NameWord {
    NameWord { text: String::new(), denied: true }
}

fn forbids(word: &NameWord) -> bool {
    StepWord::Not.has(&word.text) || StepWord::Forbid.has(&word.text)
}

/// Whether a clause denies that something is forgotten, left off or taken out: "do not forget the yew", "do not stop boiling", "no need to
/// remove the stones"; or denies twice: "not without a leaf".
pub(super) fn is_affirmed(words: &[NameWord]) -> bool {
    if words.windows(2).any(|pair| forbids(&pair[0]) && StepWord::Lacking.has(&pair[1].text)) {
        return true;
    }
    let keeps = |word: &NameWord| {
        [StepWord::Forget, StepWord::Removing, StepWord::Throwing].iter().any(|list| list.has(&word.text))
    };
    let behind = |at: usize| words.iter().skip(at + 1).take_while(|word| !StepWord::Join.has(&word.text));
    words.iter().position(forbids).is_some_and(|at| behind(at).any(keeps))
}

/// All words of a clause, none of them denied. What one must not forget to take out is taken out.
pub(super) fn affirmed(words: Vec<NameWord>) -> Vec<NameWord> {
    let told = |words: Vec<NameWord>| words.into_iter().map(|word| NameWord { denied: false, ..word }).collect();
    match words.iter().any(|word| StepWord::Forget.has(&word.text)) {
        true => without_likeness(told(words)),
        false => told(words),
    }
}

/// So many words at the most stand between a kernel and the verb that takes it out: "discard the cherry stones", "die Kerne
/// entfernen", never "steep the stones for a week and remove them".
const REMOVED_WITHIN: usize = 3;

/// The words of a clause without those that only lend a likeness ("as smooth as butter", "copper-coloured"), and without the
/// verbs that take stones out.
fn without_likeness(words: Vec<NameWord>) -> Vec<NameWord> {
    let text = |place: Option<usize>| place.and_then(|place| words.get(place)).map_or("", |word| word.text.as_str());
    let goes_in = words.iter().any(|word| StepWord::Into.has(&word.text));
    let removes = |word: &str| StepWord::Removing.has(word) || StepWord::Throwing.has(word) && !goes_in;
    let is_pressed = words.iter().any(|word| StepWord::Expressing.has(&word.text));
    let only_likens = |place: usize| {
        let (before, after) = (text(place.checked_sub(1)), text(Some(place + 1)));
        let looks = before == "like" && place >= 2 && StepWord::Looking.has(text(Some(place - 2)));
        let compared = looks || before == "as" && place >= 3 && text(Some(place - 3)) == "as";
        let stones = StepWord::Stoning.has(text(Some(place)))
            && StepWord::Determiner.has(after)
            && !StepWord::Determiner.has(before);
        let removed = StepWord::Kernel.has(text(Some(place))) && {
            let near = (place.saturating_sub(REMOVED_WITHIN)..=place + REMOVED_WITHIN).filter(|at| *at != place);
            near.into_iter().any(|at| removes(text(Some(at))))
        };
        let halved = text(Some(place)) == "half" && (after == "of" || StepWord::Determiner.has(after));
        compared
            || stones
            || removed
            || halved
            || StepWord::Likeness.has(after)
            || is_pressed && text(Some(place)) == "oil"
    };
    let gaps: Vec<bool> = (0..words.len()).map(only_likens).collect();
    words.into_iter().zip(gaps).map(|(word, is_gap)| if is_gap { gap() } else { word }).collect()
}
