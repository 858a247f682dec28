//! What the glasses of a plan take and no order list has: ice, and what they are garnished with.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::card::Amount;
use crate::plan::Pour;
use crate::plan::calendar::Calendar;
use crate::solver::Solved;
use crate::units::{in_grams, in_millilitres};

/// Of all glasses on the days of a plan.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct NotOrderedView {
    /// Ice by the `[ice] grams` of the cards, grams.
    pub(crate) ice_g: f64,
    /// The drinks that meet ice and do not say how much.
    pub(crate) ice_not_weighed_in: Vec<String>,
    /// What the cards are garnished with, as they have it, and how many glasses of it.
    pub(crate) garnish: BTreeMap<String, u64>,
}

/// How many glasses of its card a drink was solved for: one, and of what goes into another any number.
fn glasses_made(drink: &Solved) -> f64 {
    let parts = drink.last().parts.iter().zip(&drink.card.last.parts);
    let mut times = parts.filter_map(|(made, written)| match written.amount.value {
        Amount::Mass(one) => Some(made.mass_g / in_grams(one)),
        Amount::Volume(one) => Some(made.volume_ml()? / in_millilitres(one)),
        _ => None,
    });
    times.find(|times| times.is_finite() && *times > 0.0).unwrap_or(1.0)
}

impl NotOrderedView {
    /// `None` where no glass takes any.
    pub(crate) fn new(pours: &[Pour], calendar: &Calendar) -> Option<Self> {
        let mut view = Self { ice_g: 0.0, ice_not_weighed_in: Vec::new(), garnish: BTreeMap::new() };
        for pour in pours {
            let glasses: u64 = (0..calendar.days).map(|day| pour.glasses.on_day(calendar, day)).sum();
            if glasses == 0 {
                continue;
            }
            // a drink in a drink is made on ice of its own
            for (made, share) in pour.drink.with_inner().into_iter().filter(|(made, _)| made.card.is_drink()) {
                match made.card.drink.ice.as_ref().and_then(|ice| ice.grams).map(in_grams) {
                    Some(grams) => view.ice_g += grams * share * glasses_made(made) * glasses as f64,
                    None if made.ice_water.is_some() && !view.ice_not_weighed_in.contains(&made.name) => {
                        view.ice_not_weighed_in.push(made.name.clone());
                    }
                    None => {}
                }
            }
            if let Some(garnish) = &pour.drink.card.drink.garnish {
                *view.garnish.entry(garnish.clone()).or_default() += glasses;
            }
        }
        let is_any = view.ice_g > 0.0 || !view.ice_not_weighed_in.is_empty() || !view.garnish.is_empty();
        is_any.then_some(view)
    }
}
