//! What the steps of a recipe say of time: how long it stands, and whether in the cold.

use crate::units::told::{Clause, OVERNIGHT_H, first_told, is_overnight};
use crate::units::{Literal, literal};

use super::draft::{DraftLine, Remark};
use super::keys;
use super::words::WordList;

/// "18 hours in the fridge", "a week in a jar", "o/n": what only says how long says that it stands.
pub(super) fn begins_with_time(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().map(|word| word.trim_end_matches([',', ':', ';'])).collect();
    let is_time = |n: &usize| {
        words.get(..*n).is_some_and(|front| matches!(literal::parse(&front.join(" ")), Ok(Literal::Time(_))))
    };
    [1, 2].iter().any(is_time) || words.get(..1).is_some_and(is_overnight)
}

/// The time that words tell, and what was taken for granted of it.
pub(super) fn time(words: &[&str]) -> Option<(String, Option<Remark>)> {
    let is_time = |literal| if let Literal::Time(time) = literal { Some(time) } else { None };
    if let Some((text, _)) = first_told(words, is_time) {
        return Some((text, None));
    }
    let said = || Remark::Assumed(format!("overnight is {OVERNIGHT_H} hours"));
    is_overnight(words).then(|| (format!("{OVERNIGHT_H} h"), Some(said())))
}

/// How long a clause says that it stands.
pub(super) fn wait(clause: &Clause<'_>) -> Option<DraftLine> {
    if !(WordList::Wait.within(clause.text) || begins_with_time(clause.text) || is_overnight(&clause.words)) {
        return None;
    }
    let (long, assumed) = time(&clause.words)?;
    let mut line = keys::checked("", DraftLine::text("takes", &long), clause.text);
    line.remarks.extend(assumed);
    if WordList::Cold.within(clause.text) {
        line = line.with(Remark::Question("how cold does it stand? at = \"… °C\"".to_owned()));
    }
    Some(line)
}
