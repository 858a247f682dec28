//! A card cannot make a terminal obey it.

use std::borrow::Cow;

/// What moves the cursor or turns the text round it, on a terminal or on paper: control characters, and the embeddings,
/// overrides and isolates of the bidirectional algorithm (Unicode Standard Annex 9).
pub(crate) fn is_unruly(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// A text for a terminal: lines and tabs stay, what is unruly is shown as a sign that something is there.
pub(crate) fn tamed(text: &str) -> Cow<'_, str> {
    let is_wild = |c: char| is_unruly(c) && !matches!(c, '\n' | '\t');
    if text.contains(is_wild) { text.replace(is_wild, "\u{fffd}").into() } else { text.into() }
}
