//! The strength of a spirit or a wine, said beside its name: "rum, 54 % abv", "vodka (80 proof)".

use crate::mixture::Component;
use crate::mixture::alcohol::{abv_of, mass_fraction_of_proof};
use crate::units::display::short;
use crate::units::{Literal, MassFraction, literal};

use super::names::Names;
use super::words::WordList;

/// "Rum (54 % abv)", "vin blanc (12,5 %)": the bottle by its strength, where that is another than its own.
pub(super) fn of_strength(of: &str, said: &str, names: Names<'_>) -> Option<String> {
    let stated = match literal::parse(said) {
        Ok(Literal::Abv(abv)) => abv,
        Ok(Literal::Percent(share)) => share * 100.0,
        Ok(Literal::Proof(proof)) => abv_of(mass_fraction_of_proof(proof)?).get(),
        _ => of_degrees(said)?,
    };
    let known = names.house.larder.find(of).filter(|known| known.per_gram.grams_of(Component::Ethanol) > 0.0)?;
    let own = abv_of(MassFraction::saturating(known.per_gram.grams_of(Component::Ethanol))).get();
    let is_own = (own - stated).abs() < 0.5;
    let named = if is_own { of.to_owned() } else { format!("{of} {}%", short(stated)) };
    Some(named).filter(|named| names.is_spirit(of) || names.knows(named))
}

/// "37,5º", "50°", "50 gradi": beside a spirit those of its label.
fn of_degrees(said: &str) -> Option<f64> {
    let said = said.trim();
    let in_words = || {
        said.rsplit_once(' ')
            .filter(|(_, word)| WordList::Degrees.has(word) || WordList::DegreesCelsius.has(word))
            .map(|(number, _)| number)
    };
    let number = said.strip_suffix(['°', 'º']).or_else(in_words)?;
    number.trim().replace(',', ".").parse().ok().filter(|degrees| (0.0..=100.0).contains(degrees))
}

/// "Alcol a 95°", "vin blanc sec à 12 %": the bottle by its name and its strength, where the house knows such a one.
pub(super) fn by_its_strength(name: &str, names: Names<'_>) -> Option<String> {
    let joined = name.replace('º', "°").replace(" %", "%").replace(" °", "°");
    let (front, last) = joined.rsplit_once(' ')?;
    let number = last.strip_suffix(['%', '°'])?;
    number.replace(',', ".").parse::<f64>().ok()?;
    let small = ["a", "à", "au", "al", "at", "mit", "zu", "von", "de", "di", "con"];
    let bare = front.rsplit_once(' ').filter(|(_, word)| small.contains(word)).map_or(front, |(bare, _)| bare);
    Some(format!("{bare} {number}%")).filter(|known| names.knows(known))
}
