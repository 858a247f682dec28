//! A unit that is read in one of two ways without a question: which way, so that it can be said.

use super::Reading;
use super::display::grouped;
use super::measures::{MEASURES, normalised};

/// A unit that has a US and an imperial reading is taken as the US one where its country is not named.
const TAKEN: &str = "fl oz (US)";

/// What was taken for granted of the units of these amounts: "8 fl oz is read as US fluid ounces of 29.57 ml; write
/// `imp fl oz` for 28.41 ml". Nothing where there is one reading, or the country is named.
pub(crate) fn taken<'a>(written: impl IntoIterator<Item = &'a Reading>) -> Option<String> {
    let ml = |name: &str| MEASURES.iter().find(|m| m.name == name).map(|m| grouped(m.factor, 2));
    let mut amounts: Vec<_> = written.into_iter().filter(|read| is_taken(read)).map(|read| read.text.trim()).collect();
    amounts.dedup();
    let verb = if amounts.len() == 1 { "is" } else { "are" };
    let (one, other) = (ml(TAKEN)?, ml("fl oz (imp)")?);
    let amounts = Some(amounts.join(", ")).filter(|all| !all.is_empty())?;
    Some(format!("{amounts} {verb} read as US fluid ounces of {one} ml; write `imp fl oz` for {other} ml"))
}

fn is_taken(read: &Reading) -> bool {
    let names_it = || normalised(&read.text).split(|c: char| !c.is_alphabetic()).any(|word| word == "us");
    read.measure.is_some_and(|measure| measure.name == TAKEN) && !names_it()
}
