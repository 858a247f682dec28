//! The doses of a solved card: of every carrier that is weighed in, through inner cards too.

use std::collections::BTreeSet;

use crate::larder::{Ingredient, Larder, Origin};
use crate::mixture::Component;
use crate::properties::{TargetKind, value_of};
use crate::safety::intake::{Carrier, Intake, carriers, intakes};
use crate::solver::Solved;
use crate::solver::target::volume_ml;
use crate::units::{Abv, in_millilitres};
use crate::vocabulary::Kind;

use super::ingredients::tagged;

/// More water and spirit than this in a gram is a drink, an extract or a fresh plant (ours): the table speaks of dry ones.
const DRY_LIQUID: f64 = 0.3;

/// A drink that somebody makes and sells: its maker answers for what went into it, and its weight is none of a plant.
fn is_bought_drink(ingredient: &Ingredient) -> bool {
    use Kind::{Beer, Bitters, Cider, Fortified, Liqueur, Soda, Spirit, Wine};
    matches!(ingredient.kind, Some(Beer | Bitters | Cider | Fortified | Liqueur | Soda | Spirit | Wine))
}

/// Whether it is the dry plant: what an entry of the house is only `like` makes none wetter.
fn is_dry_plant(ingredient: &Ingredient) -> bool {
    let is_dry = |of: &Ingredient| of.per_gram.grams_of_all(&[Component::Water, Component::Ethanol]) < DRY_LIQUID;
    let by_its_name = || match Larder::built_in().find(&ingredient.name) {
        Some(row) => is_dry(row),
        None => ingredient.is_plant_matter(),
    };
    is_dry(ingredient) || ingredient.origin != Origin::BuiltIn && by_its_name()
}

/// How many servings it is; a drink is one. `None` where nobody says how much is served.
pub(super) fn servings(solved: &Solved) -> Option<f64> {
    if solved.card.is_drink() {
        return Some(1.0);
    }
    Some(volume_ml(solved.bottled())? / in_millilitres(solved.card.serving?.value))
}

/// The most of each substance with a limit, in a litre and in a serving.
pub(super) fn doses(solved: &Solved) -> Vec<Intake> {
    let liquid = solved.bottled();
    let ml = volume_ml(liquid);
    let servings = servings(solved);
    let abv = value_of(TargetKind::Abv, liquid).and_then(Abv::new);
    let tags: BTreeSet<_> = carriers().collect();
    let carrier = |tag, is_dry| {
        let of_it =
            tagged(solved, &[tag]).into_iter().filter(|(i, _)| !is_bought_drink(i) && is_dry_plant(i) == is_dry);
        let grams = of_it.map(|(_, grams)| grams).sum();
        Carrier { tag, grams, is_dry, litres: ml.map(|ml| ml / 1000.0), servings, abv }
    };
    tags.into_iter()
        .flat_map(|tag| [carrier(tag, true), carrier(tag, false)])
        .filter(|carrier| carrier.grams > 0.0)
        .flat_map(|c| intakes(&c))
        .collect()
}
