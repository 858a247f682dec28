//! Leaves and grounds under a name that is that of the drink as well: a little of them beside water that is heated can only be dry.

use crate::card::{Amount, Card, Part};
use crate::spelling::words;
use crate::units::{in_grams, in_millilitres};
use crate::vocabulary::{Kind, Portion};

use super::cook::Cook;
use super::warm::says_hot;

/// No more leaves than this, grams a litre of water, are steeped: a strong tea for a punch takes 30 (common practice, no source).
const MOST_LEAVES_G_L: f64 = 40.0;
/// About what a spoon of loose leaves weighs, g/ml: a teaspoon is 2 g (common practice, no source).
const LEAVES_G_ML: f64 = 0.4;

/// The word by which a name says that a tea or a coffee is the drink.
pub(super) const BREWED: &str = "brewed";

/// Whether it is measured by a spoon.
pub(super) fn is_by_spoon(part: &Part) -> bool {
    part.written.measure.and_then(|measure| measure.portion).is_some_and(Portion::is_spoon)
}

impl Cook<'_> {
    /// The leaves of `black tea = "3 tbsp"` in a stage with a litre of boiling water.
    pub(super) fn what_is_steeped(&self, card: &Card, part: &Part) -> Option<String> {
        let name = &part.of.value;
        let leaves = self.house.leaves_of(name).filter(|_| !words(name).iter().any(|word| word == BREWED))?;
        let grams = match part.amount.value {
            Amount::Mass(mass) => in_grams(mass),
            Amount::Volume(volume) if is_by_spoon(part) => LEAVES_G_ML * in_millilitres(volume),
            _ => return None,
        };
        let stage = card.all_stages().find(|stage| stage.parts.iter().any(|own| own.label == part.label))?;
        let is_water =
            |of: &&Part| self.house.larder.find(&of.of.value).is_some_and(|known| known.kind == Some(Kind::Water));
        let poured = |of: &Part| match of.amount.value {
            Amount::Mass(mass) => in_grams(mass),
            Amount::Volume(volume) => in_millilitres(volume),
            _ => 0.0,
        };
        let is_hot = |of: &Part| stage.heated.is_some() || says_hot(&of.label.value) || says_hot(&of.of.value);
        let water: f64 = stage.parts.iter().filter(is_water).filter(|of| is_hot(of)).map(poured).sum();
        (grams > 0.0 && grams <= MOST_LEAVES_G_L * water / 1000.0).then_some(leaves)
    }
}
