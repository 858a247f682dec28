//! So many of a thing, said behind its name: "limes: 4", "basil 5 leaves".

use super::how_many::counts;
use super::names::Names;

/// "Star anise - 3", "limes: 4", "vanilla pod 1", "basil .... 2 bunches": so many of what is known stand behind it.
pub(super) fn number_behind(words: &[&str], names: Names<'_>) -> Option<String> {
    let is_number = |word: &&str| word.chars().all(|c| c.is_ascii_digit());
    let at = words.iter().rposition(is_number).filter(|at| *at > 0 && words.len() <= at + 2)?;
    let (front, behind) = words.split_at_checked(at)?;
    let is_joint = |word: &&&str| word.chars().all(|c| !c.is_alphanumeric()) || ["x", "×"].contains(*word);
    let joints = front.iter().rev().take_while(is_joint).count();
    let name = front.get(..at - joints)?.join(" ");
    let name = name.trim_end_matches([':', ',']);
    let said = match behind {
        [number] => format!("{number} {name}"),
        // "tea 4 bags"
        [number, by] if names.knows(&format!("{name} {by}")) => format!("{number} {name} {by}"),
        [number, by] if by.starts_with(char::is_alphabetic) && counts(by) => format!("{number} {by} {name}"),
        _ => return None,
    };
    (names.knows(name) || names.plain(name).is_some()).then_some(said)
}
