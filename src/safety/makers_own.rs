//! What the maker of a bought thing put into it, and its label says: "lemon juice with E 224" is no salt that somebody weighs.

use crate::spelling::NameWord;
use crate::vocabulary::Tag;

use super::step_words::StepWord;

/// Additives that a bought thing holds within the limit of its maker.
pub(super) const ITS_OWN: [Tag; 3] = [Tag::Benzoate, Tag::Sorbate, Tag::Sulphite];

/// The words of the thing itself, where the name goes on to say what is in it.
pub(super) fn thing(words: &[NameWord]) -> Option<&[NameWord]> {
    let at = words.iter().position(|word| StepWord::Holding.has(&word.text))?;
    words.get(..at).filter(|thing| !thing.is_empty())
}
