//! What a drink stands in, where a step says of what that is made: "in the copper pan", "Zinkeimer", "olla de aluminio".

use std::collections::HashMap;
use std::sync::LazyLock;

use crate::vocabulary::table::lists;
use crate::vocabulary::{Process, Tag};

use super::step_words::StepWord;

crate::vocabulary::words! {
    /// A list of `vessel-words.csv`.
    VesselWord, "list of what vessels are made of":
    Copper = "copper",
    Galvanised = "galvanised",
    Lead = "lead",
    Reactive = "reactive",
    Glazed = "glazed",
    Plastic = "plastic",
    Vessel = "vessel",
    Pottery = "pottery",
    Foil = "foil",
}

/// What the drink meets in a vessel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Meets {
    Metal(Tag),
    Done(Process),
}

static LISTS: LazyLock<Vec<(VesselWord, &str)>> =
    LazyLock::new(|| lists("vessel-words.csv", include_str!("data/vessel-words.csv")));

/// What vessels are made of, by its first letter: every word of every step is held to it.
static MADE_OF: LazyLock<HashMap<char, Vec<(VesselWord, &str)>>> = LazyLock::new(|| {
    let mut by_letter: HashMap<char, Vec<_>> = HashMap::new();
    for (list, word) in LISTS.iter().filter(|(list, _)| list.meets().is_some()) {
        if let Some(first) = word.chars().next() {
            by_letter.entry(first).or_default().push((*list, *word));
        }
    }
    by_letter
});

impl VesselWord {
    fn words(self) -> impl Iterator<Item = &'static str> {
        LISTS.iter().filter(move |(list, _)| *list == self).map(|(_, word)| *word)
    }

    fn has(self, word: &str) -> bool {
        self.words().any(|own| own == word)
    }

    const fn meets(self) -> Option<Meets> {
        Some(match self {
            Self::Copper => Meets::Metal(Tag::CopperContact),
            Self::Galvanised => Meets::Metal(Tag::GalvanisedContact),
            Self::Lead | Self::Glazed => Meets::Metal(Tag::LeadContact),
            Self::Reactive => Meets::Metal(Tag::ReactiveMetal),
            Self::Plastic => Meets::Done(Process::InPlastic),
            Self::Vessel | Self::Pottery | Self::Foil => return None,
        })
    }

    /// The things that are made of it.
    const fn holds(self) -> Self {
        match self {
            Self::Glazed => Self::Pottery,
            _ => Self::Vessel,
        }
    }
}

/// What the vessels of a clause are made of. `words`: folded, what is forbidden left out.
pub(super) fn met(words: &[&str]) -> Vec<Meets> {
    let of = |at: usize| {
        let word = words.get(at)?;
        let alike = MADE_OF.get(&word.chars().next()?)?;
        let (list, _) = alike.iter().find(|(_, own)| word.starts_with(own))?;
        let mut tails = list.words().filter_map(|own| word.strip_prefix(own));
        let stands = || list.has(word) && is_of_vessel(words, at, list.holds());
        (tails.any(|tail| list.holds().has(tail)) || stands()).then_some(*list)?.meets()
    };
    (0..words.len()).filter_map(of).collect()
}

/// "Copper pan", "pan of copper", "olla grande de cobre"; never "wrap the jar in aluminium foil".
fn is_of_vessel(words: &[&str], at: usize, vessel: VesselWord) -> bool {
    /// So many words at the most stand between a vessel and what it is made of.
    const REACH: usize = 2;
    let is_vessel = |word: &&str| vessel.has(word);
    let covers = |word: &&str| VesselWord::Foil.has(word);
    let is_small = |word: &&&str| StepWord::Small.has(word) || matches!(**word, "en" | "aus");
    let stands_in = |word: &&str| StepWord::With.has(word) || StepWord::Into.has(word);
    let (front, behind) = (words.get(..at).unwrap_or_default(), words.get(at + 1..).unwrap_or_default());
    let near = front.iter().rev().filter(|word| !is_small(word)).take(REACH);
    let is_foil = behind.first().is_some_and(covers) || near.clone().any(covers);
    let next = || behind.iter().take(REACH).take_while(|word| !is_small(word)).any(is_vessel);
    !is_foil && (next() || near.take_while(|word| !stands_in(word)).any(is_vessel))
}
