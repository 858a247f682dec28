//! Characters that nobody sees, and that make a text read as another one.

use crate::diagnostic::is_unruly;

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
