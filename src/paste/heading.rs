//! A line that is a heading of a recipe, and of what.

use super::clean::PastedLine;
use super::words::WordList;

/// A heading is short (ours).
pub(super) const MOST_HEADING_WORDS: usize = 8;

pub(super) enum Heading {
    Body,
    Method,
    Last,
    Stage(String),
}

/// "Ingredients", "Method:", "For the syrup:", "Syrup:".
pub(super) fn heading(line: &PastedLine) -> Option<Heading> {
    let text = line.text.trim();
    let bare = text.trim_end_matches(':').trim();
    let lower = bare.to_lowercase();
    let for_the = ["for the ", "for ", "the "].iter().find_map(|begin| {
        bare.get(..begin.len()).filter(|front| front.eq_ignore_ascii_case(begin)).and(bare.get(begin.len()..))
    });
    let is_marked = text.ends_with(':') || line.heading;
    match () {
        () if WordList::Body.has_singular(&lower) => Some(Heading::Body),
        () if WordList::Method.has_singular(&lower) => Some(Heading::Method),
        () if WordList::Final.has(&lower) || WordList::Behind.has(&lower) => Some(Heading::Last),
        () if is_marked && !bare.is_empty() && bare.split(' ').count() <= MOST_HEADING_WORDS => {
            Some(Heading::Stage(for_the.unwrap_or(bare).to_owned()))
        }
        () => None,
    }
}
