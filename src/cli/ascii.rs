//! Plain letters for a terminal that shows no others. Only the signs that stillroom itself writes are
//! replaced; a name from a maker's own file is left as it is written.

use std::borrow::Cow;

const SIGNS: &[(char, &str)] = &[
    ('°', ""), // before C, F and Bx
    ('·', "-"),
    ('±', "+/-"),
    ('×', "x"),
    ('²', "2"),
    ('³', "3"),
    ('µ', "u"),
    ('→', "->"),
    ('≤', "<="),
    ('≥', ">="),
    ('–', "-"),
    ('−', "-"),
    ('…', "..."),
    ('’', "'"),
];

/// Whether the locale says that the terminal takes UTF-8: the first that is set of `LC_ALL`, `LC_CTYPE` and
/// `LANG` decides (POSIX.1-2017, Base Definitions 8.2). Where none is set nothing is known against it.
pub(crate) fn takes_utf8(variable: impl Fn(&str) -> Option<String>) -> bool {
    let locale = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().filter_map(variable).find(|value| !value.is_empty());
    locale.is_none_or(|locale| {
        let locale = locale.to_lowercase();
        locale.contains("utf-8") || locale.contains("utf8")
    })
}

/// The text for a terminal that takes UTF-8, or for one that does not.
pub(crate) fn fitted(text: &str, utf8: bool) -> Cow<'_, str> {
    if utf8 || text.is_ascii() {
        return Cow::Borrowed(text);
    }
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match SIGNS.iter().find(|(sign, _)| *sign == c) {
            Some((_, letters)) => plain.push_str(letters),
            None => plain.push(c),
        }
    }
    Cow::Owned(plain)
}
