//! Sugar that only a likeness lends: it says how sweet a thing is, and nothing of how dry.

use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::larder::{Ingredient, Larder};
use crate::mixture::{Component, Mixture};
use crate::solver::Solved;
use crate::spelling::words;

/// What makes up less of a batch is not spoken of, as a share (ours).
const LEAST_SAID: f64 = 0.05;

/// Grams of it in a gram: `like = "honey"` makes no honey of a date paste. Its own Brix does, or a word of that other name ("heather honey").
pub(super) fn lent_sugar(of: &Ingredient, house: &House) -> f64 {
    let sugar = of.per_gram.sugar_grams();
    let Some(lender) = of.like.first().and_then(|like| house.larder.find(like)) else { return 0.0 };
    let is_lent = sugar > 0.0 && sugar == lender.per_gram.sugar_grams();
    let own: Vec<String> = of.written_names().flat_map(words).collect();
    let says = || lender.written_names().flat_map(words).any(|word| own.contains(&word));
    let is_known = || Larder::built_in().find(&of.name).is_some_and(|known| known.kind == lender.kind);
    if is_lent && !says() && !is_known() { sugar } else { 0.0 }
}

/// The liquid with so much of its sugar as water.
pub(super) fn without_sugar(liquid: &Mixture, grams: f64) -> Mixture {
    let sugar = liquid.sugar_grams();
    let taken = grams.min(sugar);
    let mut left = *liquid;
    if taken > 0.0 {
        Component::SUGARS.iter().for_each(|&of| left.set_grams(of, liquid.grams_of(of) * (1.0 - taken / sugar)));
        left.set_grams(Component::Water, left.grams_of(Component::Water) + taken);
    }
    left
}

/// What to write of such a part, so that its sugar counts.
pub(super) fn questions(solved: &Solved, house: &House) -> Vec<Diagnostic> {
    if solved.card.measured.brix.is_some() {
        return Vec::new();
    }
    let total: f64 = solved.last().parts.iter().map(|part| part.mass_g).sum();
    let parts = solved.stages.iter().flat_map(|stage| &stage.parts);
    let lent = parts.filter_map(|part| Some((part.mass_g, part.found.what.ingredient()?)));
    let asked = lent.filter(|(grams, of)| grams * lent_sugar(of, house) > LEAST_SAID * total).map(|(_, of)| {
        let like = of.like.first().map_or("", String::as_str);
        let said = format!("`{}` has its sugar of {like}: how dry that makes it does not count for the date", of.name);
        let help = format!("read it and write in larder.toml, [ingredient.\"{}\"]: brix = ?", of.name);
        Diagnostic::warning(Code::NotStated, said).help(help).in_file(&solved.card.file)
    });
    asked.collect()
}
