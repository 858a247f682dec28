//! What the house weighed of the water from ice in its drinks that are made alike, to stand beside the balance of heat.

use crate::card::{self, Card};
use crate::diagnostic::any_error;
use crate::house::{House, SourceFile, WeighedDrink};
use crate::solver::{Options, SolveOutcome, Solved, WeighedAlike, solve};
use crate::vocabulary::{DrinkHow, IceKind};

/// A drink with the water that the house weighed of drinks made alike; by the balance of heat where it has weighed none.
pub(super) fn solve_as_weighed(card: &Card, house: &House) -> SolveOutcome {
    let by_balance = solve(card, house, &Options::default());
    let alike = by_balance.solved.as_ref().and_then(|drink| house_weighed(drink, house));
    if alike.is_none() { by_balance } else { solve(card, house, &Options { alike, ..Options::default() }) }
}

/// What the house weighed of drinks that are made as this one and meet the same kind of ice. `None` where this one was weighed
/// itself, or none of the others was.
pub fn house_weighed(drink: &Solved, house: &House) -> Option<WeighedAlike> {
    let own = drink.ice_water.as_ref().filter(|water| !water.weighed)?;
    let poured_g = own.met_g;
    let made = made_by(&drink.card);
    let weighed =
        house.weighed_drinks(|| house.cards().filter_map(|other| weighed_drink(&other.source, house)).collect());
    let mut grams: Vec<f64> = weighed.iter().filter(|of| of.made == made).map(|of| of.share * poured_g).collect();
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
    let solved = solve(&card, house, &Options::default()).solved?;
    let water = solved.ice_water.as_ref()?;
    let share = water.grams / water.met_g;
    (water.met_g > 0.0).then(|| WeighedDrink { made: made_by(&card), share })
}
