//! Whole fruit on the list of which the steps take only the peel, or the juice: "12 lemons", "peel the lemons, steep the peels in
//! the vodka".

use crate::input::key;
use crate::larder::{Form, Ingredient};
use crate::spelling::words;
use crate::units::told::clauses;
use crate::vocabulary::Kind;

use super::draft::{Draft, DraftPart, Remark};
use super::names::Names;
use super::speaks::tells_apart;
use super::words::WordList;

pub(super) fn of_whole_fruit(draft: &mut Draft, steps: &[String], names: Names<'_>) {
    if draft.is_complete {
        return;
    }
    let clauses: Vec<&str> = steps.iter().flat_map(|step| clauses(step)).map(|clause| clause.text).collect();
    let of = |list: WordList| clauses.iter().copied().filter(|clause| list.within(clause)).collect::<Vec<_>>();
    let (peels, juices, is_flesh) =
        (of(WordList::Peel), of(WordList::Squeezed), of(WordList::Flesh).into_iter().any(is_of_flesh));
    for part in draft.stages.iter_mut().chain([&mut draft.last]).flat_map(|stage| &mut stage.parts) {
        let known = names.house.larder.find(part.of()).filter(|_| part.of.is_none());
        if !known.is_some_and(|known| known.form == Form::Solid && known.kind == Some(Kind::Fruit)) {
            continue;
        }
        let named = words(&part.label);
        let own = TakenOf { named: &named, is_fruit: true, is_strained: false };
        let taken = |list| clauses.iter().any(|clause| takes(list, clause, own));
        let (is_peeled, is_juiced) = (taken(WordList::Peel), taken(WordList::Squeezed));
        // "add 100 ml of their juice"
        let is_theirs = is_peeled && juices.iter().any(|clause| WordList::Same.within(clause));
        if is_juiced || is_theirs {
            let taken = if is_peeled { &["juice", "zest"][..] } else { &["juice"] };
            let asked = taken_of(taken, part, names);
            part.remarks.extend(asked);
        } else if is_peeled && !is_flesh {
            peel_of(part, &peels, names);
        }
    }
}

/// Whether it works on the flesh: "muddle the peel" does not.
fn is_of_flesh(clause: &str) -> bool {
    let words: Vec<&str> = clause.split_whitespace().collect();
    let of_peel = |at: usize| {
        let behind =
            words.iter().skip(at + 1).find(|word| !WordList::Article.has(word) && !word.eq_ignore_ascii_case("the"));
        behind.is_some_and(|word| WordList::Zest.has(word) || is_zest(&[word]))
    };
    let mut worked = words.iter().enumerate().filter(|(_, word)| WordList::Flesh.within(word));
    worked.any(|(at, _)| !of_peel(at))
}

/// "12 lemons", of which a step takes the juice: what of the rest goes in too, nobody but the maker knows.
fn taken_of(taken: &[&str], part: &DraftPart, names: Names<'_>) -> Option<Remark> {
    let amount = part.amount.as_deref()?;
    let line = |taken: &&str| {
        let name = format!("{} {taken}", words(&part.label).join(" "));
        let counted = counted(amount, taken, part, names).filter(|counted| names.refusal(&name, counted).is_none());
        let amount = counted.unwrap_or_else(|| "… g".to_owned());
        names.knows(&name).then(|| format!("{} = \"{amount}\"", key(&name)))
    };
    let lines: Option<Vec<String>> = taken.iter().map(line).collect();
    Some(Remark::Question(format!("only its {}? then {} in place of it", taken.join(" and "), lines?.join(" and "))))
}

/// "Peel of 12 lemons" of "12 lemons".
fn counted(amount: &str, taken: &str, part: &DraftPart, names: Names<'_>) -> Option<String> {
    let number = amount.split(' ').next().filter(|_| names.weighs_nothing(amount))?;
    Some(format!("{taken} of {number} {}", part.label))
}

fn peel_of(part: &mut DraftPart, of_peel: &[&str], names: Names<'_>) {
    let taken = if is_zest(of_peel) { "zest" } else { "peel" };
    // "limoni" by the name that its peel has
    let known = names.house.larder.find(part.of()).into_iter().flat_map(Ingredient::all_names);
    let own = std::iter::once(part.of()).chain(known);
    let peel = own.map(|name| format!("{} {taken}", words(name).join(" "))).find(|peel| names.knows(peel));
    let (Some(peel), Some(amount)) = (peel, part.amount.as_deref()) else { return };
    match counted(amount, taken, part, names).filter(|counted| names.refusal(&peel, counted).is_none()) {
        Some(counted) => {
            part.remarks.push(Remark::Assumed("only its peel, as the steps have it".to_owned()));
            part.amount = Some(counted);
            part.label = peel;
        }
        None => {
            let asks = format!("only its peel? then {} = \"… g\" in place of it", key(&peel));
            part.remarks.push(Remark::Question(asks));
        }
    }
}

/// Whether it comes off a grater, and not off a peeler.
pub(super) fn is_zest(of_peel: &[&str]) -> bool {
    of_peel.iter().any(|clause| clause.to_lowercase().contains("zest"))
}

/// Of which thing something is taken.
#[derive(Clone, Copy)]
pub(super) struct TakenOf<'a> {
    /// The words of its names.
    pub named: &'a [String],
    pub is_fruit: bool,
    pub is_strained: bool,
}

/// Whether a clause takes what this list has words for of this thing: "zest and juice the limes", "the juice of the
/// limes", "den Saft der Limetten"; "add the orange juice and the limes" takes none of the limes. Of what is strained "the raspberry
/// juice" is what ran through, so there the word alone takes nothing.
pub(super) fn takes(list: WordList, clause: &str, of: TakenOf<'_>) -> bool {
    let all = words(clause);
    let is_any = |word: &String| of.is_fruit && WordList::AnyFruit.has_folded(word);
    let is_it = |word: &String| of.named.contains(word) && tells_apart(word) || is_any(word);
    let is_joint = |word: &&String| {
        let lists = [WordList::Of, WordList::Article, WordList::One, WordList::OffOf];
        let is_english = ["of", "the"].contains(&word.as_str());
        is_english || lists.iter().any(|list| list.has_folded(word)) || word.chars().all(|c| c.is_ascii_digit())
    };
    let is_taking = |word: &String| WordList::Squeezed.has_folded(word) || WordList::Peel.has_folded(word);
    all.iter().enumerate().filter(|(_, word)| list.has_folded(word)).any(|(at, word)| {
        let (front, behind) = (all.get(..at).unwrap_or_default(), all.get(at + 1..).unwrap_or_default());
        // a noun stands beside what it is of, "lemon juice"; a verb in front takes all that stands behind it
        let in_front = || !of.is_strained && front.last().is_some_and(is_it);
        let beside = || in_front() || behind.iter().find(|word| !is_joint(word)).is_some_and(is_it);
        let is_verb = || front.last().is_none_or(|last| WordList::And.has_folded(last) || is_taking(last));
        let until_next = || behind.iter().take_while(|word| is_taking(word) || !WordList::Step.has_folded(word));
        beside() || WordList::Paring.has_folded(word) && all.iter().any(is_it) || is_verb() && until_next().any(is_it)
    })
}
