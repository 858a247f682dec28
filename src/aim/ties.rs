//! Which of equal answers is taken: the cheapest, then the one with the least beside water.

use crate::card::Card;
use crate::house::House;
use crate::larder::Ingredient;
use crate::solver::Offer;
use crate::solver::room::BestCorner;
use crate::vocabulary::{Kind, Spared};

use super::goal::Goal;

/// What decides between answers that are as good, one after the other.
pub(super) struct Ties(pub Vec<Goal>);

impl Ties {
    /// By the prices of the larder, where all that is open has one; then by what has to be bought and carried.
    pub(super) fn of(card: &Card, offer: &Offer, house: &House) -> Self {
        let by_cost = Goal::of(Spared::Cost, card, offer, house).ok();
        Self(by_cost.into_iter().chain([Goal::grams(&beside_water(offer))]).collect())
    }

    /// What is taken, in words.
    pub(super) fn taken(&self) -> &'static str {
        if self.0.len() > 1 { "the cheapest" } else { "the one with the most water" }
    }

    /// Whether the one is to be taken before the other.
    pub(super) fn prefer(&self, one: &BestCorner, other: &BestCorner) -> bool {
        let decides = self.0.iter().find_map(|goal| goal.is_less(&one.masses, &other.masses));
        decides.unwrap_or(false)
    }
}

/// Of a gram of each open part what is no water.
pub(super) fn beside_water(offer: &Offer) -> Vec<f64> {
    let is_water = |ingredient: &Ingredient| ingredient.kind == Some(Kind::Water);
    let own = |part: usize| -> f64 {
        offer.ingredients(part).iter().filter(|(ingredient, _)| !is_water(ingredient)).map(|(_, share)| share).sum()
    };
    (0..offer.parts.len()).map(|part| if offer.room.is_open(part) { own(part) } else { 0.0 }).collect()
}
