//! Which drinks fall away with a product or an ingredient, through every product of the house that it goes into.

use std::collections::{BTreeSet, VecDeque};

use crate::card::ICE;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::solver::Solved;
use crate::solver::resolve::Material;
use crate::spelling::{fold, meant_or, nearest};

use super::listed::ListedDrink;

/// What is not there.
#[derive(Clone, Debug)]
pub struct Gone {
    /// Its name, as the house has it.
    pub name: String,
    /// What is pressed or peeled from it, by the names of the larder: who has no limes has no lime juice.
    of_it: Vec<String>,
    /// Whether it is the ice, which is no part of a drink.
    is_ice: bool,
}

/// What a bar takes of a whole fruit (ours).
const TAKEN_OF_A_FRUIT: [&str; 3] = ["juice", "zest", "peel"];

/// A drink that cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenDown {
    /// Its name.
    pub drink: String,
    /// The products through which it goes into it, the outermost first; none where it goes into the glass itself.
    pub by_way_of: Vec<String>,
}

impl Gone {
    /// By the name of a product or an ingredient of the house.
    pub fn find(written: &str, house: &House, drinks: &[ListedDrink<'_>], found: &mut Vec<Diagnostic>) -> Option<Self> {
        let card = house.cards().find(|card| fold(&card.name) == fold(written)).map(|card| card.name.clone());
        let known = card.or_else(|| house.larder.find(written).map(|ingredient| ingredient.name.clone()));
        if known.is_none() {
            let used: BTreeSet<String> = drinks.iter().flat_map(|drink| used(&drink.glass.solved)).collect();
            let near = nearest(written, used.iter().map(String::as_str));
            let title =
                format!("--without \"{written}\": neither a product nor an ingredient of the house has this name");
            let otherwise = "write a name as a card or the larder has it: --without \"Rich muscovado syrup\"";
            found.push(Diagnostic::error(Code::BadArgument, title).help(meant_or(near, otherwise)));
        }
        let taken = |of: &&str| house.larder.find(&format!("{written} {of}")).map(|taken| taken.name.clone());
        let of_it = TAKEN_OF_A_FRUIT.iter().filter_map(taken).collect();
        let is_ice = house.larder.find(written).is_some_and(|known| known.id == ICE);
        known.map(|name| Self { name, of_it, is_ice })
    }
}

/// The names of all that goes into a drink.
fn used(drink: &Solved) -> Vec<String> {
    let cards = drink.with_inner().into_iter().skip(1).map(|(card, _)| card.name.clone());
    cards.chain(drink.ingredients().into_iter().map(|(ingredient, _)| ingredient.name.clone())).collect()
}

/// The drinks that cannot be made without it, in the order of the menu.
pub fn without(gone: &Gone, drinks: &[ListedDrink<'_>]) -> Vec<TakenDown> {
    let way = |drink: &ListedDrink<'_>| {
        let meets_ice = gone.is_ice && drink.glass.solved.ice_water.is_some();
        let by_itself = way_in(&drink.glass.solved, &fold(&gone.name)).or_else(|| meets_ice.then(Vec::new));
        let by_way_of = by_itself.or_else(|| {
            let of_it = gone.of_it.iter();
            let mut ways = of_it.filter_map(|taken| Some((way_in(&drink.glass.solved, &fold(taken))?, taken)));
            ways.next().map(|(way, taken)| way.into_iter().chain([taken.clone()]).collect())
        })?;
        Some(TakenDown { drink: drink.card.name.value.clone(), by_way_of })
    };
    drinks.iter().filter_map(way).collect()
}

/// The shortest way by which it goes in; `None` where it does not.
fn way_in(drink: &Solved, gone: &str) -> Option<Vec<String>> {
    let mut next: VecDeque<(&Solved, Vec<String>)> = VecDeque::from([(drink, Vec::new())]);
    let mut seen = BTreeSet::new();
    while let Some((card, way)) = next.pop_front() {
        let is_it = |what: &Material| match what {
            Material::Ingredient(ingredient) => fold(&ingredient.name) == gone,
            Material::Card(place) => card.inner.get(*place).is_some_and(|inner| fold(&inner.card.name) == gone),
            Material::Stage(_) => false,
        };
        if card.parts().filter(|part| part.melts.is_none()).any(|part| is_it(&part.found.what)) {
            return Some(way);
        }
        for inner in card.inner.iter().filter(|inner| seen.insert(inner.card.index)) {
            let longer = way.iter().chain([&inner.card.name]).cloned().collect();
            next.push_back((&inner.card, longer));
        }
    }
    None
}
