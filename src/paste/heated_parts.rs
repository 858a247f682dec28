//! Whether a heat was of all that is in the pan, of some parts that its step names, or of what nobody can tell.

use crate::larder::Form;

use super::boiled_down::is_heated;
use super::names::Names;
use super::speaks::{says_all, speaks_of_one};
use super::strains::strains;
use super::words::WordList;

/// What the steps call what ran through a strainer.
pub(super) const LIQUID: &str = "liquid liquor infusion mixture back return flüssigkeit sud liquide líquido liquido";

/// "Make a syrup with the sugar and the water, boil it": what stands in front of the heat names what is in that pan.
pub(super) fn is_of_some(front: &str, said: &str, elsewhere: &[&str], parts: &[&str], names: Names<'_>) -> bool {
    let names_one = |text: &str| parts.iter().any(|part| speaks_of_one(part, parts, text, names));
    let is_other = |part: &&&str| {
        !speaks_of_one(part, parts, front, names)
            && elsewhere.iter().any(|text| speaks_of_one(part, parts, text, names))
    };
    let is_told = names_one(front) && !names_one(said) && !WordList::Join.within(front) && !says_all(front);
    is_told && parts.iter().any(|part| is_other(&part))
}

/// Half an hour, and what is reduced by half, is no half of it.
pub(super) fn of_half(text: &str) -> bool {
    let lower = text.to_lowercase();
    let says = |phrases: &[&str]| phrases.iter().any(|phrase| lower.contains(phrase));
    let by_half = says(&["by half", "de moitié", "um die hälfte", "a la mitad"]);
    !by_half && (WordList::Half.within(text) || says(&["half of ", "half the "]))
}

/// Whether a heat is of all parts: it names them all, or none and so what is in the pan.
pub(super) fn is_of_all(said: &str, before: &[&str], parts: &[&str], names: Names<'_>) -> bool {
    let named = |texts: &[&str]| {
        parts.iter().filter(|part| texts.iter().any(|text| speaks_of_one(part, parts, text, names))).count()
    };
    // "add the sugar and bring to a boil", "slice the oranges, boil in the water", "heat gently with the sugar": what was
    // there before is heated as well
    let adds = || {
        let mut behind = said.split(' ').skip(1).skip_while(|word| word.ends_with("ly"));
        let goes_in = behind.next().is_some_and(|word| WordList::Into.has(word));
        // "add the sugar and boil" behind a straining: to what ran through, where it names no other liquid
        let is_liquid = |part: &&str| names.house.larder.find(part).is_some_and(|known| known.form == Form::Liquid);
        let has_other = parts.iter().any(|part| is_liquid(part) && speaks_of_one(part, parts, said, names));
        let ran = usize::from(
            !has_other
                && parts.contains(&LIQUID)
                && !before.iter().any(|text| speaks_of_one(LIQUID, parts, text, names)),
        );
        (WordList::Join.within(said) || goes_in) && named(before) + ran == parts.len()
    };
    if says_all(said) {
        return true;
    }
    match named(&[said]) {
        0 => {
            // "bring the sugar and the juice to a boil, then simmer for 20 min": what is in the pan is what the last heat named
            let is_pan = |text: &&str| is_heated(text) && named(&[text]) > 0;
            let pan = before.iter().rposition(is_pan).and_then(|at| before.get(at..));
            pan.is_none_or(|pan| named(pan) == parts.len() || pan.iter().any(|text| says_all(text)))
                || ran_through_again(said, before, parts, names)
        }
        some => some == parts.len() || adds(),
    }
}

/// "Strain, bring back to the boil": all that ran through, for the rest of what goes in by then is what the strainer keeps.
fn ran_through_again(said: &str, before: &[&str], parts: &[&str], names: Names<'_>) -> bool {
    let is_in =
        |part: &&str| names.is_strained_out(part) || before.iter().any(|text| speaks_of_one(part, parts, text, names));
    WordList::Again.is_said_in(said) && before.iter().any(|text| strains(text)) && parts.iter().all(is_in)
}

/// "Boil the sugar and the water": some of the parts by their names. What alcohol a pan drives off is asked all the same.
pub(super) fn is_of_named(said: &str, parts: &[&str], names: Names<'_>) -> bool {
    let (named, others): (Vec<&str>, Vec<&str>) =
        parts.iter().partition(|part| speaks_of_one(part, parts, said, names));
    !named.is_empty() && !others.is_empty() && !says_all(said) && named.iter().all(|part| !names.has_alcohol(part))
}
