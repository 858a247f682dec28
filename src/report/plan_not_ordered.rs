//! What the glasses of a plan take and no order list has: ice, and what they are garnished with.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::plan::calendar::Calendar;
use crate::plan::{OnIce, Pour};

/// Of all glasses on the days of a plan.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct NotOrderedView {
    /// Ice by the `[ice] grams` of the cards, grams; none for what is poured of a bottle with the water of its ice in it.
    pub(crate) ice_g: f64,
    /// The drinks that meet ice and do not say how much.
    pub(crate) ice_not_weighed_in: Vec<String>,
    /// What the cards are garnished with, as they have it, and how many glasses of it.
    pub(crate) garnish: BTreeMap<String, u64>,
}

impl NotOrderedView {
    /// `None` where no glass takes any.
    pub(crate) fn new(pours: &[Pour], on_ice: &[OnIce], calendar: &Calendar) -> Option<Self> {
        let mut view = Self { ice_g: 0.0, ice_not_weighed_in: Vec::new(), garnish: BTreeMap::new() };
        for OnIce { drink, ice_g } in on_ice {
            match ice_g {
                Some(grams) => view.ice_g += grams,
                None if !view.ice_not_weighed_in.contains(drink) => view.ice_not_weighed_in.push(drink.clone()),
                None => {}
            }
        }
        for pour in pours {
            let glasses: u64 = (0..calendar.days).map(|day| pour.glasses.on_day(calendar, day)).sum();
            if let (Some(garnish), true) = (&pour.drink.card.drink.garnish, glasses > 0) {
                *view.garnish.entry(garnish.clone()).or_default() += glasses;
            }
        }
        let is_any = view.ice_g > 0.0 || !view.ice_not_weighed_in.is_empty() || !view.garnish.is_empty();
        is_any.then_some(view)
    }
}
