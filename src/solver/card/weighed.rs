//! What the house weighed of the water from ice in its drinks that are made alike: it counts before the balance of heat.

use crate::card::{self, Card};
use crate::diagnostic::any_error;
use crate::house::{House, SourceFile, WeighedDrink};
use crate::vocabulary::{DrinkHow, IceKind};

use super::super::ice_water::{IceWater, WeighedAlike};
use super::cook::Options;
use super::solve;

/// What the house weighed of drinks that are made as this one and meet the same kind of ice, brought to this one: what they
/// gained more or less than the middle of their balance of heat, this one does too, however much is poured and however warm
/// it is. `None` where none was weighed.
pub(super) fn alike(card: &Card, balance: &IceWater, house: &House) -> Option<WeighedAlike> {
    let made = made_by(card);
    let weighed =
        house.weighed_drinks(|| house.cards().filter_map(|other| weighed_drink(&other.source, house)).collect());
    let of = weighed.iter().filter(|of| of.made == made).map(|of| of.of_balance * balance.middle_g());
    let mut grams: Vec<f64> = of.collect();
    grams.sort_by(f64::total_cmp);
    let middle = |at: usize| grams.get(at).copied();
    let n = grams.len();
    Some(WeighedAlike {
        drinks: n,
        middle_g: 0.5 * (middle(n.checked_sub(1)? / 2)? + middle(n / 2)?),
        least_g: *grams.first()?,
        most_g: *grams.last()?,
    })
}

/// How a drink is made, and on what ice.
fn made_by(card: &Card) -> (Option<DrinkHow>, Option<IceKind>) {
    let ice = card.drink.ice.as_ref();
    (card.drink.how.as_ref().map(|how| how.value), ice.and_then(|ice| ice.kind))
}

/// A card that is a drink whose water was weighed.
fn weighed_drink(source: &SourceFile, house: &House) -> Option<WeighedDrink> {
    // most cards are no drinks, and need not be read
    if !source.text.lines().any(|line| line.trim_start().starts_with("how")) {
        return None;
    }
    let (card, found) = card::read_by(source.file.clone(), source.text.clone(), &house.customs());
    let card = card.filter(|card| card.drink.weighed_g().is_some() && !any_error(&found))?;
    // what is learned here cannot count in it
    let solved = solve(&card, house, &Options { by_balance: true, ..Options::default() }).solved?;
    let water = solved.ice_water.as_ref().filter(|water| !water.is_implausible())?;
    let middle = water.middle_g();
    (middle > 0.0).then(|| WeighedDrink { made: made_by(&card), of_balance: water.grams / middle })
}
