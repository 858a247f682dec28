//! What an ingredient that is `like` another one does not take from it: whatever would speak for it. Numbers are lent,
//! dangers are lent as the least that it brings; that it is sour enough, pasteurised or identified is its own.

use crate::diagnostic::Spanned;
use crate::mixture::acidity::ph;
use crate::mixture::{Component, Mixture};
use crate::spelling::{self, Claim, name_words, words};
use crate::vocabulary::{Allergen, Kind, Open, Tag, Word, is_qualifier};

use super::{Ingredient, Larder};

/// The composition with its acid in doubt: all of it may be missing, so that no pH rests on it.
pub(super) fn acid_in_doubt(per_gram: Mixture, lender: &Ingredient, notes: &mut Vec<String>) -> Mixture {
    if per_gram.grams_of_all(&Component::ACIDS) <= 0.0 {
        return per_gram;
    }
    notes.push(format!(
        "its acid is that of {}, and no pH is computed from it: titrate it and give `acid` and `ph`",
        lender.name
    ));
    ph::with_acid_in_doubt(per_gram)
}

/// Takes away what only somebody who knows it can say, but for what the entry says itself; and where the other one was
/// treated, this one is raw until its name says otherwise.
pub(super) fn take_back_what_favours(
    tags: &mut Vec<Open<Tag>>,
    name: &str,
    lender: &Ingredient,
    own: Option<&Spanned<Vec<Spanned<String>>>>,
) {
    let says = |tag: Tag| own.is_some_and(|own| own.value.iter().any(|t| Tag::parse(&t.value) == Some(tag)));
    tags.retain(|tag| *tag != Tag::Identified || says(Tag::Identified));
    let treated = |name: &str| spelling::pasteurised(name) == Some(Claim::Made) || is_bottled(name);
    if !lender.all_names().any(treated) || treated(name) {
        return;
    }
    let egg = lender.allergens.iter().any(|stated| Allergen::parse(stated) == Some(Allergen::Egg));
    let juice = lender.all_names().flat_map(words).any(|word| JUICE.contains(&word.as_str()));
    for (is, tag) in [(egg, Tag::RawEgg), (juice, Tag::RawJuice)] {
        if is && !tags.iter().any(|known| *known == tag) {
            tags.push(tag.into());
        }
    }
}

/// What a juice is called in the languages of the table of names, folded; `from memory`.
const JUICE: &[&str] = &["juice", "saft", "ju", "zumo", "jugo", "succo"];

/// Whether a name says that it was bottled, which a juice is not without a treatment.
fn is_bottled(name: &str) -> bool {
    name_words(name).iter().any(|word| !word.denied && matches!(word.text.as_str(), "bottled" | "uht"))
}

/// What keeps by being nothing but that.
const PLAIN: [Kind; 6] = [Kind::Water, Kind::Salt, Kind::Acid, Kind::Sugar, Kind::Preservative, Kind::ProcessAid];

/// The kind of what an entry is like. That of a plain thing is lent only to what its name says it is, and nothing else besides: stock
/// like water is no water, nor is celery water, and it feeds what grows.
pub(super) fn kind(name: &str, like: &Ingredient) -> Option<Kind> {
    like.kind.filter(|kind| !PLAIN.contains(kind) || is_plainly(*kind, name, like))
}

/// Whether a word of a name says this kind, and no word another one. Of water each word has to be known to change nothing: anything may
/// have been boiled in it.
fn is_plainly(kind: Kind, name: &str, like: &Ingredient) -> bool {
    let of_word = |word: &str| Larder::built_in().find(word).and_then(|known| known.kind);
    let is_of_its_names = |word: &String| like.all_names().flat_map(words).any(|of| of == *word);
    let changes_nothing = |word: &String| match of_word(word) {
        Some(other) => other == kind,
        None => kind != Kind::Water,
    };
    let said = words(name);
    said.iter().any(|word| of_word(word) == Some(kind))
        && said.iter().all(|word| is_of_its_names(word) || is_qualifier(word) || changes_nothing(word))
}

/// Grams of alcohol in a gram below which a drink may be called free of it: 0.5 % vol (EU and UK practice; from memory).
pub(crate) const TRACE_OF_ALCOHOL: f64 = 0.004;

/// Whether a name says that there is no alcohol in it, in the languages of the table of names; the words from memory.
pub(crate) fn denies_alcohol(name: &str) -> bool {
    let is_alcohol = |word: &str| ["alcohol", "alcoholic", "alcool", "alkohol", "alcol"].contains(&word);
    let in_one = |word: &str| word.starts_with("alkoholfrei") || word.starts_with("analcol") || word == "0%";
    let none = name.contains("0 %") && !name.contains(|c: char| ('1'..='9').contains(&c));
    none || name_words(name).iter().any(|word| word.denied && is_alcohol(&word.text) || in_one(&word.text))
}
