//! What the glasses of a plan take and no order list has: ice, and what they are garnished with.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::plan::Pour;
use crate::plan::calendar::Calendar;
use crate::units::in_grams;

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

impl NotOrderedView {
    /// `None` where no glass takes any.
    pub(crate) fn new(pours: &[Pour], calendar: &Calendar) -> Option<Self> {
        let mut view = Self { ice_g: 0.0, ice_not_weighed_in: Vec::new(), garnish: BTreeMap::new() };
        for pour in pours {
            let glasses: u64 = (0..calendar.days).map(|day| pour.glasses.on_day(calendar, day)).sum();
            if glasses == 0 {
                continue;
            }
            let (name, drink) = (&pour.drink.name, &pour.drink.card.drink);
            match drink.ice.as_ref().and_then(|ice| ice.grams).map(in_grams) {
                Some(grams) => view.ice_g += grams * glasses as f64,
                None if pour.drink.ice_water.is_some() && !view.ice_not_weighed_in.contains(name) => {
                    view.ice_not_weighed_in.push(name.clone());
                }
                None => {}
            }
            if let Some(garnish) = &drink.garnish {
                *view.garnish.entry(garnish.clone()).or_default() += glasses;
            }
        }
        let is_any = view.ice_g > 0.0 || !view.ice_not_weighed_in.is_empty() || !view.garnish.is_empty();
        is_any.then_some(view)
    }
}
