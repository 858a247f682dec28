//! Characters that nobody sees, and that make a text read as another one.

use std::borrow::Cow;

/// What moves the cursor or turns the text round it, on a terminal or on paper: control characters, and the embeddings,
/// overrides and isolates of the bidirectional algorithm (Unicode Standard Annex 9).
fn is_unruly(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// What has no place in a name: two names that look alike would be two. Joiners stay, some scripts need them.
fn is_hidden(c: char) -> bool {
    is_unruly(c)
        || matches!(c, '\u{61c}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2060}'..='\u{2065}' | '\u{feff}')
        || matches!(c, '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

/// The first character of a name that has no place in it.
pub(super) fn hidden_in(name: &str) -> Option<char> {
    name.chars().find(|c| is_hidden(*c))
}

/// A name without what has no place in it.
pub(super) fn without_hidden(name: &str) -> String {
    name.chars().filter(|c| !is_hidden(*c)).collect()
}

/// A text for a terminal: lines and tabs stay, what is unruly is shown as a sign that something is there.
pub(crate) fn tamed(text: &str) -> Cow<'_, str> {
    let is_wild = |c: char| is_unruly(c) && !matches!(c, '\n' | '\t');
    if text.contains(is_wild) { text.replace(is_wild, "\u{fffd}").into() } else { text.into() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_hidden_is_found_and_what_scripts_need_is_left() {
        for name in ["plain\u{202e}purys", "a\u{1b}[31m", "sugar\u{200b}", "\u{9b}31m"] {
            assert!(hidden_in(name).is_some(), "{name:?}");
            assert_eq!(hidden_in(&without_hidden(name)), None);
        }
        for name in ["sirop d'été", "می\u{200c}خواهم", "שקד", "シロップ"] {
            assert_eq!(hidden_in(name), None);
        }
        assert_eq!(tamed("a\n\tb"), "a\n\tb");
        assert_eq!(tamed("a\u{1b}[31m\u{202e}b"), "a\u{fffd}[31m\u{fffd}b");
    }
}
