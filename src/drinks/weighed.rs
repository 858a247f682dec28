//! What the house weighed of the water from ice in its drinks that are made alike, to stand beside the balance of heat.

use serde::Serialize;

use crate::card::{self, Card};
use crate::diagnostic::any_error;
use crate::house::{House, SourceFile};
use crate::solver::{Options, Solved, solve};
use crate::vocabulary::{DrinkHow, IceKind};

/// Weighings of other drinks, brought to as much as this one pours.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HouseWeighed {
    /// How many drinks were weighed.
    pub drinks: usize,
    /// The one in the middle, grams of water in this drink.
    pub middle_g: f64,
    /// The least of them.
    pub least_g: f64,
    /// The most.
    pub most_g: f64,
}

/// What the house weighed of drinks that are made as this one and meet the same kind of ice. `None` where this one was weighed
/// itself, or none of the others was.
pub fn house_weighed(drink: &Solved, house: &House) -> Option<HouseWeighed> {
    let own = drink.ice_water.as_ref().filter(|water| !water.weighed)?;
    let poured_g = drink.bottled().total_grams() - own.grams;
    let made = made_by(&drink.card);
    let mut grams: Vec<f64> = house
        .cards()
        .filter_map(|other| weighed_share(&other.source, house, made))
        .map(|share| share * poured_g)
        .collect();
    grams.sort_by(f64::total_cmp);
    let middle = |at: usize| grams.get(at).copied();
    let n = grams.len();
    Some(HouseWeighed {
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

/// The water of a weighed drink for each gram that was poured into it.
fn weighed_share(source: &SourceFile, house: &House, made: (Option<DrinkHow>, Option<IceKind>)) -> Option<f64> {
    // most cards are no drinks, and need not be read
    if !source.text.contains("how") {
        return None;
    }
    let (card, found) = card::read_by(source.file.clone(), source.text.clone(), &house.customs());
    let card = card.filter(|card| made_by(card) == made && card.drink.weighed_g().is_some() && !any_error(&found))?;
    let solved = solve(&card, house, &Options::default()).solved?;
    let water = solved.ice_water.as_ref()?.grams;
    let poured = solved.bottled().total_grams() - water;
    (poured > 0.0).then(|| water / poured)
}
