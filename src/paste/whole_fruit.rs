//! What the steps of a typed card take of a whole fruit that a line has: "8 lemons", of which a step takes the peel, the juice or the
//! flesh. The line counts all of it; what of it goes in, only the maker knows.

use crate::card::{Amount, Card, Part};
use crate::input::{key, quoted};
use crate::larder::{Form, Ingredient};
use crate::spelling::words;
use crate::units::told::clauses;
use crate::vocabulary::{Kind, Portion};

use super::draft::DraftLine;
use super::names::Names;
use super::peeled::{TakenOf, is_zest, takes};
use super::words::WordList;

/// A question for each line of which the steps take a share.
pub(super) fn asked_of(card: &Card, names: Names<'_>) -> Vec<DraftLine> {
    let steps = card.stages.iter().flat_map(|stage| &stage.steps).chain(&card.steps);
    let clauses: Vec<&str> = steps.flat_map(|step| clauses(step)).map(|clause| clause.text).collect();
    let of = |part| WholeFruit { known: plant(part, names)?, part, card, clauses: &clauses, names }.asked();
    card.all_parts().filter_map(|(_, part)| of(part)).collect()
}

/// A thing as it grows, and not the peel of one.
fn plant<'l>(part: &Part, names: Names<'l>) -> Option<&'l Ingredient> {
    let name = &part.of.value;
    let known = names.house.larder.find(name).filter(|_| names.house.card(name).is_none())?;
    (known.form == Form::Solid && known.is_plant_matter() && known.kind != Some(Kind::Peel)).then_some(known)
}

/// A line that counts or weighs such a thing.
struct WholeFruit<'a> {
    part: &'a Part,
    known: &'a Ingredient,
    card: &'a Card,
    clauses: &'a [&'a str],
    names: Names<'a>,
}

impl WholeFruit<'_> {
    fn asked(&self) -> Option<DraftLine> {
        let label = &self.part.label.value;
        // "lemons, whole", "peaches, stoned", "juice of 8 lemons": it says what of it goes in; what was weighed behind it says so too
        let is_told = WordList::Pared.within(label) || words(label).iter().any(|word| word == "whole");
        if is_told || self.part.holds.is_some() || self.counted_taken().is_some() || !self.part.has_size() {
            return None;
        }
        let (juices, peels) = (self.is_taken(WordList::Squeezed), self.is_taken(WordList::Peel));
        let peel = if is_zest(&peels) { Portion::Zest } else { Portion::Peel };
        let is_known = self.amount_of(peel).is_some() || self.name_of(peel).is_some();
        let takes_peel = (!peels.is_empty() || self.takes_peel_alone()) && is_known && !self.has_own(peel);
        let what = "and its line counts all of it";
        if !juices.is_empty() && !self.has_own(Portion::Juice) {
            let also = if takes_peel { format!(" and {}", self.second(peel)) } else { String::new() };
            let taken = if takes_peel { format!("juice and its {peel}") } else { "juice".to_owned() };
            let line = self.line(Portion::Juice);
            return Some(DraftLine::question(label, format!("a step takes its {taken}, {what}: {line}{also}")));
        }
        if takes_peel {
            let asks = format!("a step takes its {peel}, {what}: {}; or, peeled, {}", self.line(peel), self.peeled());
            return Some(DraftLine::question(label, asks));
        }
        let is_weighed = matches!(self.part.amount.value, Amount::Mass(_)) && self.known.kind == Some(Kind::Fruit);
        let is_pared = !self.is_taken(WordList::Pared).is_empty();
        let asks = || format!("a step takes off what nobody eats: weighed before? then {}", self.peeled());
        (is_weighed && is_pared).then(|| DraftLine::guess(label, asks()))
    }

    /// The clauses that take of it what the list has words for.
    fn is_taken(&self, list: WordList) -> Vec<&str> {
        let named: Vec<String> = words(&self.part.label.value).into_iter().chain(words(&self.part.of.value)).collect();
        let is_fruit = self.known.kind == Some(Kind::Fruit);
        let is_strained = self.part.is_strained() && list == WordList::Squeezed;
        let of = TakenOf { named: &named, is_fruit, is_strained };
        self.clauses.iter().copied().filter(|clause| takes(list, clause, of)).collect()
    }

    /// "Zest only", "steep the peel in the rum", which name no fruit: that is of the only line that has a peel.
    fn takes_peel_alone(&self) -> bool {
        let has_peel = |part: &Part| {
            let other = plant(part, self.names).map(|known| WholeFruit { known, part, ..*self });
            other.is_some_and(|other| other.name_of(Portion::Peel).is_some())
        };
        let is_only = self.card.all_parts().filter(|(_, part)| has_peel(part)).count() == 1 && has_peel(self.part);
        let takes = |clause: &&str| {
            let lists = [WordList::Alone, WordList::Steeps, WordList::TakesSome];
            let words: Vec<&str> = clause.split_whitespace().collect();
            let is_noun = |word: &str| WordList::Zest.has(word) || is_zest(&[word]);
            // "the lemon peel" says of what it is, and so does "the peel of the lemons"
            let is_small = |word: &&str| WordList::Article.has(word) || word.eq_ignore_ascii_case("the");
            let is_bare = |at: usize| {
                let front = words.get(..at).and_then(<[&str]>::last);
                let behind = words.get(at + 1).is_some_and(|of| WordList::Of.has(of) || of.eq_ignore_ascii_case("of"));
                front.is_none_or(|front| is_small(front) || lists.iter().any(|list| list.has(front))) && !behind
            };
            let is_alone = words.iter().enumerate().any(|(at, word)| is_noun(word) && is_bare(at));
            is_alone && lists.iter().any(|list| list.within(clause))
        };
        is_only && self.clauses.iter().any(takes)
    }

    fn counted_taken(&self) -> Option<Portion> {
        self.part.written.counted.as_ref()?.taken
    }

    /// "Peel of 8 lemons" of "8", where the larder knows what one gives of it.
    fn amount_of(&self, taken: Portion) -> Option<String> {
        let Amount::Pieces(number) = self.part.amount.value else { return None };
        let of = &self.part.of.value;
        let amounts = [format!("{taken} of {number} {of}"), format!("{taken} of {number}")];
        amounts.into_iter().find(|amount| self.names.refusal(of, amount).is_none())
    }

    /// The name under which what is taken of it is known.
    fn name_of(&self, taken: Portion) -> Option<String> {
        let names = std::iter::once(self.part.of.value.as_str()).chain(self.known.all_names());
        names.map(|name| format!("{} {taken}", words(name).join(" "))).find(|name| self.names.knows(name))
    }

    /// Whether another line has what is taken of it.
    fn has_own(&self, taken: Portion) -> bool {
        let same = |one: &str, other: &str| self.names.same(one, other);
        let is_peel = |portion| matches!(portion, Portion::Peel | Portion::Zest);
        let is_it = |portion: Portion| portion == taken || is_peel(portion) && is_peel(taken);
        let name = self.name_of(taken);
        self.card.all_parts().map(|(_, part)| part).filter(|part| part.label != self.part.label).any(|part| {
            let counted = part.written.counted.as_ref();
            let is_counted = counted.and_then(|counted| counted.taken).is_some_and(is_it);
            let is_of_this = || {
                let of_words = counted.is_some_and(|counted| same(&counted.words.join(" "), &self.part.of.value));
                of_words || same(&part.of.value, &self.part.of.value)
            };
            name.as_ref().is_some_and(|name| same(&part.of.value, name)) || is_counted && is_of_this()
        })
    }

    /// The line in its place.
    fn line(&self, taken: Portion) -> String {
        let label = &self.part.label.value;
        let strained = if self.part.is_strained() && taken != Portion::Juice { ", strained = true" } else { "" };
        let of = if self.part.of.value == *label {
            String::new()
        } else {
            format!("of = {}, ", quoted(&self.part.of.value))
        };
        match self.amount_of(taken) {
            Some(amount) if of.is_empty() && strained.is_empty() => format!("{} = {}", key(label), quoted(&amount)),
            Some(amount) => format!("{} = {{ {of}amount = {}{strained} }}", key(label), quoted(&amount)),
            None => match self.name_of(taken) {
                Some(name) => format!("in its place {} = \"… g\"", key(&name)),
                None => {
                    let amount = quoted(&self.part.written.text);
                    format!("{} = {{ {of}amount = {amount}, strained = true, holds = … }}", key(label))
                }
            },
        }
    }

    /// The line beside that.
    fn second(&self, taken: Portion) -> String {
        let of = &self.part.of.value;
        let amount = self.amount_of(taken).map_or_else(|| "\"… g\"".to_owned(), |amount| quoted(&amount));
        let key = key(&format!("{}, {taken}", self.part.label.value));
        format!("{key} = {{ of = {}, amount = {amount} }}", quoted(of))
    }

    fn peeled(&self) -> String {
        format!("{} = \"… g\"", key(&format!("{}, peeled", self.part.label.value)))
    }
}
