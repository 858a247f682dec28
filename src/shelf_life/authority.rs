//! What the authority of the place allows for one product, as the house entered it (`[[local_code]]`). The built-in limits
//! are the cautious published defaults. What is stricter always counts; what is milder lifts the days of food that needs
//! control, to no more than its contents allow, and nothing else.

use super::hurdles::Hurdles;
use super::product::{Dairy, Egg, Product};
use super::staling::emulsion_days;

/// The default for food that needs control: FDA Food Code 2022, 3-501.16(A)(2), 5 °C (41 °F) or below.
pub(crate) const CONTROL_MAX_C: f64 = 5.0;
/// The default for food that needs control: FDA Food Code 2022, 3-501.17, 7 days, the day made is day 1.
pub(crate) const CONTROL_DAYS: u32 = 7;
/// The most that a milder limit may lift them to, where nothing in it asks for less (ours).
const MOST_DAYS: u32 = 30;

/// Limits of the authority; what is absent is the default.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Authority {
    /// Who, when and where it is written, in words.
    pub entered: Option<String>,
    /// Everything that makes a milder limit count was said.
    pub answered_for: bool,
    /// Days for food that needs control.
    pub days: Option<u32>,
    /// The warmest store for it, °C.
    pub max_c: Option<f64>,
    /// An assessment of this product is on record.
    pub assessed: bool,
}

impl Authority {
    /// Days for a product that needs control.
    pub(crate) fn control_days(&self, product: &Product, hurdles: &Hurdles) -> u32 {
        let asked = match self.days {
            Some(days) => days,
            None if self.assessed => MOST_DAYS,
            None => CONTROL_DAYS,
        };
        if asked <= CONTROL_DAYS {
            return asked;
        }
        if self.answered_for { asked.min(lifts_to(product, hurdles)).max(CONTROL_DAYS) } else { CONTROL_DAYS }
    }

    /// The warmest store for a product that needs control, °C.
    pub(crate) fn control_c(&self) -> f64 {
        let entered = self.max_c.filter(|t| t.is_finite());
        let milder = self.answered_for || entered.is_some_and(|t| t <= CONTROL_MAX_C);
        entered.filter(|_| milder).unwrap_or(CONTROL_MAX_C)
    }

    /// Whether these days, or the warmest store, are what was entered, and not the default beside a limit that does not count.
    pub(crate) fn decides(&self, days: u32) -> bool {
        days != CONTROL_DAYS || self.days == Some(days) || self.control_c() != CONTROL_MAX_C
    }

    /// Whether a limit counts that is longer or warmer than the default.
    pub(crate) fn milder_than_default(&self) -> bool {
        self.answered_for
            && (self.assessed
                || self.days.is_some_and(|days| days > CONTROL_DAYS)
                || self.max_c.is_some_and(|t| t > CONTROL_MAX_C))
    }
}

/// The most days that a milder limit may lift the legal days to, by what is in it (ours).
fn lifts_to(product: &Product, hurdles: &Hurdles) -> u32 {
    let contents = product.contents;
    let low_acid = hurdles.ph_up.is_none_or(|ph| ph > 4.6);
    if contents.egg == Some(Egg::Raw) || contents.in_oil {
        0
    } else if contents.dairy == Some(Dairy::Milk)
        || contents.nut
        || contents.meat_or_fish
        || (contents.low_acid_plant && low_acid)
    {
        CONTROL_DAYS
    } else if contents.emulsion_or_milk() {
        emulsion_days(hurdles.abv).floor() as u32
    } else {
        MOST_DAYS
    }
}
