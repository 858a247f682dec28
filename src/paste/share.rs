//! Amounts that are a share of what is there: "the same weight of caster sugar", "to each litre of juice 600 g sugar". How much
//! that is nobody knows before the rest is measured.

use crate::diagnostic::Code;
use crate::input::key;
use crate::larder::Form;
use crate::units::{Literal, LiteralError};

use super::amounts::is_size;
use super::names::Names;
use super::words::WordList;

/// A name, and a unit, have so many words at the most (ours).
const MOST_NAME_WORDS: usize = 4;
const MOST_UNIT_WORDS: usize = 3;

/// What is to be asked of a text that says a share.
pub(super) fn share(text: &str, names: Names<'_>) -> Option<String> {
    let words: Vec<&str> = text.split_whitespace().map(|word| word.trim_end_matches(['.', ',', ';', ':'])).collect();
    let thing = of_same(&words, names).or_else(|| for_each(&words, names))?;
    let is_liquid = names.house.larder.find(&thing).is_some_and(|known| known.form == Form::Liquid);
    let unit = if is_liquid { "ml" } else { "g" };
    Some(format!("how much is that in all? measure the rest first: {} = \"… {unit}\"", key(&thing)))
}

/// "The same weight of caster sugar", "add its weight in sugar".
fn of_same(words: &[&str], names: Names<'_>) -> Option<String> {
    let same = words.iter().position(|word| WordList::Same.has(word))?;
    let measure = words.iter().skip(same + 1).take(2).position(|word| WordList::Measure.has_singular(word))?;
    let rest = words.get(same + measure + 2..)?;
    let small = |word: &&&str| {
        WordList::Of.has(word)
            || WordList::Article.has(word)
            || ["of", "in", "the", "an"].contains(&word.to_lowercase().as_str())
    };
    let rest = rest.get(rest.iter().take_while(small).count()..)?;
    // what nobody knows by name is asked too, where it is put in
    let puts_in = || WordList::Join.within(&words.join(" "));
    known(rest, names).or_else(|| {
        let name = rest.get(..rest.len().min(MOST_NAME_WORDS))?.join(" ");
        (!name.is_empty() && puts_in()).then_some(name)
    })
}

/// "To each litre of juice 600 g sugar", "2 g salt per kg".
fn for_each(words: &[&str], names: Names<'_>) -> Option<String> {
    let (at, end) = unit_of_each(words, names)?;
    let (front, behind) = (words.get(..at)?, words.get(end..)?);
    [behind, front].into_iter().find_map(|words| {
        let number = words.iter().position(|word| word.starts_with(|c: char| c.is_numeric()))?;
        (number + 1..=words.len().min(number + MOST_UNIT_WORDS + 2)).find_map(|n| known(words.get(n..)?, names))
    })
}

/// Whether it says of how much something is taken each time, with or without what that is.
pub(super) fn is_for_each(text: &str, names: Names<'_>) -> bool {
    unit_of_each(&text.split_whitespace().collect::<Vec<_>>(), names).is_some()
}

/// Where "each" stands, and where the unit behind it ends.
fn unit_of_each(words: &[&str], names: Names<'_>) -> Option<(usize, usize)> {
    let at = words.iter().position(|word| WordList::Each.has(word))?;
    let is_unit = |n: &usize| {
        let unit = words.get(at + 1..at + 1 + n).map(|words| words.join(" ")).unwrap_or_default();
        let one = if unit.starts_with(|c: char| c.is_numeric()) { unit } else { format!("1 {unit}") };
        let is_double = |e: &LiteralError| e.code == Code::AmbiguousUnit;
        names.reads(one.trim_end_matches(',')).map_or_else(|e| is_double(&e), |read: Literal| is_size(read))
    };
    (1..=MOST_UNIT_WORDS).rev().find(is_unit).map(|n| (at, at + 1 + n))
}

/// The longest name that words begin with, behind "of" and "the".
pub(super) fn known(words: &[&str], names: Names<'_>) -> Option<String> {
    let small = |word: &&&str| {
        ["of", "the"].contains(&word.to_lowercase().as_str()) || WordList::Of.has(word) || WordList::Article.has(word)
    };
    let words = words.get(words.iter().take_while(small).count()..)?;
    (1..=words.len().min(MOST_NAME_WORDS)).rev().find_map(|n| {
        let name = words.get(..n)?.join(" ");
        // "de l'eau", "d’acide citrique"
        let elided = ["l'", "l’", "d'", "d’"].iter().find_map(|small| name.strip_prefix(small));
        let name = elided.unwrap_or(&name).to_owned();
        // a clause ends at the bracket that closes
        let open = name.contains('(') && !name.contains(')');
        let name = if open { format!("{name})") } else { name };
        if names.knows(&name) { Some(name) } else { names.plain(&name) }
    })
}
