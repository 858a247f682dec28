//! Of which parts nobody knows the acids: why a pH cannot be computed that sugar and water alone would not have.

use crate::diagnostic::once::without_repeats;
use crate::house::Instruments;
use crate::instruments::readings::PH_METER;
use crate::larder::Ingredient;
use crate::mixture::{Component, Mixture};
use crate::solver::Solved;

use crate::properties::Acidity;

/// What brings neither acid nor base.
const PLAIN: [Component; 10] = [
    Component::Water,
    Component::Ethanol,
    Component::Sucrose,
    Component::Glucose,
    Component::Fructose,
    Component::Maltose,
    Component::Lactose,
    Component::Sugars,
    Component::Glycerol,
    Component::Salt,
];
/// Of an ingredient with less than this share of anything else the acids are of no weight (ours: refined sugar has a
/// thousandth).
const ELSE: f64 = 0.005;

/// What is known of the acidity of a batch of this card. A reading speaks of the card as it stands, no other batch.
pub(crate) fn of(solved: &Solved, instruments: &Instruments) -> Acidity {
    let read = solved.card.measured.ph.filter(|_| solved.as_the_card_stands());
    Acidity { unknown: unknown(solved), read: read.map(|ph| (ph.value, instruments.ph_meter.unwrap_or(PH_METER))) }
}

/// The ingredients that bring more than sugar, spirit, salt and water, and of which no acid is listed; each once.
fn unknown(solved: &Solved) -> Vec<String> {
    let all = solved.ingredients().into_iter().filter(|(ingredient, grams)| *grams > 0.0 && is_unknown(ingredient));
    without_repeats(all.map(|(ingredient, _)| ingredient.name.clone()))
}

fn is_unknown(ingredient: &Ingredient) -> bool {
    let of: &Mixture = &ingredient.per_gram;
    of.grams_of_all(&Component::ACIDS) == 0.0 && 1.0 - of.grams_of_all(&PLAIN) > ELSE
}
