//! A unit that is read in one of two ways without a question: which way, so that it can be said.

use super::Reading;
use super::display::grouped;
use super::measures::{MEASURES, Measure, Settled, measure, normalised};
use crate::vocabulary::MeasureSystem;

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
    read.settled.is_none()
        && read.measure.is_some_and(|measure| measure.name == TAKEN)
        && !names_its_country(&read.text)
}

fn names_its_country(text: &str) -> bool {
    normalised(text).split(|c: char| !c.is_alphabetic()).any(|word| word == "us")
}

/// What a fluid ounce without its country is in a house that says by which measures it works; metric ones have none.
pub(super) fn fluid_ounce(read: &'static Measure, text: &str, system: Option<MeasureSystem>) -> Option<Settled> {
    let named = match system.filter(|_| read.name == TAKEN && !names_its_country(text))? {
        MeasureSystem::Us => read,
        MeasureSystem::Imperial => measure("imp fl oz")?,
        MeasureSystem::Metric => return None,
    };
    Some(Settled { system: system?, word: "fl oz", measure: named, of_solid: None })
}

/// What the house settled of these amounts: "US measures: 1 cup = 236.6 ml".
pub(crate) fn settled<'a>(written: impl IntoIterator<Item = &'a Reading>) -> Option<String> {
    let mut all: Vec<Settled> = Vec::new();
    for settled in written.into_iter().filter_map(|read| read.settled) {
        if all.iter().all(|known| known.word != settled.word) {
            all.push(settled);
        }
    }
    let each = |settled: &Settled| {
        let decimals = if settled.measure.factor < 100.0 { 2 } else { 1 };
        let solid = settled.of_solid.map(|of| format!(" poured, {} g weighed", grouped(of.factor, 2)));
        let ml = grouped(settled.measure.factor, decimals);
        format!("1 {} = {ml} ml{}", settled.word, solid.unwrap_or_default())
    };
    let system = all.first()?.system;
    Some(format!("{system} measures: {}", all.iter().map(each).collect::<Vec<_>>().join(", ")))
}
