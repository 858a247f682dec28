//! Whether what the steps heat is in the pan of a certain thing: spirit that a stage gave stands in the pan of the steps behind it,
//! whether they name it or not.

use crate::house::House;
use crate::larder::spoken::taken_of;
use crate::spelling::words;
use crate::units::told::Clause;

use super::ordinary::{is_one, is_vessel};
use super::served::is_served;
use super::speaks::{before_until, says_all, tells_apart};
use super::strains::{pieces, strains};
use super::words::WordList;

/// What a step may name, told from what stands in other pans.
pub(crate) struct Pan {
    inside: Vec<String>,
    beside: Vec<String>,
    /// The words by which the thing itself is called, without what stands in it.
    called: Vec<String>,
    /// No other pan can be meant where nothing is named.
    is_lone: bool,
}

/// One thing that is done.
struct Done<'s> {
    step: &'s String,
    text: String,
    is_served: bool,
}

impl Pan {
    /// `names`: the thing and its short names; `inside`: what stands in it besides; `beside`: everything else of the card.
    pub(crate) fn new(names: &[&str], inside: &[&str], beside: &[&str], is_lone: bool, house: &House) -> Self {
        let all = |names: &[&str]| called(names, house);
        // a card need not weigh the water that is brought to a boil for a bath
        let (called, others) = (all(names), all(&[beside, &["water"]].concat()));
        // "the lemon" of a peel inside and of a juice beside tells nothing
        let (within, without) = (all(inside), others.iter());
        let beside = without.filter(|word| !within.contains(word) && !called.contains(word)).cloned().collect();
        let shared = |word: &String| !others.contains(word) || called.contains(word);
        let inside = within.iter().chain(&called).filter(|word| shared(word)).cloned().collect();
        Self { inside, beside, called, is_lone }
    }

    /// The step that heats this pan. `is_hot` says whether a text heats anything.
    pub(crate) fn heated_by<'s>(
        &self,
        steps: impl Iterator<Item = &'s String>,
        is_hot: impl Fn(&str) -> bool,
    ) -> Option<&'s String> {
        let all: Vec<Done<'s>> = steps.flat_map(done).collect();
        let hot = all.iter().enumerate().filter(|(_, done)| !done.is_served);
        let heats = |(at, done): &(usize, &Done<'_>)| {
            self.is_called_hot(&done.text) || is_hot(&done.text) && self.is_in_pan(&all, *at)
        };
        hot.filter(heats).map(|(_, done)| done.step).next()
    }

    /// "The hot vodka", "la vodka chaude".
    fn is_called_hot(&self, text: &str) -> bool {
        let said: Vec<&str> = text.split_whitespace().collect();
        let is_it = |word: &str| words(word).iter().any(|word| self.called.contains(word) || is_steeped(word));
        said.windows(2).any(|pair| match pair {
            [one, other] => {
                WordList::CalledHot.has(one) && is_it(other) || WordList::CalledHotBehind.has(other) && is_it(one)
            }
            _ => false,
        })
    }

    fn names_inside(&self, text: &str) -> bool {
        let said = words(before_until(text));
        says_all(text) || said.iter().any(|word| is_steeped(word) || self.inside.contains(word))
    }

    fn names_beside(&self, text: &str) -> bool {
        words(before_until(text)).iter().any(|word| self.is_beside(word))
    }

    fn is_beside(&self, word: &String) -> bool {
        self.beside.contains(word) || WordList::Syrup.has_folded(word) && !self.inside.contains(word)
    }

    /// Whether what is named goes to what is there already: "add the sugar", "simmer with the sugar", and never "heat the sugar in a
    /// pan".
    fn goes_in(&self, text: &str) -> bool {
        let said: Vec<&str> = text.split_whitespace().collect();
        let first = said.iter().position(|word| words(word).iter().any(|word| self.is_beside(word)));
        let is_with = said.iter().take(first.unwrap_or(0)).any(|word| WordList::RinsedWith.has(word));
        (joins(text) || is_with) && !is_apart(&said)
    }

    /// What is named last before the heat is in the pan; what goes in behind it was not.
    fn is_in_pan(&self, all: &[Done<'_>], at: usize) -> bool {
        let (before, behind) = all.split_at(at);
        let Some((hot, behind)) = behind.split_first() else { return false };
        if self.names_inside(&hot.text) {
            return true;
        }
        if is_of_vessel(&hot.text) || self.names_beside(&hot.text) && !self.goes_in(&hot.text) {
            return false;
        }
        let goes_in_later = |done: &Done<'_>| {
            let is_mixed = WordList::Mixed.within(&done.text) && !WordList::Bottled.within(&done.text);
            let is_rest = done.text.split(' ').any(|word| WordList::Rest.has(word));
            self.names_inside(&done.text) && (joins(&done.text) || is_mixed) && !is_rest
        };
        if behind.iter().any(goes_in_later) {
            return false;
        }
        let told = before.iter().rev().find_map(|done| match () {
            () if self.names_inside(&done.text) => Some(true),
            () if self.names_beside(&done.text) && !self.goes_in(&done.text) => Some(false),
            // what runs through the strainer is what steeped
            () if strains(&done.text) => Some(true),
            () => None,
        });
        told.unwrap_or(self.is_lone)
    }
}

/// The words by which these are called: "zucker" is the sugar of the card, whatever language that is in.
pub(crate) fn called(names: &[&str], house: &House) -> Vec<String> {
    let is_one_word = |name: &&str| !name.contains([' ', '-']);
    let others = |name: &str| -> Vec<String> {
        let known = house.larder.find(name);
        known.iter().flat_map(|known| known.all_names()).filter(is_one_word).flat_map(words).collect()
    };
    let own = |name: &&str| words(&taken_of(name).unwrap_or_else(|| (*name).to_owned()));
    let all = names.iter().flat_map(|name| own(name).into_iter().chain(others(name)));
    all.filter(|word| tells_apart(word)).collect()
}

/// What a step heats and puts to something else behind the heat, with nothing of `others` and no infusion: of "warm the wine, cool and
/// add" the first piece.
pub(crate) fn heated_and_added(step: &String, others: &[String], is_hot: impl Fn(&str) -> bool) -> Option<String> {
    let all = done(step);
    let names = |text: &str, is_it: &dyn Fn(&String) -> bool| words(text).iter().any(is_it);
    let at = all.iter().position(|done| is_hot(&done.text))?;
    let (hot, behind) = all.split_at(at).1.split_first()?;
    let is_added = behind.iter().any(|done| joins(&done.text) && !names(&done.text, &|word| others.contains(word)));
    (is_added && !says_all(&hot.text) && !names(&hot.text, &|word| is_steeped(word))).then(|| hot.text.clone())
}

/// The things that a step does, one by one: "add the rum and heat gently" is two.
fn done(step: &String) -> Vec<Done<'_>> {
    let clauses: Vec<Clause<'_>> = pieces(step).into_iter().map(Clause::from).collect();
    let parted = clauses.iter().enumerate().flat_map(|(at, clause)| {
        let is_served = is_served(&clauses, at);
        one_by_one(&clause.words).into_iter().map(move |text| Done { step, text, is_served })
    });
    parted.collect()
}

fn one_by_one(words: &[&str]) -> Vec<String> {
    let mut all = vec![String::new()];
    for (at, word) in words.iter().enumerate() {
        let does = words.get(at + 1).is_some_and(|next| WordList::Step.has(next) || WordList::PutIn.has(next));
        match all.last_mut() {
            Some(text) if !(WordList::And.has(word) && does) => {
                text.push_str(if text.is_empty() { "" } else { " " });
                text.push_str(word);
            }
            _ => all.push(String::new()),
        }
    }
    all
}

fn joins(text: &str) -> bool {
    WordList::Join.within(text) || WordList::PutIn.is_said_in(text)
}

/// "The spirit", "the infusion".
fn is_steeped(word: &str) -> bool {
    WordList::Steeped.has_folded(word) || WordList::Strong.has_folded(word)
}

/// "To a pan", "in a small saucepan", "in another pot".
fn is_apart(said: &[&str]) -> bool {
    /// A word of how large it is may stand between.
    const REACH: usize = 2;
    let is_other = |word: &str| is_one(word) || WordList::Apart.has(word);
    let is_pan = |at: usize| said.iter().skip(at + 1).take(REACH).any(|word| is_vessel(word));
    (0..said.len()).any(|at| said.get(at).is_some_and(|word| is_other(word)) && is_pan(at))
}

/// "Warm the bottles", "Gläser auskochen": what is heated is a vessel by itself.
fn is_of_vessel(text: &str) -> bool {
    let said: Vec<&str> = text.split_whitespace().collect();
    let heats = |at: usize| said.get(at).is_some_and(|verb| WordList::Warm.within(verb) || WordList::Boil.within(verb));
    let is_small = |word: &&&str| is_one(word) || WordList::Article.has(word) || WordList::Apart.has(word);
    let is_the = |word: &&&str| is_small(word) || word.eq_ignore_ascii_case("the");
    let behind = |at: usize| said.iter().skip(at + 1).find(|word| !is_the(word));
    let before = |at: usize| at.checked_sub(1).and_then(|at| said.get(at));
    (0..said.len()).any(|at| heats(at) && [behind(at), before(at)].into_iter().flatten().any(|word| is_vessel(word)))
}

/// Whether a text calls anything hot.
pub(crate) fn calls_hot(text: &str) -> bool {
    text.split_whitespace().any(|word| WordList::CalledHot.has(word) || WordList::CalledHotBehind.has(word))
}
